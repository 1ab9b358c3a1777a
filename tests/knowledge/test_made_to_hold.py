"""Sound vehicles keep within what their kind reads; what somebody measured stays as he said."""

import dataclasses
import functools
from typing import Any

import numpy as np
import pytest
from scipy.special import ndtri

from toptank.knowledge.draws import doubtful, draws, unit_samples
from toptank.knowledge.made_to_hold import ends_of_kinds, tied, ties_of
from toptank.knowledge.sheet import Fact, Provenance, declared_sheet, duty, overlay
from toptank.knowledge.sound_readings import CONDENSING, DOUBT, conditions_of, sound_readings
from toptank.knowledge.typical import typical, typical_names, typical_sheet
from toptank.system.condition_batch import go_through

N, SEED = 1024, 5
PICKUP = "pickup-1970s-v8-air"
PLACES = ("idle", "traffic", "flat", "hill")
MINIBUS = "minibus-1970s-v8-air"
BELT_FANS = (PICKUP, MINIBUS, "saloon-1950s-six")


@functools.cache
def _read(name: str, *, made_to_hold: bool) -> dict[str, Any]:
    """What vehicles drawn from a kind's sheet read under the conditions of its list [K]."""
    vehicles = draws(typical_sheet(name), N, SEED, made_to_hold=made_to_hold)
    conditions, asked = conditions_of(name, duty(typical(name).usual))
    passages = go_through(vehicles, conditions)
    condenses = {CONDENSING: np.asarray(passages[CONDENSING].end.T_condensing, float)}
    return {place: np.asarray(passages[place].end.T_engine_out, float) for place in asked} | condenses


@pytest.mark.parametrize("name", BELT_FANS)
def test_tied_vehicles_are_as_any_that_are_counted_by_how_sound_they_are(name: str) -> None:
    """Straight ways across the fields do what counting every vehicle by how far it keeps within the list would do.

    In every condition the middle is within 2 K of it, and of those that lie beyond the list by more than it is doubtful
    at least seven in ten of the ones that are too many are gone.
    """
    most = {place: ends[1] for place, ends in sound_readings(name).figures.items() if place in PLACES}
    tied_ones, free = (_read(name, made_to_hold=held) for held in (True, False))
    over = np.stack([np.maximum(free[place] - end, 0.0) / DOUBT for place, end in most.items()])
    counts = np.exp(-0.5 * np.sum(over * over, axis=0))
    if (makers := sound_readings(name).condensing) is not None:
        low, high, read_to = *makers, 2.0
        condenses = free[CONDENSING]
        off = np.maximum(np.maximum(low - condenses, condenses - high), 0.0) / read_to
        counts *= np.exp(-0.5 * off * off)
    for place, end in most.items():
        order = np.argsort(free[place])
        middle = free[place][order][np.searchsorted(np.cumsum(counts[order]), 0.5 * counts.sum())]
        assert np.median(tied_ones[place]) == pytest.approx(middle, abs=2.0), place
        too_many = np.mean(free[place] > end + DOUBT) - np.average(free[place] > end + DOUBT, weights=counts)
        if too_many > 0.1:
            gone = np.mean(free[place] > end + DOUBT) - np.mean(tied_ones[place] > end + DOUBT)
            assert gone >= 0.7 * too_many, f"{place}: {gone:.2f} of {too_many:.2f}"


def test_a_pickup_idles_on_a_hot_day_where_makers_say_its_air_conditioning_condenses() -> None:
    """67 to 75 °C at 104 °F, by makers' idle pressures: as many again of the ones drawn from its sheet lie there."""
    low, high = sound_readings(PICKUP).condensing or (0.0, 0.0)
    inside = [
        np.mean((at > low) & (at < high))
        for at in (_read(PICKUP, made_to_hold=held)[CONDENSING] for held in (True, False))
    ]
    assert low < np.median(_read(PICKUP, made_to_hold=True)[CONDENSING]) < high
    assert inside[0] > inside[1] * 1.3


def test_without_the_tie_one_pickup_in_five_is_none_that_was_ever_sold() -> None:
    """On the hill of its kind at 90 °F, drawn field by field, it reads beyond all that its kind reads."""
    most = sound_readings(PICKUP).figures["hill"][1] + DOUBT
    assert np.mean(_read(PICKUP, made_to_hold=False)["hill"] > most) > 0.2


def test_a_kind_may_run_as_cool_as_its_sheet_allows() -> None:
    """Nobody sends a vehicle back because it runs cool: the cool end of the hill moves by 3 °F at the most."""
    tenth = [np.percentile(_read(PICKUP, made_to_hold=held)["hill"], 10) for held in (True, False)]
    assert tenth[0] == pytest.approx(tenth[1], abs=3.0 / 1.8)


def test_along_its_way_a_kind_lies_where_its_sound_ones_lie() -> None:
    """Middle and spread as written, of scores that were standard normal before; across the way nothing moves."""
    sheet = typical_sheet(MINIBUS)
    samples = unit_samples(doubtful(sheet), 4000, 1)
    moved = {**samples, **tied(sheet, samples)}
    (way,) = ties_of(MINIBUS).ways
    along = np.array(list(way.along.values()))
    before, after = (np.asarray(ndtri(np.stack([of[path] for path in way.along]))) for of in (samples, moved))
    at = along @ after / np.sqrt(along @ along)
    # within: 4000 draws, the length of a way rounded to three digits a field
    assert np.median(at) == pytest.approx(way.middle, abs=0.04)
    assert at.std() == pytest.approx(way.spread, rel=0.04)
    across = (after - before) - np.outer(along, along @ (after - before)) / (along @ along)
    assert np.max(np.abs(across)) < 1e-9


def test_of_a_way_that_is_half_known_the_rest_moves_as_a_reading_of_the_sum_asks() -> None:
    """By weighing: 20,000 draws, each counted by the reading that all fields together stand for."""
    sheet = typical_sheet(MINIBUS)
    (way,) = ties_of(MINIBUS).ways
    known = {
        path: Fact(value=sheet.facts[path].value, how=Provenance.MEASURED, spread=0.0, origin="job file")
        for path in list(way.along)[::2]
    }
    some = overlay(sheet, known)
    samples = unit_samples(doubtful(some), 20_000, 2)
    open_ones = [path for path in way.along if path in samples]
    along = np.array([way.along[path] for path in open_ones])
    at = along @ np.asarray(ndtri(np.stack([samples[path] for path in open_ones])))
    variance = 1.0 / (1.0 / way.spread**2 - 1.0)
    reading = way.middle / way.spread**2 * variance
    weight = np.exp(-0.5 * (at - reading) ** 2 / variance)
    moved = along @ np.asarray(ndtri(np.stack([tied(some, samples)[path] for path in open_ones])))
    mean = np.average(at, weights=weight)
    # within: 20,000 draws of which half count
    assert np.mean(moved) == pytest.approx(mean, abs=0.02)
    assert np.std(moved) == pytest.approx(np.sqrt(np.average((at - mean) ** 2, weights=weight)), rel=0.03)


def test_what_is_of_one_kind_or_another_has_the_share_of_the_sound_ones() -> None:
    name = "saloon-1950s-six"
    shares = ties_of(name).kinds["core.fin_kind"]
    fins = np.asarray(draws(typical_sheet(name), 2000, 3).core.fin_kind)
    assert np.mean(fins == typical_sheet(name).facts["core.fin_kind"].value) == pytest.approx(shares[0], abs=0.002)
    assert shares[0] > 1.0 - typical_sheet(name).facts["core.fin_kind"].spread


def test_kinds_end_where_their_shares_end() -> None:
    fact = Fact(value=0.0, how=Provenance.ASSUMED, spread=0.3, origin="here")
    assert ends_of_kinds(fact, 3) == pytest.approx([0.7, 0.85, 1.0])
    assert ends_of_kinds(dataclasses.replace(fact, spread=0.0), 2) == pytest.approx([1.0, 1.0])


def test_what_a_person_measured_or_guessed_stays_as_he_said() -> None:
    sheet = typical_sheet(PICKUP)
    guess = Fact(value=0.5, how=Provenance.ASSUMED, spread=0.02, origin="job file")
    measured = Fact(value=0.66, how=Provenance.MEASURED, spread=0.001, origin="job file")
    told = overlay(sheet, {"fan.diameter": guess, "core.face_width": measured})
    held, free = (draws(told, 256, 4, made_to_hold=tie) for tie in (True, False))
    assert np.array_equal(held.fan.diameter, free.fan.diameter)
    assert np.array_equal(held.core.face_width, free.core.face_width)
    assert not np.array_equal(held.core.face_height, free.core.face_height)


def test_a_vehicle_that_is_like_none_is_drawn_as_its_sheet_says() -> None:
    sheet = declared_sheet()
    assert tied(sheet, unit_samples(doubtful(sheet), 16, 1)) == {}


def test_electric_fans_hold_without_being_asked() -> None:
    """A fan that comes when it is hot leaves little to tie: sound ones scatter as any, within a fifth."""
    for name in ("wagon-1990s-v6-air", "saloon-1980s-four-air", "van-1980s-rear-four"):
        assert all(way.spread > 0.8 for way in ties_of(name).ways)
    assert all(0.0 < way.spread <= 1.0 for name in typical_names() for way in ties_of(name).ways)
