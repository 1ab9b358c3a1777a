"""Families of coolant as practised: what may meet what. Common practice, no source."""

import itertools

import pytest

from toptank.studies.choose.coolant.coolant_families import UNKNOWN, WATER, Action, compatibility, families
from toptank.units.refusal import Refusal

NAMES = [family.name for family in families()]


@pytest.mark.parametrize("new", NAMES)
def test_an_unknown_fill_is_flushed_out(new: str) -> None:
    answer = compatibility(UNKNOWN, new, soldered=False, sealed=True)
    assert answer.action == Action.flush
    assert "nobody knows" in answer.reason


@pytest.mark.parametrize(("inside", "new"), list(itertools.permutations(NAMES, 2)))
def test_two_families_are_never_mixed(inside: str, new: str) -> None:
    assert compatibility(inside, new, soldered=False, sealed=True).action == Action.flush


@pytest.mark.parametrize("name", NAMES)
def test_a_family_may_be_topped_up_with_itself_and_follows_water(name: str) -> None:
    assert compatibility(name, name, soldered=False, sealed=True).action == Action.top_up
    assert compatibility(WATER, name, soldered=False, sealed=True).action == Action.fill


def test_organic_acids_in_an_old_open_brass_radiator_are_warned_of_twice() -> None:
    # common practice, no source: organic acids only in sealed systems; several texts keep them out of solder
    warned = " ".join(compatibility(WATER, "OAT", soldered=True, sealed=False).cautions)
    assert "solder" in warned
    assert "sealed" in warned
    modern = " ".join(compatibility(WATER, "OAT", soldered=False, sealed=True).cautions)
    assert "solder" not in modern
    assert "sealed" not in modern


def test_the_old_kind_suits_solder_and_open_tanks() -> None:
    # common practice, no source
    assert len(compatibility(WATER, "IAT", soldered=True, sealed=False).cautions) == 1


def test_colour_is_never_taken_for_a_family() -> None:
    assert all("color" in compatibility(WATER, n, soldered=False, sealed=True).cautions[0] for n in NAMES)
    with pytest.raises(Refusal, match="IAT"):
        compatibility("green", "IAT", soldered=True, sealed=False)
    with pytest.raises(Refusal, match="known here"):
        compatibility("IAT", UNKNOWN, soldered=True, sealed=False)


def test_life_of_the_usual_families() -> None:
    # common practice, no source: IAT 2 years or 30,000 miles; OAT and HOAT 5 years or 50,000 miles and more
    known = {family.name: family for family in families()}
    for name, years, miles in (("IAT", 2, 30_000), ("OAT", 5, 50_000), ("HOAT", 5, 50_000)):
        assert known[name].years == pytest.approx(years)
        assert known[name].distance == pytest.approx(miles * 1609.344)


def test_every_family_says_that_it_is_practice() -> None:
    assert all(family.source.startswith("common practice, no source") for family in families())
