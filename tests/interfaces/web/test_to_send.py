"""The code of the customer's page is shown only where a phone can follow it."""

from toptank.interfaces.web.elements.to_send import qr_code, reached_by_others


def test_an_address_counts_as_one_for_others_only_where_others_reach_it() -> None:
    for base in ("http://127.0.0.1:8322/", "http://[::1]:8322/", "http://localhost:8322/", "http://x.localhost/"):
        assert not reached_by_others(base)
    for base in ("https://192.168.1.20:8322/", "http://bench.lan:8322/"):
        assert reached_by_others(base)
    code = qr_code("https://192.168.1.20:8322/job/1/customer.pdf")
    assert code.startswith("<svg")
    assert "http" not in code.replace("http://www.w3.org/2000/svg", "")
