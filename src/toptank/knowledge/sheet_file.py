"""A sheet as people write it: the tables of a TOML document, read into facts.

A value is written as people write it, `face_width = "26 in"`, and then counts as measured. A table says how it was
found: `{ value = "15 psi", how = "plate" }`, or how far it may be off: `{ value = "26 in", how = "assumed", spread =
"2 in" }`. A spread is one standard deviation; of a temperature it is a difference; "15 %" is a share of the value.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import cast

from toptank.knowledge.consistency import refuse_what_cannot_be_built
from toptank.knowledge.sheet import (
    DutySheet,
    Fact,
    Provenance,
    Sheet,
    duty_fields,
    duty_sheet,
    overlay,
    sections,
    spread_known,
)
from toptank.knowledge.sheet_text import render, render_duty
from toptank.units.declaration import Declaration
from toptank.units.dimension import (
    CHOICE,
    DURATION,
    FRACTION,
    GRADE,
    STEADY,
    TEMPERATURE,
    TEMPERATURE_RISE,
    YES_NO,
    Dimension,
)
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import System, check_hard, parse, parse_choice, parse_yes_no
from toptank.units.refusal import Refusal
from toptank.units.sentence import Quantity, Text, sentence

__all__ = ["FactsRead", "read_duty", "read_facts", "read_sheet", "read_tables", "render", "render_duty"]

NOT_LEFT_TO_GUESS = ("ambient",)
"""Keys of a duty whose lack is told: no day has a usual one. Others left out are off, level or of little weight."""

RETIRED = {
    f"engine.coolant_share_{load}": "the heat to the coolant follows from fuel burnt and friction (engine.film_share)"
    for load in ("idle", "full")
}
"""Keys that a sheet once had, each with what stands for it now: files that name them are still read."""

_WORDS = ("value", "how", "spread")


@dataclass(frozen=True, slots=True, kw_only=True)
class FactsRead:
    """What tables said.

    Parameters
    ----------
    facts : the facts by path ("core.rows"), or by key for one duty
    remarks : sentences on values that are accepted but unusual
    assumed_units : one text for each bare number, with the unit that it was taken to have
    """

    facts: Mapping[str, Fact]
    remarks: tuple[Text, ...] = ()
    assumed_units: tuple[str, ...] = ()


@dataclass(slots=True)
class _Notes:
    """What is told beside the facts while a document is read."""

    system: System
    origin: str
    plain: Provenance
    remarks: list[Text] = field(default_factory=list[Text])
    assumed_units: list[str] = field(default_factory=list[str])


def read_tables(
    tables: Mapping[str, object], *, system: System, origin: str = "job file", plain: Provenance = Provenance.MEASURED
) -> FactsRead:
    """Read the tables of the parts ([core], [fan], ..., [doubts]) of a document.

    Parameters
    ----------
    tables : name of a section -> its table
    system : unit system of a bare number
    origin : told with every fact, e.g. "job file"
    plain : what a value without a word on how it was found counts as
    """
    notes = _Notes(system, origin, plain)
    facts: dict[str, Fact] = {}
    for section, table in tables.items():
        keys = sections().get(section)
        if keys is None:
            otherwise = "the sections are " + ", ".join(sections())
            raise _unknown(section, table, "is not a section", tuple(sections()), otherwise)
        for key, fact in _facts(_table(table, section), keys, f"{section}.", notes).items():
            facts[f"{section}.{key}"] = fact
    return FactsRead(facts=facts, remarks=tuple(notes.remarks), assumed_units=tuple(notes.assumed_units))


def read_facts(
    table: Mapping[str, object],
    keys: Mapping[str, Declaration],
    *,
    within: str,
    system: System,
    origin: str = "job file",
) -> FactsRead:
    """Read one table of declared keys, such as a bay or a radiator; a plain value counts as measured.

    Parameters
    ----------
    table : the table, without what is no fact
    keys : every key that it may have
    within : name of the table, told in front of a key
    system, origin : as for `read_tables`
    """
    notes = _Notes(system, origin, Provenance.MEASURED)
    facts = _facts(table, keys, f"{within}.", notes)
    return FactsRead(facts=facts, remarks=tuple(notes.remarks), assumed_units=tuple(notes.assumed_units))


def read_sheet(
    tables: Mapping[str, object], *, like: Sheet, name: str, system: System, origin: str = "job file"
) -> tuple[Sheet, FactsRead]:
    """Lay what the tables say over a typical vehicle; refuse what cannot be built.

    Returns
    -------
    sheet : the complete sheet; `read` : its stated facts, remarks and assumed units
    """
    read = read_tables(tables, system=system, origin=origin)
    sheet = overlay(Sheet(name=name, like=like.like or like.name, facts=like.facts), read.facts)
    refuse_what_cannot_be_built(sheet, stated=read.facts, system=system)
    return sheet, read


def read_duty(
    table: Mapping[str, object],
    *,
    name: str,
    system: System,
    origin: str = "job file",
    plain: Provenance = Provenance.MEASURED,
    within: str = "duty",
) -> tuple[DutySheet, FactsRead]:
    """Read one duty from its table (the name taken out); what it does not say is assumed.

    Returns
    -------
    sheet : the complete sheet of the duty; `read` : its stated facts, remarks and assumed units
    """
    notes = _Notes(system, origin, plain)
    after = table.get("after", "")
    if not isinstance(after, str):
        fix = 'write the name of another condition, or "cold"'
        raise Refusal(field=f"{within}.after", value=_short(after), limit="must be a text", fix=fix)
    told = {key: written for key, written in table.items() if key != "after"}
    facts = _facts(told, duty_fields(), f"{within}.", notes)
    for key in NOT_LEFT_TO_GUESS:
        if key not in facts:
            declaration = duty_fields()[key]
            notes.remarks.append(
                sentence(
                    "{within}: {means} is not said and is taken as {taken} (field {key}: {measure}).",
                    {
                        "within": within,
                        "means": declaration.means,
                        "key": key,
                        "measure": declaration.measure,
                        "taken": Quantity(declaration.typical, declaration.dimension),
                    },
                )
            )
    read = FactsRead(facts=facts, remarks=tuple(notes.remarks), assumed_units=tuple(notes.assumed_units))
    return duty_sheet(name, facts, after.strip()), read


def _facts(table: Mapping[str, object], keys: Mapping[str, Declaration], prefix: str, notes: _Notes) -> dict[str, Fact]:
    facts: dict[str, Fact] = {}
    for key, written in table.items():
        declaration = keys.get(key)
        if prefix + key in RETIRED:
            notes.remarks.append(f"{prefix}{key} is no longer asked and is left out: {RETIRED[prefix + key]}.")
            continue
        if declaration is None:
            elsewhere = [section for section, others in sections().items() if key in others]
            otherwise = f"it belongs in [{elsewhere[0]}]" if elsewhere else "known here: " + ", ".join(keys)
            raise _unknown(prefix + key, written, "is not a known key here", tuple(keys), otherwise)
        facts[key] = _fact(written, declaration, prefix + key, notes)
    return facts


def _fact(written: object, declaration: Declaration, path: str, notes: _Notes) -> Fact:
    if not isinstance(written, dict):
        return _known(written, declaration, path, notes, how=notes.plain, spread=None)
    entry = cast("dict[str, object]", written)
    for word in entry:
        if word not in _WORDS:
            otherwise = f"write {', '.join(_WORDS)}"
            raise _unknown(f"{path}.{word}", entry[word], "is not understood here", _WORDS, otherwise)
    if "value" not in entry:
        raise Refusal(field=path, value=_short(entry), limit="has no value", fix='write { value = "...", how = "..." }')
    how = _how(entry.get("how", notes.plain.value), path)
    return _known(entry["value"], declaration, path, notes, how=how, spread=entry.get("spread"))


def _known(
    written: object, declaration: Declaration, path: str, notes: _Notes, *, how: Provenance, spread: object | None
) -> Fact:
    value = _value(written, declaration, path, notes)
    stated = None if spread is None else _spread(spread, value, declaration, f"{path}.spread", notes)
    low, high = declaration.plausible
    slack = 1e-9 * max(abs(low), abs(high))
    # Only what somebody found is worth a second look; an assumption is a guess anyway.
    unusual = not low - slack <= value <= high + slack and not _is_steady(value, declaration)
    if how != Provenance.ASSUMED and unusual:
        found, least, most = (Quantity(one, declaration.dimension) for one in (value, low, high))
        notes.remarks.append(
            sentence(
                "{path} = {found}: {means} is usually between {least} and {most}; accepted, look once more "
                "({measure}).",
                {
                    "path": path,
                    "found": found,
                    "means": declaration.means,
                    "least": least,
                    "most": most,
                    "measure": declaration.measure,
                },
            )
        )
    spread = 0.0 if _is_steady(value, declaration) else spread_known(declaration, how, stated)
    return Fact(value=value, how=how, spread=spread, origin=notes.origin)


def _is_steady(value: float, declaration: Declaration) -> bool:
    """Whether it is a duration that somebody called steady: nobody has timed it, and nothing is in doubt."""
    return declaration.dimension is DURATION and value >= STEADY


def _value(written: object, declaration: Declaration, path: str, notes: _Notes) -> float:
    if declaration.dimension == CHOICE:
        return parse_choice(written, declaration.choices, path)
    if declaration.dimension == YES_NO:
        return parse_yes_no(written, path)
    text = _plain(written, path)
    value = _quantity(text, declaration.dimension, path, notes)
    check_hard(value, declaration, text, path, notes.system)
    return min(max(value, declaration.hard[0]), declaration.hard[1])


def _spread(written: object, value: float, declaration: Declaration, path: str, notes: _Notes) -> float:
    """Spread in SI, relative where the declaration says so, from "2 in", "5 F" or "15 %"."""
    text = _plain(written, path)
    dimension = declaration.dimension
    if dimension in (CHOICE, YES_NO):
        spread, most = _quantity(text, FRACTION, path, notes), 1.0
    elif dimension not in (FRACTION, GRADE) and isinstance(text, str) and text.strip().endswith(("%", "percent")):
        share = _quantity(text, FRACTION, path, notes)
        spread, most = (share, 1.0) if declaration.relative else (share * abs(value), _width(declaration))
        if dimension == TEMPERATURE:
            raise Refusal(field=path, value=text, limit="a share of a temperature means nothing", fix='write "5 F"')
    else:
        spread = _quantity(text, TEMPERATURE_RISE if dimension == TEMPERATURE else dimension, path, notes)
        most = _width(declaration)
        if declaration.relative:
            if value == 0.0:
                raise Refusal(
                    field=path,
                    value=str(text),
                    limit="the value is zero",
                    fix="write the spread in percent, or leave it out",
                )
            spread, most = spread / abs(value), 1.0
    if not 0.0 <= spread <= most:
        limit = "a spread is not negative and not wider than the values that are possible"
        raise Refusal(field=path, value=str(text), limit=limit, fix="write one standard deviation, or leave it out")
    return spread


def _quantity(text: str | float, dimension: Dimension, path: str, notes: _Notes) -> float:
    parsed = parse(text, dimension, system=notes.system, field=path)
    if parsed.assumed:
        notes.assumed_units.append(f"{path} = {text}: taken as {parsed.unit}")
    return parsed.value


def _width(declaration: Declaration) -> float:
    return declaration.hard[1] - declaration.hard[0]


def _how(written: object, path: str) -> Provenance:
    words = tuple(how.value for how in Provenance)
    return Provenance(words[int(parse_choice(written, words, f"{path}.how"))])


def _plain(written: object, path: str) -> str | float:
    if isinstance(written, str | int | float) and not isinstance(written, bool):
        return written
    raise Refusal(
        field=path,
        value=_short(written),
        limit="must be one figure with its unit",
        fix="write it in quotes, as on a tape or a plate",
    )


def _table(written: object, section: str) -> Mapping[str, object]:
    if isinstance(written, dict):
        return cast("dict[str, object]", written)
    fix = f"write [{section}] on a line of its own, then one key a line"
    raise Refusal(field=section, value=_short(written), limit="must be a table", fix=fix)


def _unknown(name: str, written: object, limit: str, known: tuple[str, ...], otherwise: str) -> Refusal:
    fix = did_you_mean(name.rpartition(".")[2], known, otherwise)
    return Refusal(field=_short(name), value=_short(written), limit=limit, fix=fix)


def _short(written: object) -> str:
    shown = "".join(sign if sign.isprintable() else "?" for sign in " ".join(str(written).split()))
    return shown if len(shown) <= 40 else shown[:37] + "..."
