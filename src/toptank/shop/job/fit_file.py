"""The part of a job file that tells of the bay, [fit], and of radiators on offer, [[offer]].

A value is written as everywhere in a job: `saddle_width = "2 7/8 in"` was measured; a table says how it was found,
`{ value = "2 in", how = "plate" }`, or how far it may be off, `{ value = "3 in", how = "assumed", spread = "1/4 in" }`.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import cast

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.words.aliases import id_of
from toptank.knowledge.sheet import Fact
from toptank.knowledge.sheet_file import read_facts
from toptank.shop.files.toml_file import as_table, shortened, take_table, take_text
from toptank.studies.choose.fit.measures import FitSheet, Offer, bay_fields, fit_sheet, offer_fields
from toptank.units.conversion import System
from toptank.units.declaration import Declaration
from toptank.units.nearest import did_you_mean
from toptank.units.refusal import Refusal
from toptank.units.sentence import Text

FIT_SECTIONS = ("fit", "offer")
MOST_OFFERS = 12


@dataclass(slots=True)
class _Notes:
    """What is told beside the facts while the sections are read."""

    system: System
    assumed_units: list[str]
    remarks: list[Text] = field(default_factory=list[Text])


def take_fit(document: dict[str, object], system: System, assumed_units: list[str]) -> FitSheet:
    """Take [fit] and the [[offer]] tables out of a job; bare numbers are told in `assumed_units`.

    What they do not say is filled in from the declarations and counts as not known.
    """
    notes = _Notes(system, assumed_units)
    table = take_table(document, "fit")
    route = take_text(table, "hose_route", within="fit", otherwise="")
    facts = _facts(table, bay_fields(), "fit", notes)
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
        facts = _facts(table, offer_fields(), within, notes)
        offers.append(Offer(name=name, parts=parts, price=price, facts=facts, remedy=remedy))
    return tuple(offers)


def _remedy(table: dict[str, object]) -> str:
    """The remedy that an offer would be; empty where it is not said."""
    named = take_text(table, "remedy", within="offer", otherwise="")
    remedy, cores = id_of("remedy", named) if named.strip() else "", core_remedies()
    if remedy is None or (remedy and remedy not in cores):
        fix = did_you_mean(named, cores, f"one of: {'; '.join(cores)}")
        raise Refusal(field="offer.remedy", value=shortened(named), limit="is no remedy of the core", fix=fix)
    return remedy


def core_remedies() -> tuple[str, ...]:
    """Ids of the remedies that an offer can be."""
    return tuple(remedy.id for remedy in REMEDIES if remedy.group == "core")


def _facts(table: dict[str, object], keys: Mapping[str, Declaration], within: str, notes: _Notes) -> Mapping[str, Fact]:
    read = read_facts(table, keys, within=within, system=notes.system)
    notes.assumed_units += read.assumed_units
    notes.remarks += read.remarks
    return read.facts
