"""The verb of the fleet: its sources, its bad rows, going on after a stop, its files."""

import json
from collections.abc import Callable
from pathlib import Path

import polars as pl
import pytest

import toptank
from toptank.shop.answers.fleet import FleetAnswer, eased
from toptank.shop.ask.fleet import engines
from toptank.shop.ask.fleet import fleet as verbs
from toptank.shop.ask.fleet.done_file import beside
from toptank.system.numerics.jax_library import jax
from toptank.system.numerics.where_run import Where, has_gpu, where_run
from toptank.units.cancellation import Cancelled
from toptank.units.refusal import Refusal

DRAWS = 64
HEAD = "id,like,core.rows,cap.pressure [psi],grade [%],plate"
ROWS = (
    "bus 1,minibus-1970s-v8-air,3,15,6,AB1",
    "bus 2,minibus-1970s-v8-air,4,15,6,AB2",
    "car 1,saloon-1950s-six,,7,,AB3",
    "truck 1,pickup-1970s-v8-air,2,13,7,AB4",
    "car 2,saloon-1950s-six,2,,5,AB5",
)


@pytest.fixture(autouse=True)
def small_pieces(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(verbs, "AT_ONCE", 2)


def _table(folder: Path, *rows: str, name: str = "depot.csv", head: str = HEAD) -> Path:
    path = folder / name
    path.write_text("\n".join((head, *rows)) + "\n", encoding="utf-8")
    return path


@pytest.fixture(scope="module")
def whole(tmp_path_factory: pytest.TempPathFactory) -> tuple[FleetAnswer, bytes]:
    folder = tmp_path_factory.mktemp("whole")
    out = folder / "fleet.jsonl"
    answer = verbs.fleet(_table(folder, *ROWS), day="105 F", out=out, draws=DRAWS)
    return answer, out.read_bytes()


def test_the_surest_comes_first_and_the_totals_add_up(whole: tuple[FleetAnswer, bytes]) -> None:
    answer, written = whole
    chances = [one.holds_pct for one in answer.vehicles]
    assert chances == sorted(chances, reverse=True)
    assert {one.id for one in answer.vehicles} == {row.split(",")[0] for row in ROWS}
    assert answer.hold + answer.doubtful + answer.do_not_hold == len(ROWS)
    assert answer.expected_to_hold == pytest.approx(sum(chances) / 100.0, abs=0.05)
    assert [json.loads(line)["id"] for line in written.decode().splitlines()] == [one.id for one in answer.vehicles]
    assert "plate" in str(answer.record()["remarks"])


def test_a_fourth_row_of_tubes_holds_better_and_bears_hotter_air(whole: tuple[FleetAnswer, bytes]) -> None:
    three, four = (next(one for one in whole[0].vehicles if one.id == name) for name in ("bus 1", "bus 2"))
    assert four.bears_degC.p50 > three.bears_degC.p50 + 1.0
    assert three.hottest_place == "climb, 6 %"
    assert three.known == four.known == 2


def test_an_hour_to_leave_is_named_for_what_does_not_hold_at_noon(whole: tuple[FleetAnswer, bytes]) -> None:
    for one in whole[0].vehicles:
        by_hour = {int(hour.leave_at[:2]): hour for hour in one.by_hour}
        assert sorted(by_hour) == list(range(6, 21))
        assert by_hour[6].outside_degC == pytest.approx((105 - 32) / 1.8 - 11.0, abs=1.1)
        assert by_hour[15].outside_degC == pytest.approx((105 - 32) / 1.8, abs=0.1)
        if one.leave_until is not None:
            assert by_hour[int(one.leave_until[:2])].holds_pct >= 90.0
            assert f"leave by {one.leave_until}" in eased(one)
        if one.holds_pct >= 90.0:
            assert eased(one) == ""


def test_the_order_of_the_rows_changes_no_byte(whole: tuple[FleetAnswer, bytes], tmp_path: Path) -> None:
    out = tmp_path / "fleet.jsonl"
    verbs.fleet(_table(tmp_path, *ROWS[::-1]), day="105 F", out=out, draws=DRAWS)

    def without_line(text: bytes) -> list[dict[str, object]]:
        return [json.loads(line) | {"line": 0} for line in text.decode().splitlines()]

    assert without_line(out.read_bytes()) == without_line(whole[1])


def _stopping_after(pieces: int) -> Callable[[verbs.Progress], None]:
    def stop(progress: verbs.Progress) -> None:
        if progress.done >= pieces:
            raise Cancelled

    return stop


def test_a_run_that_was_stopped_goes_on_and_ends_with_the_same_bytes(
    whole: tuple[FleetAnswer, bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    table, out = _table(tmp_path, *ROWS), tmp_path / "fleet.jsonl"
    with pytest.raises(Cancelled):
        verbs.fleet(table, day="105 F", out=out, draws=DRAWS, progress=_stopping_after(2))
    assert not out.exists()
    with beside(out).open("ab") as file:  # the power went while a line was written
        file.write(b'{"key": "half a li')
    asked: list[str] = []
    plain = verbs.lines_of

    def counted(items, question, go_on):
        asked.extend(item.identity for item in items)
        return plain(items, question, go_on)

    monkeypatch.setattr(verbs, "lines_of", counted)
    verbs.fleet(table, day="105 F", out=out, draws=DRAWS)
    assert asked == [row.split(",")[0] for row in ROWS[2:]]
    assert out.read_bytes() == whole[1]
    assert not beside(out).exists()


def test_another_question_does_not_go_on_from_the_old_one(tmp_path: Path) -> None:
    table, out = _table(tmp_path, *ROWS[2:4]), tmp_path / "fleet.jsonl"
    with pytest.raises(Cancelled):
        verbs.fleet(table, day="105 F", out=out, draws=DRAWS, progress=_stopping_after(2))
    cool = verbs.fleet(table, day="60 F", out=out, draws=DRAWS)
    assert cool.day_degC == pytest.approx(15.6, abs=0.1)
    assert all(one.by_hour[9].outside_degC == pytest.approx(15.6, abs=0.1) for one in cool.vehicles)


def test_a_bad_row_is_told_with_its_line_and_the_rest_goes_on(tmp_path: Path) -> None:
    rows = (ROWS[2], "bad 1,saloon-1950s-six,44,,,", "bad 2,no-such-car,,,,", "bad 3,,,,,", ROWS[2])
    answer = verbs.fleet(_table(tmp_path, *rows), day="40 C", draws=DRAWS)
    assert [one.id for one in answer.vehicles] == ["car 1"]
    told = {one.id: one for one in answer.left_out}
    assert (told["bad 1"].line, told["bad 1"].field, told["bad 1"].value) == (3, "core.rows", "44")
    assert "1 and 8" in told["bad 1"].limit
    assert (told["bad 2"].line, told["bad 2"].field, told["bad 2"].value) == (4, "vehicle.like", "no-such-car")
    assert (told["bad 3"].line, told["bad 3"].field) == (5, "like")
    assert (told["car 1"].line, told["car 1"].field) == (6, "id")
    assert all(one.file == "depot.csv" and one.fix for one in answer.left_out)


def test_a_head_that_is_meant_as_a_field_and_is_none_is_refused(tmp_path: Path) -> None:
    with pytest.raises(Refusal, match=r"core\.row: .*rows"):
        verbs.fleet(_table(tmp_path, "saloon-1950s-six,2", head="like,core.row"), day="105 F")
    with pytest.raises(Refusal, match="column like"):
        verbs.fleet(_table(tmp_path, "2", head="core.rows"), day="105 F")


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        ({"day": "hot"}, "day"),
        ({"day": "105 F to 80 F"}, "day"),
        ({"day": "190 F"}, "day"),
        ({"day": "105 F", "leave": "20:00..06:00"}, "leave"),
        ({"day": "105 F", "draws": 3}, "draws"),
        ({"day": "105 F", "route": Path("no-road.gpx")}, "route"),
        ({"day": "105 F", "out": Path("fleet.xlsx")}, "out"),
        ({"day": "105 F", "workers": 0}, "workers"),
    ],
)
def test_what_cannot_be_asked_is_refused(asked: dict[str, object], field: str, tmp_path: Path) -> None:
    with pytest.raises(Refusal) as refused:
        verbs.fleet(_table(tmp_path, ROWS[2]), **asked)  # pyright: ignore[reportArgumentType] # bad on purpose
    assert refused.value.field == field


def test_a_folder_of_job_files_follows_what_was_seen(tmp_path: Path) -> None:
    examples = Path(__file__).parents[4] / "examples"
    (tmp_path / "first.toml").write_bytes((examples / "first-job.toml").read_bytes())
    (tmp_path / "broken.toml").write_text("format = 3", encoding="utf-8")
    answer = toptank.fleet(tmp_path, day="105 F", draws=DRAWS)
    (one,) = answer.vehicles
    assert (one.id, one.rests_on, one.line) == ("first", "sheet and evidence", 0)
    assert one.limit_degC == pytest.approx((220 - 32) / 1.8, abs=0.1)
    assert [out.file for out in answer.left_out] == ["broken.toml"]


def test_a_parquet_table_is_read_and_written(tmp_path: Path) -> None:
    table, out = tmp_path / "depot.parquet", tmp_path / "fleet.parquet"
    pl.DataFrame(
        {"id": ["a"], "like": ["saloon-1950s-six"], "core.rows": [2], "cap.pressure [psi]": [7.0]}
    ).write_parquet(table)
    answer = verbs.fleet(table, day="95 F", out=out, draws=DRAWS)
    written = pl.read_parquet(out)
    assert written["id"].to_list() == ["a"]
    assert written["holds_pct"][0] == answer.vehicles[0].holds_pct
    assert written["bears_p10_degC"][0] == answer.vehicles[0].bears_degC.p10
    assert answer.vehicles[0].line == 1


def test_the_cheapest_work_that_holds_holds_and_has_a_price(tmp_path: Path) -> None:
    answer = verbs.fleet(_table(tmp_path, "car,saloon-1950s-six,2,7,4,"), day="106 F", draws=DRAWS, plans=True)
    (one,) = answer.vehicles
    assert one.holds_pct < 90.0
    assert one.work is not None
    assert one.work.holds_pct >= 90.0
    assert answer.work_cost == one.work.cost > 0.0
    # Every radiator asks for new coolant: it is in the work and in its price.
    assert "drain_fill_bleed" in one.work.remedies


def test_lots_as_for_a_gpu_give_the_answer_of_small_pieces(
    whole: tuple[FleetAnswer, bytes], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Lengths, copies to a device and back as on a GPU, on what JAX works on here."""
    lots = Where(lengths=(256, 512), at_a_time=512, device=jax.devices()[0])
    monkeypatch.setattr(engines, "place", lambda *_, **__: lots)
    answer = verbs.fleet(_table(tmp_path, *ROWS), day="105 F", draws=DRAWS)
    assert where_run().device is None
    for one, other in zip(answer.vehicles, whole[0].vehicles, strict=True):
        assert one.id == other.id
        assert one.holds_pct == pytest.approx(other.holds_pct, abs=0.2)
        assert one.bears_degC.p50 == pytest.approx(other.bears_degC.p50, abs=0.05)


@pytest.mark.parametrize(
    ("device", "workers", "limit"),
    [
        ("tpu", None, "is no device"),
        ("gpu", 2, "does not go with workers"),
        # on a machine that has one there is nothing to refuse
        pytest.param("gpu", None, "is not seen by JAX here", marks=pytest.mark.skipif(has_gpu(), reason="it is seen")),
    ],
)
def test_a_device_that_cannot_be_used_is_refused(tmp_path: Path, device: str, workers: int | None, limit: str) -> None:
    with pytest.raises(Refusal, match=limit):
        verbs.fleet(_table(tmp_path, *ROWS), day="105 F", device=device, workers=workers, draws=DRAWS)


def test_air_conditioning_is_on_where_there_is_one_and_the_row_does_not_say_no(tmp_path: Path) -> None:
    """A depot asks about vehicles with people in them: 7 kW of cooling for a minibus is heat ahead of its radiator."""
    rows = ("told,minibus-1970s-v8-air,yes", "untold,minibus-1970s-v8-air,", "without,minibus-1970s-v8-air,no")
    table = _table(tmp_path, *rows, "none,saloon-1950s-six,", head="id,like,air_conditioning")
    answer = verbs.fleet(table, day="105 F", draws=DRAWS)
    bears = {one.id: one.bears_degC.p50 for one in answer.vehicles}
    eases = {one.id: {ease.what for ease in one.eases} for one in answer.vehicles}
    assert bears["untold"] == pytest.approx(bears["told"], abs=3.0)  # other draws of the same vehicle
    assert bears["without"] > bears["untold"] + 3.0
    assert "air_conditioning_off" in eases["untold"]
    assert "air_conditioning_off" not in eases["without"] | eases["none"]
    assert "A/C is taken to be on" in str(answer.record()["remarks"])


def test_on_a_cool_day_nobody_is_taken_to_have_it_on(tmp_path: Path) -> None:
    table = _table(tmp_path, "bus,minibus-1970s-v8-air", head="id,like")
    answer = verbs.fleet(table, day="70 F", draws=DRAWS)
    assert "A/C is taken to be on" not in str(answer.record()["remarks"])
    assert all(ease.what != "air_conditioning_off" for ease in answer.vehicles[0].eases)
