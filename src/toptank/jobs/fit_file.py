"""The part of a job file that tells of the bay, [fit], and of radiators on offer, [[offer]].

A value is written as everywhere in a job: `saddle_width = "2 7/8 in"` was measured; a table says how it was found,
`{ value = "2 in", how = "plate" }`, or how far it may be off, `{ value = "3 in", how = "assumed", spread = "1/4 in" }`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import cast

from toptank.jobs.toml_file import as_table, nothing_left, shortened, take_table, take_text
from toptank.knowledge.sheet import Fact, How, spread_known
from toptank.studies.choose.fit_measures import FitSheet, Offer, bay_fields, fit_sheet, offer_fields
from toptank.units.conversion import System
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, FRACTION, YES_NO
from toptank.units.display import show
from toptank.units.nearest import did_you_mean
from toptank.units.quantity import check_hard, parse, parse_choice, parse_yes_no
from toptank.units.refusal import Refusal

FIT_SECTIONS = ("fit", "offer")
MOST_OFFERS = 12
_ORIGIN = "job file"
_OFFER_TEXTS = ("name", "parts", "price", "remedy")
_WORDS = ("value", "how", "spread")


@dataclass(slots=True)
class _Notes:
    """What is told beside the facts while the sections are read."""

    system: System
    assumed_units: list[str]
    remarks: list[str] = field(default_factory=list[str])


def take_fit(document: dict[str, object], system: System, assumed_units: list[str]) -> FitSheet:
    """Take [fit] and the [[offer]] tables out of a job; bare numbers are told in `assumed_units`.

    What they do not say is filled in from the declarations and counts as not known.
    """
    notes = _Notes(system, assumed_units)
    table = take_table(document, "fit")
    route = take_text(table, "hose_route", within="fit", otherwise="")
    facts = _facts(table, bay_fields(), "fit", notes, also=("hose_route",))
    offers = _offers(document, notes)
    return fit_sheet(facts, hose_route=" ".join(route.split()), offers=offers, remarks=tuple(notes.remarks))


def _offers(document: dict[str, object], notes: _Notes) -> tuple[Offer, ...]:
    written = document.pop("offer", list[object]())
    if not isinstance(written, list):
        fix = "write it as [[offer]], with two brackets"
        raise Refusal(field="offer", value=shortened(written), limit="must be a list of tables", fix=fix)
    tables = [as_table(one, "offer") for one in cast("list[object]", written)]
    if len(tables) > MOST_OFFERS:
        limit, fix = f"a job has at most {MOST_OFFERS} offers", "drop those that are out of the question"
        raise Refusal(field="offer", value=str(len(tables)), limit=limit, fix=fix)
    offers: list[Offer] = []
    for table in tables:
        name = " ".join(take_text(table, "name", within="offer").split())
        if not name:
            raise Refusal(
                field="offer.name", value='""', limit="must not be empty", fix="say what it is in a few words"
            )
        if name in [offer.name for offer in offers]:
            raise Refusal(field="offer.name", value=shortened(name), limit="is used twice", fix="rename one of them")
        parts = take_text(table, "parts", within="offer", otherwise="")
        remedy = _remedy(table)
        price = take_text(table, "price", within="offer", otherwise="")
        within = f"offer {shortened(name, 30)!r}"
        facts = _facts(table, offer_fields(), within, notes, also=_OFFER_TEXTS)
        offers.append(Offer(name=name, parts=parts, price=price, facts=facts, remedy=remedy))
    return tuple(offers)


def _remedy(table: dict[str, object]) -> str:
    """The remedy that an offer would be; empty where it is not said."""
    named = " ".join(take_text(table, "remedy", within="offer", otherwise="").split())
    cores = core_remedies()
    if named and named not in cores:
        fix = did_you_mean(named, cores, f"one of: {'; '.join(cores)}")
        raise Refusal(field="offer.remedy", value=shortened(named), limit="is no remedy of the core", fix=fix)
    return named


def core_remedies() -> tuple[str, ...]:
    """Names of the remedies that an offer can be."""
    from toptank.studies.choose.remedies import REMEDIES  # the model is not needed to read a job without offers

    return tuple(remedy.name for remedy in REMEDIES if remedy.group == "core")


def _facts(
    table: dict[str, object], keys: Mapping[str, Declaration], within: str, notes: _Notes, *, also: tuple[str, ...]
) -> dict[str, Fact]:
    facts = {
        key: _fact(table.pop(key), declaration, f"{within}.{key}", notes)
        for key, declaration in keys.items()
        if key in table
    }
    nothing_left(table, within, (*keys, *also))
    return facts


def _fact(written: object, declaration: Declaration, path: str, notes: _Notes) -> Fact:
    entry = dict(cast("dict[str, object]", written)) if isinstance(written, dict) else {"value": written}
    for word, value in entry.items():
        if word not in _WORDS:
            fix = did_you_mean(word, _WORDS, f"write {', '.join(_WORDS)}")
            raise Refusal(field=f"{path}.{word}", value=shortened(value), limit="is not understood here", fix=fix)
    if "value" not in entry:
        fix = 'write { value = "...", how = "..." }'
        raise Refusal(field=path, value=shortened(entry), limit="has no value", fix=fix)
    words = tuple(how.value for how in How)
    how = How(words[int(parse_choice(entry.get("how", How.MEASURED.value), words, f"{path}.how"))])
    value = _value(entry["value"], declaration, path, notes)
    stated = _spread(entry["spread"], value, declaration, f"{path}.spread", notes) if "spread" in entry else None
    _look_again(value, how, declaration, path, notes)
    return Fact(value=value, how=how, spread=spread_known(declaration, how, stated), origin=_ORIGIN)


def _value(written: object, declaration: Declaration, path: str, notes: _Notes) -> float:
    if declaration.dimension == CHOICE:
        return parse_choice(written, declaration.choices, path)
    if declaration.dimension == YES_NO:
        return parse_yes_no(written, path)
    text = _plain(written, path)
    value = _quantity(text, declaration, path, notes)
    check_hard(value, declaration, text, path, notes.system)
    return min(max(value, declaration.hard[0]), declaration.hard[1])


def _spread(written: object, value: float, declaration: Declaration, path: str, notes: _Notes) -> float:
    """One standard deviation: a length or a weight, a share of the value, or the chance that a choice is wrong."""
    text = _plain(written, path)
    if declaration.dimension in (CHOICE, YES_NO):
        spread, most = parse(text, FRACTION, system=notes.system, field=path).value, 1.0
    else:
        share = isinstance(text, str) and text.strip().endswith(("%", "percent"))
        most = declaration.hard[1] - declaration.hard[0]
        if share:
            spread = parse(text, FRACTION, system=notes.system, field=path).value * abs(value)
        else:
            spread = _quantity(text, declaration, path, notes)
    if not 0.0 <= spread <= most:
        limit = "a spread is not negative and not wider than the values that are possible"
        raise Refusal(field=path, value=str(text), limit=limit, fix="write one standard deviation, or leave it out")
    return spread


def _quantity(text: str | float, declaration: Declaration, path: str, notes: _Notes) -> float:
    read = parse(text, declaration.dimension, system=notes.system, field=path)
    if read.assumed:
        notes.assumed_units.append(f"{path} = {text}: taken as {read.unit}")
    return read.value


def _look_again(value: float, how: How, declaration: Declaration, path: str, notes: _Notes) -> None:
    low, high = declaration.plausible
    slack = 1e-9 * max(abs(low), abs(high))
    if how != How.ASSUMED and not low - slack <= value <= high + slack:
        shown = [show(one, declaration.dimension, notes.system) for one in (value, low, high)]
        notes.remarks.append(
            f"{path} = {shown[0]}: {declaration.means} is usually between {shown[1]} and {shown[2]}; "
            f"accepted, look once more ({declaration.measure})."
        )


def _plain(written: object, path: str) -> str | float:
    if isinstance(written, str | int | float) and not isinstance(written, bool):
        return written
    fix = "write it in quotes, as on a tape or a plate"
    raise Refusal(field=path, value=shortened(written), limit="must be one figure with its unit", fix=fix)
