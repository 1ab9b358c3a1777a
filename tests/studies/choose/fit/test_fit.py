"""Does it go in: each question of the trade, with one measure spoilt. Limits are common practice, no source."""

from typing import Any

import pytest

from toptank.studies.choose.fit.item import Verdict
from toptank.studies.choose.fit.words import answer_words

INCH = 0.0254
TWO_FANS = "two_electric_fans"
FOUR_ROWS = "recore_4_row"
SAME_AGAIN = "recore_as_it_was"
ALTERNATOR = "alternator to the fans' current"
TWO_PASSES = "recore_two_pass"
ALUMINIUM = "aluminium_radiator_2_row"


def test_a_radiator_with_room_everywhere_clears(bench: Any) -> None:
    answer = bench.fits()
    assert [item.name for item in answer.items if item.verdict != Verdict.CLEARS] == []
    assert answer.verdict() == Verdict.CLEARS


# Each line: what is spoilt in the bay, in the radiator, in the vehicle; what it must spoil; by how much (in), by hand.
@pytest.mark.parametrize(
    ("bay", "offer", "sheet", "name", "short"),
    [
        # seat 3 in behind the grille; half of 7 in lies before it
        ({"saddle_width": 9.0}, {"core_depth": 7.0}, {}, "front of the core to what stands before it", 0.5),
        # 3.5 - 2 x 0.25 = 3 in of room
        ({}, {"core_depth": 3.25}, {}, "core in the saddle", 0.25),
        ({}, {"tank_width": 3.5}, {}, "tank in the saddle", 0.5),
        # 2 in deeper, half of it behind: 1 in nearer to a shroud 1/2 in away
        ({}, {"core_depth": 4.0}, {}, "shroud to core", 0.5),
        # 3/4 in least
        ({}, {}, {"shroud.fan_to_core": 0.5 * INCH}, "fan to core", 0.25),
        ({"engine_fore_aft": 2.5}, {}, {}, "fan to core when the engine comes forward", 0.5),
        # 3/8 in least
        ({"blade_to_engine": 0.125}, {}, {}, "blade rear edge to engine", 0.25),
        # blades 2 1/2 in deep: a third is 0.833 in, two thirds are 1.667 in
        ({"blade_in_shroud": 0.5}, {}, {}, "blades far enough in the shroud", 2.5 / 3 - 0.5),
        ({"blade_in_shroud": 2.0}, {}, {}, "blades far enough out of the shroud", 2.0 - 5.0 / 3),
        # 1/2 in least
        ({"engine_up_down": 0.0}, {}, {"shroud.tip_clearance": 0.25 * INCH}, "blade tip to shroud", 0.25),
        ({"engine_up_down": 1.5}, {}, {}, "blade tip to shroud when the engine rocks", 0.25),
        ({"pulley_nose_to_core": 0.25}, {}, {}, "pulley nose to core when the engine comes forward", 0.25),
        ({}, {"overall_width": 28.5}, {}, "width between the supports", 0.5),
        # 21 - 2 x 0.25 = 20.5 in of room
        ({}, {"overall_height": 21.0}, {}, "height between the seats, rubber in", 0.5),
        # 24 in to the hood, stands on 1/4 in of rubber
        ({}, {"cap_height": 24.0}, {}, "cap to hood", 0.25),
    ],
)
def test_what_is_too_large_rubs_by_what_it_is_too_large(
    bench: Any, bay: Any, offer: Any, sheet: Any, name: str, short: float
) -> None:
    item = bench.item(bench.fits(bay, offer, sheet), name)
    assert item.verdict == Verdict.RUBS
    assert -item.margin / INCH == pytest.approx(short, abs=1e-6)
    assert item.fix
    assert item.amount >= -item.margin


@pytest.mark.parametrize(
    ("bay", "offer", "name"),
    [
        ({}, {"top_port_side": 0.0}, "top port: side"),
        ({}, {"bottom_port_side": 1.0}, "bottom port: side"),
        ({}, {"top_port_height": 16.0}, "top port: height"),
        ({}, {"top_port_diameter": 1.25}, "top port: diameter"),
        ({}, {"bottom_port_diameter": 1.5}, "bottom port: diameter"),
        ({}, {"neck_depth": 1.0}, "reach of the cap to depth of the neck"),
        ({}, {"neck_cam": 0.0}, "cam of the cap to the neck"),
        ({"cap_kind": 1.0}, {}, "kind of cap to the system"),
        ({"cap_upper_gasket": 0.0}, {}, "upper gasket of the cap"),
        ({"cap_vacuum_valve": 0.0}, {}, "vacuum valve of the cap"),
        ({}, {"cooler_fittings": 0.0}, "transmission's cooler in the tank"),
        ({}, {"passes": 2.0}, "transmission's cooler in the tank"),
        ({}, {"passes": 3.0}, "transmission's cooler in the tank"),
        ({}, {"cooler_thread": 0.0}, "thread of the cooler pipes"),
        ({}, {"overall_height": 18.5}, "held between the seats"),
        ({}, {"weight": 35.0}, "weight on the supports"),
    ],
)
def test_what_does_not_match_is_told_with_its_mend(bench: Any, bay: Any, offer: Any, name: str) -> None:
    answer = bench.fits(bay, offer)
    item = bench.item(answer, name)
    assert item.verdict == Verdict.RUBS
    assert item.fix
    assert answer.verdict() == Verdict.RUBS


def test_an_open_overflow_takes_an_open_cap(bench: Any) -> None:
    answer = bench.fits({"cap_kind": 1.0}, sheet={"cap.system": 0.0})
    assert bench.item(answer, "kind of cap to the system").verdict == Verdict.CLEARS
    assert "upper gasket of the cap" not in [item.name for item in answer.items]


@pytest.mark.parametrize("measure", ["support_depth", "saddle_width", "mount", "blade_depth", "cap_reach", "cap_kind"])
def test_what_was_not_measured_in_the_bay_is_not_known_and_asked_for(bench: Any, measure: str) -> None:
    answer = bench.fits({measure: None})
    assert answer.verdict() == Verdict.NOT_KNOWN
    assert f"fit.{measure}" in answer.to_measure()


@pytest.mark.parametrize("measure", ["core_depth", "tank_width", "cap_height", "top_port_side", "neck_depth", "weight"])
def test_what_the_maker_does_not_say_is_not_known_and_asked_for(bench: Any, measure: str) -> None:
    answer = bench.fits(offer={measure: None})
    assert answer.verdict() == Verdict.NOT_KNOWN
    assert f"offer.{measure}" in answer.to_measure()


def test_a_typical_gap_of_fan_to_core_does_not_count_as_measured(bench: Any) -> None:
    from toptank.knowledge.sheet import declared_sheet
    from toptank.studies.choose.fit.candidate import as_it_stands
    from toptank.studies.choose.fit.fit import fit

    place, sheet = bench.bay(), declared_sheet()
    answer = fit(sheet, place, as_it_stands(sheet, place))
    assert bench.item(answer, "fan to core").verdict == Verdict.NOT_KNOWN
    assert "shroud.fan_to_core" in answer.to_measure()


@pytest.mark.parametrize(
    # 1 in deeper: by halves between saddles, all of it to the rear from a front face, none of it from a rear face
    ("mount", "nearer"), [(0.0, 0.5), (1.0, 1.0), (2.0, 0.0)],
)  # fmt: skip
def test_a_deeper_core_comes_nearer_to_the_fan_by_what_holds_it(bench: Any, mount: float, nearer: float) -> None:
    before = bench.item(bench.fits({"mount": mount}), "fan to core").gap
    after = bench.item(bench.fits({"mount": mount}, {"core_depth": 3.0}), "fan to core").gap
    assert (before - after) / INCH == pytest.approx(nearer)


def test_a_shroud_on_the_radiator_goes_along_and_swallows_the_blades(bench: Any) -> None:
    deeper = {"core_depth": 2.8}
    along, stays = (bench.fits({"shroud_mount": code}, deeper) for code in (0.0, 1.0))
    assert bench.item(along, "shroud to core").gap / INCH == pytest.approx(0.5)
    assert bench.item(stays, "shroud to core").gap / INCH == pytest.approx(0.1)
    name = "blades far enough out of the shroud"
    assert (bench.item(stays, name).gap - bench.item(along, name).gap) / INCH == pytest.approx(0.4)


def test_a_short_gap_behind_the_fan_is_mended_by_a_spacer_only_where_the_front_has_room(bench: Any) -> None:
    name = "blade rear edge to engine"
    room = bench.item(bench.fits({"blade_to_engine": 0.125}), name)
    none = bench.item(bench.fits({"blade_to_engine": 0.125}, sheet={"shroud.fan_to_core": 0.8 * INCH}), name)
    assert "spacer of {amount} behind the fan" in room.fix
    assert "spacer" not in none.fix


def test_less_than_the_trade_wants_is_said_though_it_clears(bench: Any) -> None:
    item = bench.item(bench.fits(sheet={"shroud.fan_to_core": 0.9 * INCH}), "fan to core")
    assert item.verdict == Verdict.CLEARS
    assert "wanted" in item.note


def test_a_recore_as_it_was_changes_nothing_even_where_the_old_depth_is_not_known(bench: Any) -> None:
    answer = bench.remedy(SAME_AGAIN, {"core_depth_now": None, "mount": None})
    assert bench.item(answer, "fan to core").gap / INCH == pytest.approx(2.0)
    assert bench.item(answer, "shroud to core").gap / INCH == pytest.approx(0.5)


def test_four_rows_are_as_deep_as_their_tubes_and_spacings(bench: Any) -> None:
    # 3 spacings of 0.57 in and one tube of 1/2 in: 2.21 in, 0.21 in more than the 2 in that are in
    answer = bench.remedy(FOUR_ROWS)
    assert (2.0 - bench.item(answer, "fan to core").gap / INCH) == pytest.approx(0.21 / 2, abs=1e-6)
    assert "tank in the saddle" not in [item.name for item in answer.items]


@pytest.mark.parametrize("passes", [TWO_PASSES, "recore_three_pass"])
def test_several_passes_leave_no_room_for_the_cooler(bench: Any, passes: str) -> None:
    assert bench.item(bench.remedy(passes), "transmission's cooler in the tank").verdict == Verdict.RUBS


@pytest.mark.parametrize(
    ("name", "inches"),
    [
        ("top port: diameter", 1 / 16),
        ("bottom port: diameter", 1 / 16),
        ("reach of the cap to depth of the neck", 1 / 16),
        ("top port: height", 1.0),
        ("bottom port: height", 1.0),
        ("held between the seats", 1.0),
    ],
)
def test_lengths_that_must_be_alike_may_differ_by_so_much(name: str, inches: float, bench: Any) -> None:
    """Hoses step by an eighth and more, so that half of that tells sizes apart; rubber and hose give an inch."""
    item = bench.item(bench.fits(), name)
    assert item.pair
    assert item.least == pytest.approx(inches * 0.0254)


def test_a_radiator_that_its_seats_do_not_hold_is_said_to_be_loose(bench: Any) -> None:
    # 21 in between the seats less two rubbers of 1/4 in: 20 1/2 in of room for 18 1/2 in
    item = bench.item(bench.fits(offer={"overall_height": 18.5}), "held between the seats")
    assert item.gap / INCH == pytest.approx(2.0)
    strapped = bench.fits({"mount": 1.0}, {"overall_height": 18.5})
    assert "held between the seats" not in [one.name for one in strapped.items]


SEVERE, BLADES = "severe_duty_fan_clutch", "fan_with_more_blades"


def test_a_deeper_core_and_a_clutch_that_stands_forward_are_added_up(bench: Any) -> None:
    """Between saddles half of the core's growth comes nearer to the fan, and the clutch its own half inch besides."""
    gaps = [
        bench.item(bench.plan(*names), "fan to core").gap for names in ((FOUR_ROWS,), (SEVERE,), (FOUR_ROWS, SEVERE))
    ]
    now = 2.0 * INCH
    assert gaps[0] < now > gaps[1]
    assert now - gaps[2] == pytest.approx((now - gaps[0]) + (now - gaps[1]))


def test_electric_fans_of_a_plan_ask_for_the_alternator_and_take_the_blades_away(bench: Any) -> None:
    answer = bench.plan(FOUR_ROWS, "two_electric_fans", bay={"alternator_current": 60.0})
    names = [item.name for item in answer.items]
    assert "fan to core" not in names
    assert bench.item(answer, "alternator to the fans' current").verdict == Verdict.RUBS
    assert (
        bench.item(answer, "electric fans to pulley nose").gap
        < bench.item(bench.plan("two_electric_fans"), "electric fans to pulley nose").gap
    )


def test_a_new_aluminium_radiator_asks_for_its_tanks_and_ports(bench: Any) -> None:
    asked = bench.remedy(ALUMINIUM).to_measure()
    assert {"offer.tank_width", "offer.top_port_side", "offer.neck_depth", "offer.cooler_fittings"} <= set(asked)


@pytest.mark.parametrize(
    ("rated", "others", "verdict", "margin"),
    [(60.0, 20.0, Verdict.RUBS, -30.0), (160.0, 20.0, Verdict.CLEARS, 20.0), (None, 20.0, Verdict.NOT_KNOWN, None)],
)
def test_electric_fans_ask_whether_the_alternator_carries_them(
    bench: Any, rated: Any, others: float, verdict: Verdict, margin: Any
) -> None:
    """Half of what is stamped at hot idle, less all else, less 40 A of two fans: by hand 30 - 20 - 40, 80 - 20 - 40."""
    item = bench.item(bench.remedy(TWO_FANS, {"alternator_current": rated, "other_current": others}), ALTERNATOR)
    assert item.verdict == verdict
    assert item.margin == margin
    if verdict == Verdict.RUBS:
        assert answer_words(item, "us").startswith("30 A short: an alternator that gives 3")
    assert not any(one.name == ALTERNATOR for one in bench.remedy(SAME_AGAIN).items)


def test_electric_fans_take_the_place_of_blades_and_shroud(bench: Any) -> None:
    names = [item.name for item in bench.remedy(TWO_FANS).items]
    assert "electric fans to pulley nose" in names
    assert not {"fan to core", "shroud to core", "blade tip to shroud"} & set(names)


def test_a_slip_of_the_tape_shows(bench: Any) -> None:
    name = "measures of shroud and fan agree"
    # 1/2 + 2 3/4 in past the shroud, 2 + 1 1/4 in past the blades
    assert bench.item(bench.fits(), name).gap == pytest.approx(0.0, abs=1e-9)
    slip = bench.item(bench.fits({"shroud_depth": 5.0}), name)
    # nothing touches: which of the two measures is right is not known
    assert slip.verdict == Verdict.NOT_KNOWN
    assert slip.fix
    assert slip.gap / INCH == pytest.approx(2.25)
    assert name not in [item.name for item in bench.fits({"shroud_depth": None}).items]


def test_only_what_surely_touches_takes_another_part(bench: Any) -> None:
    """Short of what practice wants is a warning, and a pulley's nose has a fix: a shorter hub or spacer."""
    near = bench.fits({"pulley_nose_to_core": 0.5, "engine_fore_aft": 0.75, "fan_to_core": 0.6})
    assert bench.item(near, "pulley nose to core when the engine comes forward").verdict == Verdict.RUBS
    assert near.goes_in()
    assert not bench.fits({"width_between": 26.0}).goes_in()


def test_every_measure_that_is_asked_for_is_declared(bench: Any) -> None:
    from toptank.catalogue.remedies.all_remedies import REMEDIES
    from toptank.studies.choose.fit.measures import measure_of

    nothing = dict.fromkeys(bench.bay().facts)
    for remedy in REMEDIES:
        for path in bench.remedy(remedy.id, nothing).to_measure():
            assert measure_of(path).in_the_bay()


def test_a_deeper_clutch_brings_the_blades_to_the_core_and_away_from_the_engine(bench: Any) -> None:
    clutch = bench.remedy("severe_duty_fan_clutch")
    forward = clutch.candidate.facts["fan_forward"].value
    assert forward > 0.0
    # 2 in before the blades, 1 1/2 in behind them, 1 1/4 in of them in the shroud
    assert bench.item(clutch, "fan to core").gap == pytest.approx(2.0 * INCH - forward)
    assert bench.item(clutch, "blade rear edge to engine").gap == pytest.approx(1.5 * INCH + forward)
    inside = bench.item(clutch, "blades far enough in the shroud").gap + 2.5 * INCH / 3.0
    assert inside == pytest.approx(1.25 * INCH + forward)
