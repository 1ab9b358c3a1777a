"""The part of a job file that tells of the trouble: readings, checks made, parts changed, history, and what it was."""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import cast

from toptank.catalogue.checks.check import Check, checks
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.catalogue.words.aliases import Kind, id_of, meant, outcome_of
from toptank.catalogue.words.words import words
from toptank.shop.files.toml_file import as_table, nothing_left, shortened, take_list, take_table, take_text, take_yes
from toptank.studies.diagnose.evidence import (
    EFFECTS,
    NEEDLE,
    ONSETS,
    PLACES,
    TOLD,
    WORDS,
    Changed,
    Evidence,
    Finding,
    History,
    Reading,
    Told,
)
from toptank.units.conversion import System
from toptank.units.dimension import DISTANCE, TEMPERATURE, Dimension
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import parse
from toptank.units.refusal import Refusal

LOWEST, HIGHEST = 230.0, 433.0
"""Temperatures that a gauge can show [K]."""

FEW = 8
"""Words that a refusal lists one by one."""

_RANGE = re.compile(r"(.+?)\s+(?:to|-|–)\s+(.+)", re.IGNORECASE)
_SIDED = re.compile(r"(over|above|under|below|about)\s+(.+)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Confirmed:
    """What it was, once it is known. Diagnosis never sees this."""

    causes: tuple[str, ...]
    contributing: tuple[str, ...]
    how: str


def take_evidence(
    document: dict[str, object], duties: Sequence[str], system: System, assumed_units: list[str]
) -> Evidence:
    """Take readings, checks, changes and history out of a job file; bare numbers are told in `assumed_units`."""
    readings = [_reading(as_table(one, "reading"), duties, system, assumed_units) for one in _each(document, "reading")]
    findings = [_finding(as_table(one, "check"), system, assumed_units) for one in _each(document, "check")]
    changes = [_changed(as_table(one, "changed")) for one in _each(document, "changed")]
    history = _history(take_table(document, "history"), system, assumed_units)
    return Evidence(
        readings=tuple(readings),
        findings=tuple(findings),
        changes=tuple(changes),
        symptoms=_symptoms(_each(document, "symptom")),
        history=history,
    )


def take_confirmed(document: dict[str, object]) -> Confirmed | None:
    """Take what it was out of a job file, or None while nobody knows."""
    if "confirmed" not in document:
        return None
    table = take_table(document, "confirmed")
    causes = _ids(table, "causes", "cause", within="confirmed")
    contributing = _ids(table, "contributing", "cause", within="confirmed")
    how = take_text(table, "how", within="confirmed", otherwise="")
    nothing_left(table, "confirmed", ("causes", "contributing", "how"))
    if not causes:
        fix = "name at least one cause; toptank causes lists them"
        raise Refusal(field="confirmed.causes", value="(missing)", limit="is needed", fix=fix)
    return Confirmed(causes=causes, contributing=contributing, how=how)


def _each(document: dict[str, object], key: str) -> list[object]:
    value = document.pop(key, list[object]())
    if not isinstance(value, list):
        fix = f"write it as [[{key}]], with two brackets"
        raise Refusal(field=key, value=shortened(value), limit="must be a list of tables", fix=fix)
    return cast("list[object]", value)


def _reading(table: dict[str, object], duties: Sequence[str], system: System, assumed_units: list[str]) -> Reading:
    duty = take_text(table, "duty", within="reading")
    if duty not in duties:
        fix = did_you_mean(duty, duties, "name a duty of this job")
        raise Refusal(field="reading.duty", value=shortened(duty), limit="is not a duty of this job", fix=fix)
    low, high = _temperatures(table.pop("gauge", None), "reading.gauge", system, assumed_units)
    words = _word(table, "words", WORDS, "reading", fix="put anything else into note")
    needle = _word(table, "needle", NEEDLE, "reading", fix="put anything else into note")
    place = _word(table, "thermometer", PLACES, "reading", fix="leave it out for the vehicle's own gauge") or "gauge"
    note = take_text(table, "note", within="reading", otherwise="")
    nothing_left(table, "reading", ("duty", "gauge", "words", "needle", "thermometer", "note"))
    if low is None and high is None and words is None and needle is None and not note:
        limit, fix = "says nothing of what was seen", 'add gauge = "215 F", words = "hot" or needle = "half"'
        raise Refusal(field="reading.duty", value=shortened(duty), limit=limit, fix=fix)
    return Reading(duty=duty, low=low, high=high, words=words, needle=needle, place=place, note=note)


def _temperatures(
    value: object, field: str, system: System, assumed_units: list[str]
) -> tuple[float | None, float | None]:
    """Lowest and highest temperature meant by "215 F", "210 to 215 F", "over 240 F", "under 190 F", "about 215 F"."""
    if value is None:
        return None, None

    def kelvin(text: object) -> float:
        if not isinstance(text, str | int | float) or isinstance(text, bool):
            raise Refusal(field=field, value=shortened(text), limit="must be a temperature", fix='write "215 F"')
        read = parse(text, TEMPERATURE, system=system, field=field)
        if read.assumed:
            assumed_units.append(f"{field} = {shortened(text)}: taken as {read.unit}")
        if not LOWEST <= read.value <= HIGHEST:
            limit = "must lie between -45 °F and 320 °F (-43 and 160 °C)"
            raise Refusal(field=field, value=shortened(text), limit=limit, fix="check its unit")
        return read.value

    text = value if isinstance(value, str) else ""
    if between := _RANGE.fullmatch(text.strip()):
        first, last = between.groups()
        unit = last.strip().lstrip("+-0123456789.,/ ")
        low, high = kelvin(first if any(sign.isalpha() for sign in first) else f"{first} {unit}"), kelvin(last)
        if low > high:
            fix = "write the lower one first"
            raise Refusal(field=field, value=shortened(value), limit="must rise from left to right", fix=fix)
        return low, high
    if sided := _SIDED.fullmatch(text.strip()):
        side, figure = sided.group(1).lower(), kelvin(sided.group(2))
        if side == "about":
            return figure - 2.0, figure + 2.0
        return (figure, None) if side in ("over", "above") else (None, figure)
    figure = kelvin(value)
    return figure, figure


def _finding(table: dict[str, object], system: System, assumed_units: list[str]) -> Finding:
    name = take_text(table, "name", within="check")
    id_ = id_of("check", name)
    if id_ is None:
        fix = meant("check", name, _sharing_a_word(name, [one.name for one in words("us").check.values()]))
        raise Refusal(field="check.name", value=shortened(name), limit="is not a known check", fix=fix)
    check = checks()[id_]
    decisive = take_yes(table, "decisive", within="check")
    note = take_text(table, "note", within="check", otherwise="")
    value = table.pop("outcome", None)
    nothing_left(table, "check", ("name", "outcome", "decisive", "note"))
    field = f"check {name!r} outcome"
    if check.dimension is not None:
        figure = _figure(value, check, check.dimension, field, system, assumed_units)
        return Finding(check=id_, figure=figure, decisive=decisive, note=note)
    outcome = outcome_of(id_, value) if isinstance(value, str) else None
    if outcome is None:
        limit = "must be one of: " + ", ".join(check.outcomes)
        fix = did_you_mean(str(value), check.outcomes, "write one of them")
        raise Refusal(field=field, value=shortened(value), limit=limit, fix=fix)
    return Finding(check=id_, outcome=outcome, decisive=decisive, note=note)


def _sharing_a_word(name: str, known: Iterable[str]) -> str:
    """Checks that share a longer word with a name that nobody knows."""
    words = {word for word in re.findall(r"[a-z]{4,}", name.lower()) if word not in ("check", "test", "when", "with")}
    sharing = [repr(one) for one in known if words & set(re.findall(r"[a-z]{4,}", one.lower()))]
    return f"did you mean {' or '.join(sharing[:3])}?" if sharing else "toptank checks lists them"


def _figure(
    value: object, check: Check, dimension: Dimension, field: str, system: System, assumed_units: list[str]
) -> float:
    if not isinstance(value, str | int | float) or isinstance(value, bool):
        fix = f"write the {dimension.name} that was read"
        raise Refusal(field=field, value=shortened(value), limit="must be a figure", fix=fix)
    read = parse(value, dimension, system=system, field=field)
    if read.assumed:
        assumed_units.append(f"{field} = {shortened(value)}: taken as {read.unit}")
    return read.value


def _changed(table: dict[str, object]) -> Changed:
    written = take_text(table, "part", within="changed", otherwise="")
    part = _id(written, "work", "changed.part") if written else None
    effect = _word(table, "effect", EFFECTS, "changed", fix="name one of them")
    note = take_text(table, "note", within="changed", otherwise="")
    nothing_left(table, "changed", ("part", "effect", "note"))
    if part is None or effect is None:
        missing = "part" if part is None else "effect"
        fix = f'add {missing} = "..." to [[changed]]'
        raise Refusal(field=f"changed.{missing}", value="(missing)", limit="is needed", fix=fix)
    return Changed(part=part, effect=effect, note=note)


def _symptoms(rows: Sequence[object]) -> tuple[Told, ...]:
    """What the driver told or denied; nothing twice."""
    told: list[Told] = []
    for row in rows:
        table = as_table(row, "symptom")
        name = take_text(table, "id", within="symptom")
        if name not in symptoms():
            fix = did_you_mean(name, symptoms(), "docs/symptoms.md lists them")
            raise Refusal(field="symptom.id", value=shortened(name), limit="is not a known symptom", fix=fix)
        if name in {one.symptom for one in told}:
            fix = "keep one of the two rows"
            raise Refusal(field="symptom.id", value=shortened(name), limit="is told twice", fix=fix)
        said = _word(table, "told", TOLD, "symptom", fix="leave it out where the driver said so") or TOLD[0]
        note = take_text(table, "note", within="symptom", otherwise="")
        nothing_left(table, "symptom", ("id", "told", "note"))
        told.append(Told(symptom=name, denied=said == TOLD[1], note=note))
    return tuple(told)


def _history(table: dict[str, object], system: System, assumed_units: list[str]) -> History:
    onset = _word(table, "onset", ONSETS, "history", fix="leave it out if nobody knows")
    after_work = _ids(table, "after_work", "work", within="history")
    doubtful, renewed = (_ids(table, key, "work", within="history") for key in ("doubtful", "renewed"))
    distance: float | None = None
    if "distance" in table:
        value = table.pop("distance")
        if not isinstance(value, str | int | float) or isinstance(value, bool):
            fix = 'write "120000 mi"'
            raise Refusal(field="history.distance", value=shortened(value), limit="must be a distance", fix=fix)
        read = parse(value, DISTANCE, system=system, field="history.distance")
        if read.assumed:
            assumed_units.append(f"history.distance = {shortened(value)}: taken as {read.unit}")
        if not 0.0 <= read.value <= 5e9:
            limit, fix = "must lie between 0 and 3,000,000 miles", "check the figure and its unit"
            raise Refusal(field="history.distance", value=shortened(value), limit=limit, fix=fix)
        distance = read.value
    nothing_left(table, "history", ("onset", "after_work", "doubtful", "renewed", "distance"))
    return History(onset=onset, after_work=after_work, doubtful=doubtful, renewed=renewed, distance=distance)


def _word(table: dict[str, object], key: str, known: Iterable[str], within: str, *, fix: str) -> str | None:
    word = take_text(table, key, within=within, otherwise="") or None
    if word is not None and word not in tuple(known):
        words = tuple(known)
        few = len(words) <= FEW
        limit = "must be one of: " + ", ".join(words) if few else "is not known here"
        mend = did_you_mean(
            word, words, fix if few else f"known are {', '.join(words[:FEW])} and more: see docs/job-file.md"
        )
        raise Refusal(field=f"{within}.{key}", value=shortened(word), limit=limit, fix=mend)
    return word


def _ids(table: dict[str, object], key: str, kind: Kind, *, within: str) -> tuple[str, ...]:
    """Take a list of causes or of work out of a table."""
    return tuple(_id(word, kind, f"{within}.{key}") for word in take_list(table, key, within=within))


def _id(written: str, kind: Kind, field: str) -> str:
    id_ = id_of(kind, written)
    if id_ is None:
        listed = {"cause": "toptank causes lists them", "work": "docs/job-file.md lists them"}
        fix = meant(kind, written, listed[kind])
        raise Refusal(field=field, value=shortened(written), limit="is not known here", fix=fix)
    return id_
