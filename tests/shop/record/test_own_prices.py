"""The shop's own price book: kept beside the record, gone by everywhere, and what is not the shop's own is told."""

from pathlib import Path

import pytest

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.shop.answers.words.invented_prices import invented_prices
from toptank.shop.ask.choice import choose
from toptank.shop.ask.fleet.fleet import _question
from toptank.shop.ask.fleet.item import FleetQuestion
from toptank.shop.cache import answer_cache
from toptank.shop.job.price_book import built_in, read_prices
from toptank.shop.record import own_prices, shop_settings
from toptank.shop.record.store.backup import back_up, jobs_in
from toptank.shop.record.store.generations import keep
from toptank.shop.record.store.opening import opened
from toptank.shop.record.store.restoring import restore
from toptank.units.refusal import Refusal

AT = "2026-01-02T03:04:05.000+00:00"


@pytest.fixture(autouse=True)
def _store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "shop" / "jobs.sqlite"))


def test_a_shop_without_a_book_has_the_invented_one() -> None:
    assert own_prices.read() == built_in()
    assert (own_prices.read().own, own_prices.read().own_labour) == ((), False)
    assert own_prices.mark() == ""


def test_what_is_typed_is_gone_by_wherever_no_book_is_named(tmp_path: Path) -> None:
    saved = own_prices.save(
        {"labour": "1,35", "fan_clutch": "$ 1,189", "cap": "24,50", "thermostat": " ", "currency": "€"}
    )
    assert (saved.labour, saved.parts["fan_clutch"], saved.parts["cap"], saved.currency) == (1.35, 1189.0, 24.5, "€")
    assert saved.parts["thermostat"] == built_in().parts["thermostat"]
    assert (saved.own, saved.own_labour) == (("cap", "fan_clutch"), True)
    assert choose.prices() == saved
    assert (choose.prices().own, choose.prices().lost_day) == (saved.own, built_in().lost_day)
    assert own_prices.place() == tmp_path / "shop" / "prices.toml"


def test_other_prices_are_another_question_so_that_no_old_answer_is_shown() -> None:
    first = own_prices.mark()
    own_prices.save({"labour": "100"})
    second = own_prices.mark()
    own_prices.save({"labour": "101"})
    assert len({first, second, own_prices.mark()}) == 3


def test_an_answer_at_hand_is_not_shown_once_the_prices_are_others() -> None:
    from toptank.shop.ask.service import open_job

    job = open_job("demo")
    before = answer_cache._plans(job)
    own_prices.save({"labour": "100"})
    assert answer_cache._plans(job) != before


@pytest.mark.parametrize(
    ("said", "told"),
    [
        ({"fan_clutch": "189"}, "labour = .missing.: is needed beside prices of your own; type what an hour"),
        ({"labour": "free"}, "labour = free: must be a price between 0 and 100,000; write it like 24.50"),
        ({"labour": "-1"}, "labour = -1: must be a price between 0 and 100,000"),
        ({"labour": "nan"}, "labour = nan: must be a price"),
        ({"labour": "100", "cap": "100001"}, "cap = 100001: must be a price between 0 and 100,000"),
        ({"currency": "£"}, "labour = .missing.: is needed beside prices of your own"),
        ({"currency": "dollars"}, "currency = dollars: must be a sign or short word"),
        ({"labour": "100", "currency": "dollars"}, "currency = dollars: must be a sign or short word"),
    ],
)
def test_a_price_that_cannot_be_used_is_refused_and_the_old_ones_stay(said: dict[str, str], told: str) -> None:
    own_prices.save({"labour": "120", "cap": "20"})
    before = own_prices.place().read_bytes()
    with pytest.raises(Refusal, match=told):
        own_prices.save(said)
    assert own_prices.place().read_bytes() == before


def test_where_everything_is_taken_out_the_shop_has_no_book_again() -> None:
    own_prices.save({"labour": "120"})
    own_prices.save({"labour": " ", "currency": "$"})
    assert not own_prices.place().exists()
    assert own_prices.read() == built_in()


def test_a_file_becomes_the_shops_own_with_its_comments(tmp_path: Path) -> None:
    file = tmp_path / "ours.toml"
    file.write_text('# from the catalogue of spring\nformat = "toptank-prices-2"\nlabour = 90\n[parts]\ncap = 11\n')
    assert own_prices.keep(file).parts["cap"] == 11.0
    assert own_prices.place().read_text().startswith("# from the catalogue of spring\n")
    file.write_text('format = "toptank-prices-2"\nlabour = "dear"\n')
    with pytest.raises(Refusal, match="labour"):
        own_prices.keep(file)
    assert own_prices.read().labour == 90.0


def test_a_backup_holds_head_and_prices_and_brings_them_back(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    shop_settings.save({"name": "Ridge Road Garage", "tax": "8.25"})
    own_prices.save({"labour": "135", "cap": "24.50"})
    with opened() as store:
        back_up(store, tmp_path / "one.zip", at=AT, replace=False)
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "new" / "jobs.sqlite"))
    with opened(anew=True) as store:
        assert restore(store, tmp_path / "one.zip", at=AT, force=False) == (0, None)
    assert (shop_settings.read().name, shop_settings.read().tax_share) == ("Ridge Road Garage", 0.0825)
    assert (own_prices.read().labour, own_prices.read().parts["cap"]) == (135.0, 24.5)


def test_settings_that_are_there_stay_unless_they_are_to_be_replaced_and_are_kept_then(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    own_prices.save({"labour": "135"})
    with opened() as store:
        back_up(store, tmp_path / "one.zip", at=AT, replace=False)
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "new" / "jobs.sqlite"))
    own_prices.save({"labour": "99"})
    with opened(anew=True) as store:
        restore(store, tmp_path / "one.zip", at=AT, force=False)
        assert own_prices.read().labour == 99.0
        _, before = restore(store, tmp_path / "one.zip", at=AT, force=True)
        assert own_prices.read().labour == 135.0
        assert before is not None
        restore(store, before, at=AT, force=True)
    assert own_prices.read().labour == 99.0


def test_one_job_that_is_carried_away_holds_nothing_of_the_shop(tmp_path: Path) -> None:
    import zipfile

    from toptank.shop.record import export_verbs, job_verbs

    shop_settings.save({"name": "Ridge Road Garage"})
    own_prices.save({"labour": "135"})
    job_verbs.open_example()
    export_verbs.export_whole(1, tmp_path / "job.zip")
    with zipfile.ZipFile(tmp_path / "job.zip") as packed:
        assert sorted(packed.namelist()) == ["jobs.sqlite", "manifest.json"]


def test_the_backup_of_the_day_follows_a_change_of_the_settings(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    from datetime import UTC, datetime

    from toptank.shop.record import job_verbs

    monkeypatch.setenv("TOPTANK_BACKUPS", str(tmp_path / "backups"))
    job_verbs.open_example()
    now = datetime(2026, 1, 2, 3, tzinfo=UTC)
    with opened() as store:
        assert jobs_in(store) == 1
        assert keep(store, now) is not None
        assert keep(store, now) is None
        own_prices.save({"labour": "135"})
        day = keep(store, now)
    assert day is not None
    import zipfile

    with zipfile.ZipFile(day) as packed:
        assert "shop/prices.toml" in packed.namelist()


@pytest.mark.parametrize("said", [{}, {"labour": "120"}])
def test_a_book_that_was_written_by_hand_and_cannot_be_read_is_never_written_over(said: dict[str, str]) -> None:
    own_prices.save({"labour": "120"})
    by_hand = b'format = "toptank-prices-2"\nlabour = 120\n[parts]\nfan_cluch = 189\n'
    own_prices.place().write_bytes(by_hand)
    with pytest.raises(Refusal, match=r"prices = .*prices\.toml: cannot be read as it stands .*fan_cluch"):
        own_prices.save(said)
    assert own_prices.place().read_bytes() == by_hand


def test_parts_are_invented_still_once_the_hour_is_the_shops_own_whatever_it_is() -> None:
    plan = ("replace_fan_clutch",)
    assert "built-in price book" in invented_prices(plan, built_in(), "us")
    for hour in ("150", f"{built_in().labour:g}"):
        told = invented_prices(plan, own_prices.save({"labour": hour}), "us")
        assert "Invented examples, not yet the shop's own prices: fan clutch" in told, hour
    parts = {part: "10" for remedy in REMEDIES if remedy.id in plan for part in remedy.parts}
    assert parts
    assert invented_prices(plan, own_prices.save({"labour": "150", **parts}), "us") == ""


def test_a_fleet_goes_by_the_shops_own_prices_and_other_prices_are_another_question() -> None:
    def asked() -> FleetQuestion:
        return _question("100 F", None, None, None, True, None, None, None, "us")  # as it is called

    assert asked().price_book is None
    before = asked().digest()
    own_prices.save({"labour": "135", "currency": "£"})
    book = asked().price_book
    assert book is not None
    assert (read_prices(book).labour, read_prices(book).currency) == (135.0, "£")
    assert asked().digest() != before
