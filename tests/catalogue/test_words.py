"""Everything in the catalogue has an id, its words, its links and its source; whatever is missing is named."""

import re
import tomllib
from importlib import resources
from typing import Any, get_args

import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.catalogue.checks.check import GROUPS, checks
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.repairs import MADE_BY, REPAIRS
from toptank.catalogue.words import aliases
from toptank.catalogue.words.words import words, words_of
from toptank.catalogue.work import WORK
from toptank.shop.job.price_book import built_in, known_parts
from toptank.shop.order.parts_list import size_of
from toptank.units.conversion import System
from toptank.units.dialect import DIALECT_OF, Dialect

IDS: dict[str, set[str]] = {
    "cause": set(CAUSE_IDS),
    "repair": set(REPAIRS),
    "remedy": {remedy.id for remedy in REMEDIES},
    "check": set(checks()),
    "hazard": {hazard for check in checks().values() for hazard in check.hazards} | {"fact"},
    "part": set(known_parts()),
    "work": set(WORK),
    "group": {*GROUPS, "fact"},
    "plan": {"nothing"},
}
DIALECTS: tuple[Dialect, ...] = get_args(Dialect)
UNREPAIRED = {"nothing_to_repair"}
"""Repairs that no remedy makes: where there is nothing to repair, none is needed."""

SPOKEN = {
    "us": r"bonnet|windscreen|silencer|petrol|spanner|torch(?! or press)|earth|colour|aluminium|litre|louvre|tyre"
    r"|gearbox|carburettor",
    "uk": r"hood|windshield|muffler|gasoline|(?<!torque )wrench|flashlight|(?<!level )(?<!from the )ground|color"
    r"|aluminum|liter|louver|tires?\b|carburetor",
}
"""Words that belong to the other English."""


@pytest.mark.parametrize("kind", IDS)
def test_every_id_has_words_and_no_word_is_left_over(kind: str) -> None:
    assert set(getattr(words_of("us"), kind)) == IDS[kind]


@pytest.mark.parametrize("dialect", DIALECTS)
def test_a_dialect_says_only_what_is_there_to_be_said(dialect: Dialect) -> None:
    """An entry, a key or an outcome of uk.toml that us.toml lacks is a slip of somebody's fingers."""
    base, own = _file("us"), _file(dialect)
    for kind, entries in own.items():
        for id_, entry in entries.items():
            assert id_ in base[kind], f"{kind}.{id_}"
            assert set(entry) <= set(base[kind][id_]), f"{kind}.{id_}"
            assert set(entry.get("outcomes", {})) <= set(base[kind][id_].get("outcomes", {})), f"{kind}.{id_}"


def test_ids_are_snake_case_and_never_sentences() -> None:
    ids = {id_ for known in IDS.values() for id_ in known}
    ids |= {outcome for check in checks().values() for outcome in check.outcomes}
    assert [id_ for id_ in ids if not re.fullmatch(r"[a-z0-9]+(_[a-z0-9]+)*", id_)] == []


def test_every_outcome_has_its_words() -> None:
    for check in checks().values():
        assert tuple(words_of("us").check[check.id].outcomes) == check.outcomes, check.id


def test_every_cause_can_be_seen_repaired_and_traced() -> None:
    """What a new cause may lack: a check that shows it, a remedy, work that touches it, an origin of its share."""
    shown = {cause for check in checks().values() for cause in check.shown_by}
    lacking = {
        cause.id: [
            what
            for what, there in (
                ("a check that shows it", bool(shown & {cause.id, cause.kind_of})),  # the wider cause's rates count
                ("a remedy", cause.repair in MADE_BY or cause.repair in UNREPAIRED),
                ("work that puts it right", bool(cause.mended_by) and set(cause.mended_by) <= set(WORK)),
                ("known work that brings it about", set(cause.begun_by) <= set(WORK)),
                ("an origin of its share", bool(cause.origin)),
                ("where the size of its effect comes from", bool(cause.size)),
            )
            if not there
        ]
        for cause in CAUSES
    }
    assert {id_: what for id_, what in lacking.items() if what} == {}


def test_every_remedy_names_what_it_cures_forces_and_takes() -> None:
    known = {remedy.id for remedy in REMEDIES}
    prices = built_in().parts
    for remedy in REMEDIES:
        assert {*remedy.cures, *remedy.makes_up_for} <= set(CAUSE_IDS), remedy.id
        assert {*remedy.forces, *remedy.includes} <= known, remedy.id
        assert set(remedy.parts) <= set(prices), remedy.id
        assert remedy.source, remedy.id
        assert remedy.size, remedy.id
        assert remedy.concession == bool(words_of("us").remedy[remedy.id].concession), remedy.id


@pytest.mark.parametrize("part", known_parts())
def test_every_part_has_a_size_in_words(part: str) -> None:
    from toptank.knowledge.typical import typical_sheet

    assert size_of(part, typical_sheet("pickup-1970s-v8-air").facts, "us")


def test_every_check_says_where_it_comes_from_and_what_shows_it() -> None:
    for check in checks().values():
        assert check.source, check.id
        assert check.rates, check.id
        assert set(check.shown_by) <= set(CAUSE_IDS), check.id
        assert check.shown_by or check.field or check.measure, check.id
        assert check.bare_hands != bool(words_of("us").check[check.id].tools), check.id


@pytest.mark.parametrize("kind", get_args(aliases.Kind))
def test_a_former_wording_means_for_ever_what_it_meant(kind: aliases.Kind) -> None:
    former = tomllib.loads(_text("aliases"))[kind]
    assert former
    for wording, id_ in former.items():
        assert aliases.id_of(kind, wording) == id_
        assert aliases.id_of(kind, f"  {wording.upper()} ") == id_
        assert id_ in IDS[kind], wording


def test_an_outcome_may_be_written_by_its_id_its_words_and_its_former_words() -> None:
    former = tomllib.loads(_text("aliases"))["outcome"]
    for check, wordings in former.items():
        for wording, id_ in wordings.items():
            assert aliases.outcome_of(check, wording) == id_
            assert id_ in checks()[check].outcomes
    for check in checks().values():
        for system in DIALECT_OF:
            for id_, word in words(system).check[check.id].outcomes.items():
                assert {aliases.outcome_of(check.id, id_), aliases.outcome_of(check.id, word)} == {id_}


@pytest.mark.parametrize("system", DIALECT_OF)
@pytest.mark.parametrize("kind", get_args(aliases.Kind))
def test_what_is_shown_can_be_written(kind: aliases.Kind, system: System) -> None:
    for id_, named in getattr(words(system), kind).items():
        assert aliases.id_of(kind, named.name) == id_


@pytest.mark.parametrize(
    ("written", "plan"),
    [
        ("replace_cap", ("replace_cap",)),
        ("replace_cap,top_up_bleed", ("replace_cap", "top_up_bleed")),
        ("Replace the cap + drain, fill and bleed", ("replace_cap", "drain_fill_bleed")),
        ("drain, fill and bleed", ("drain_fill_bleed",)),
        ("nothing", ()),
        ("do nothing", ()),
        ("replace the cap + paint it red", None),
        ("", None),
    ],
)
def test_a_plan_is_read_as_ids_and_as_it_was_called(written: str, plan: tuple[str, ...] | None) -> None:
    assert aliases.plan_of(written) == plan
    assert plan is None or aliases.plan_of(aliases.written_plan(plan)) == plan


@pytest.mark.parametrize("dialect", DIALECTS)
def test_no_dialect_speaks_the_others_words(dialect: Dialect) -> None:
    spoken = [
        f"{kind}.{id_}: {text}"
        for kind in IDS
        for id_, named in getattr(words_of(dialect), kind).items()
        for text in _texts(named)
        if re.search(rf"\b(?:{SPOKEN[dialect]})", text, re.IGNORECASE)
    ]
    assert spoken == []


def _texts(named: Any) -> list[str]:
    texts: list[str] = []
    for key in type(named).__slots__:
        value = getattr(named, key)
        texts += value.values() if key == "outcomes" else [value]
    return texts


def _text(name: str) -> str:
    return resources.files("toptank.catalogue.words").joinpath(f"{name}.toml").read_text(encoding="utf-8")


def _file(dialect: Dialect) -> dict[str, Any]:
    return tomllib.loads(_text(dialect))
