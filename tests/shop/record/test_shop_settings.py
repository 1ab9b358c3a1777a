"""Who the shop is: kept beside the record, read by every work order, refused in one sentence."""

from pathlib import Path

import pytest

from toptank.shop.record import shop_settings
from toptank.units.refusal import Refusal


@pytest.fixture(autouse=True)
def _store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "shop" / "jobs.sqlite"))


def test_a_shop_that_has_said_nothing_has_no_head() -> None:
    assert shop_settings.read() == shop_settings.Shop()
    assert shop_settings.read().lines == ()
    assert shop_settings.read().tax_share is None


def test_what_is_saved_is_read_again_and_lies_beside_the_record(tmp_path: Path) -> None:
    said = {"name": 'Ridge "Road" \\ Garage', "address": "12 Mill Lane", "phone": "555 0142", "tax": "8,25 %"}
    shop_settings.save(said)
    read = shop_settings.read()
    assert read.lines == ('Ridge "Road" \\ Garage', "12 Mill Lane · 555 0142")
    assert read.tax_share == pytest.approx(0.0825)
    assert shop_settings.place() == tmp_path / "shop" / "shop.toml"


@pytest.mark.parametrize(
    ("key", "text", "limit"),
    [
        ("tax", "ninety", "between 0 and 40 %"),
        ("tax", "90", "between 0 and 40 %"),
        ("tax", "nan", "between 0 and 40 %"),
        ("name", "x" * 121, "longer than 120 signs"),
        ("phone", "555\x000142", "cannot be printed"),
    ],
)
def test_what_cannot_stand_on_the_paper_is_refused_and_nothing_is_changed(key: str, text: str, limit: str) -> None:
    shop_settings.save({"name": "Ridge Road Garage"})
    with pytest.raises(Refusal, match=limit):
        shop_settings.save({key: text})
    assert shop_settings.read().name == "Ridge Road Garage"
