"""JSON schemas (draft 2020-12) of the files that people write: job, core, price book; made from the declarations."""

from collections.abc import Iterable, Mapping
from typing import Any, TypeAlias

from toptank.catalogue.causes.all_causes import CAUSE_IDS
from toptank.catalogue.checks.check import Check, checks
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.knowledge.sheet import Provenance, duty_fields, sections
from toptank.knowledge.typical import typical_names
from toptank.shop.job import core_file, fit_file, job_file, price_book
from toptank.shop.job.price_book import GONE_WITHOUT, HIGHEST, LOST_DAY, known_parts
from toptank.shop.log.log_mapping import DECIMALS, MOST_COLUMNS
from toptank.studies.choose.fit.measures import bay_fields, offer_fields
from toptank.studies.diagnose.evidence import EFFECTS, NEEDLE, ONSETS, PLACES, TOLD, WORDS, WORK
from toptank.units.conversion import SYSTEMS, System
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, YES_NO
from toptank.units.display import show

Schema: TypeAlias = dict[str, Any]

DRAFT = "https://json-schema.org/draft/2020-12/schema"
TEXT: Schema = {"type": "string"}


def headed(title: str, schema: Schema) -> Schema:
    """Return a schema with its draft and its title."""
    return {"$schema": DRAFT, "title": title, **schema}


def table(properties: Schema, *, required: list[str] | None = None) -> Schema:
    """Return the schema of a table that may leave out what is not required."""
    needed = {"required": required} if required else {}
    return {"type": "object", "properties": properties, **needed, "additionalProperties": False}


def many(one: Schema, *, least: int = 0) -> Schema:
    """Return the schema of a list of at least so many of one kind."""
    return {"type": "array", "items": one, **({"minItems": least} if least else {})}


def words(known: Iterable[object], description: str = "") -> Schema:
    """Return the schema of one word out of those that are known."""
    return {"enum": list(known), **({"description": description} if description else {})}


def told(description: str) -> Schema:
    """Return the schema of a free text."""
    return {**TEXT, "description": description}


def quantity(description: str = "") -> Schema:
    """Return the schema of a number, bare or with its unit."""
    return {"type": ["string", "number"], **({"description": description} if description else {})}


def limits_in_words(declaration: Declaration, limits: tuple[float, float], system: System) -> str:
    """Write two limits of a field in the units of the shop."""
    low, high = (show(limit, declaration.dimension, system) for limit in limits)
    return f"{low} to {high}"


_AFTER = 'what came before: the name of another condition, or "cold"; what is usual for its kind if not said'


_WRITE_UP = {
    "customer": "whose vehicle it is",
    "phone": "of the customer",
    "registration": "number plate",
    "vin": "vehicle identification number",
    "mechanic": "who works on it",
    "promised": "when it is to be handed back",
    "waiting_for": "parts or customer, while work waits for one of them",
}


def job_schema() -> Schema:
    """Return the schema of a job file, as it stands once TOML has been read."""
    job = table(
        {
            "title": told("the vehicle in a few words"),
            "complaint": told("the driver's own words"),
            "invented": {"type": "boolean", "description": "true: the figures are made up"},
            "limit": quantity("coolant temperature to stay under; 225 degF if not said"),
        }
    )
    write_up = table({key: told(means) for key, means in _WRITE_UP.items()})
    vague = {"type": "boolean", "description": "true: told of in a few words only, so every spread is wider"}
    vehicle = table({"like": words(typical_names()), "vague": vague}, required=["like"])
    duty = table({"name": TEXT, "after": told(_AFTER), **_fields(duty_fields())}, required=["name"])
    properties: Schema = {
        **_file_head(job_file.FORMAT),
        "job": job,
        "write_up": write_up,
        "vehicle": vehicle,
        **{section: table(_fields(keys)) for section, keys in sections().items()},
        "duty": {**many(duty, least=1), "maxItems": job_file.MOST_DUTIES},
        "worst_day": {**many(duty), "maxItems": job_file.MOST_DUTIES},
        "fit": _fit(),
        "offer": {**many(_offer()), "maxItems": fit_file.MOST_OFFERS},
        "reading": many(_reading()),
        "symptom": many(_symptom()),
        "check": many(_check()),
        "changed": many(_changed()),
        "history": _history(),
        "log": _log(),
        "confirmed": _confirmed(),
    }
    whole = table(properties, required=["format", "vehicle", "duty"])
    return headed("Job file of toptank", {**whole, "$defs": _kinds()})


def _fit() -> Schema:
    route = told("where the hoses run and what they must clear")
    return {**table({**_fields(bay_fields()), "hose_route": route}), "description": "what a tape finds in the bay"}


def _offer() -> Schema:
    named = {"name": told("what it is in a few words"), "parts": told("what is bought"), "price": told("as written")}
    named["remedy"] = words(fit_file.core_remedies(), "the remedy that it would be")
    return table({**named, **_fields(offer_fields())}, required=["name"])


def _reading() -> Schema:
    gauge = 'what was read: "215 F", "210 to 215 F", "about 215 F", "over 240 F", "under 190 F"'
    return table(
        {
            "duty": told("name of a duty of this job"),
            "gauge": quantity(gauge),
            "words": words(WORDS, "what the driver said"),
            "needle": words(NEEDLE, "where the needle of a gauge without figures stood"),
            "thermometer": words(PLACES, "what was read; the vehicle's own gauge if not said"),
            "note": told("anything else"),
        },
        required=["duty"],
    )


def _symptom() -> Schema:
    keys = {
        "id": words(symptoms(), "a symptom; docs/symptoms.md lists them"),
        "told": words(TOLD, "said, if left out"),
        "note": told("anything else"),
    }
    return table(keys, required=["id"])


def _check() -> Schema:
    """A check with outcomes takes one of them, another one a figure."""
    known: list[Schema] = []
    for check in checks().values():
        outcome = words(check.outcomes) if check.outcomes else quantity(f"the {_kind(check)} that was read")
        known.append({"properties": {"name": {"const": check.id}, "outcome": outcome}})
    keys = {
        "name": words(checks(), "a check; `toptank checks` lists them"),
        "outcome": quantity("what it showed"),
        "decisive": {"type": "boolean", "description": "true: it saw the defect itself"},
        "note": told("anything else"),
    }
    return {**table(keys, required=["name", "outcome"]), "anyOf": known}


def _kind(check: Check) -> str:
    return check.dimension.name if check.dimension is not None else "figure"


def _changed() -> Schema:
    effect = words(EFFECTS, "what it did to the trouble")
    part = words(WORK, "part changed, or work done")
    return table({"part": part, "effect": effect, "note": told("anything else")}, required=["part", "effect"])


def _history() -> Schema:
    parts = many(words(WORK))
    return table(
        {
            "onset": words(ONSETS, "how the trouble began"),
            "after_work": {**parts, "description": "worked on just before it began"},
            "doubtful": {**parts, "description": "gave trouble before"},
            "renewed": {**parts, "description": "new"},
            "distance": quantity("driven by the vehicle"),
        }
    )


def _log() -> Schema:
    columns = {**many({**TEXT, "pattern": "^.*[^\\s].*=\\s*[A-Za-z_]+(\\s.*)?$"}), "maxItems": MOST_COLUMNS}
    decimal = words(DECIMALS, "sign before decimals, where it cannot be told")
    keys = {"columns": {**columns, "description": 'such as "Water = coolant °F", "T = time s"'}, "decimal": decimal}
    return {**table(keys), "description": "what the columns of a logger mean whose heads do not say it"}


def _confirmed() -> Schema:
    causes = words(CAUSE_IDS)
    keys = {
        "causes": {**many(causes, least=1), "description": "what it was; several are one answer"},
        "contributing": {**many(causes), "description": "what added to it"},
        "how": told("how that is known"),
    }
    description = "what it was, once it is known; diagnosis never reads it"
    return {**table(keys, required=["causes"]), "description": description}


def core_schema() -> Schema:
    """Return the schema of a core file, as it stands once TOML has been read."""
    parts = {section: table(_fields(sections()[section])) for section in core_file.SECTIONS}
    whole = table({**_file_head(core_file.FORMAT), **parts}, required=["format", "core"])
    return headed("Core file of toptank", {**whole, "$defs": _kinds()})


def price_book_schema() -> Schema:
    """Return the schema of a price book, as it stands once TOML has been read."""
    keys = {"format": {"const": price_book.FORMAT}, **_price_book()}
    return headed("Price book of toptank", table(keys, required=["format", "labour"]))


def _price_book() -> Schema:
    """Return what may stand in a price book beside its format."""
    price = {"type": "number", "minimum": 0, "description": "in the shop's money", "maximum": HIGHEST}
    return {
        "currency": {**TEXT, "minLength": 1, "maxLength": 4, "default": "$"},
        "labour": {**price, "description": "an hour of work"},
        "lost_day": {**price, "description": "a worst day that is not held", "default": LOST_DAY},
        "gone_without": {
            **price,
            "description": "the customer goes without the air conditioning on the worst day",
            "default": GONE_WITHOUT,
        },
        "parts": table(dict.fromkeys(known_parts(), price)),
    }


def _file_head(written: str) -> Schema:
    units = {"enum": list(SYSTEMS), "default": "us", "description": "unit system of a bare number"}
    return {"format": {"const": written}, "units": units}


def _fields(keys: Mapping[str, Declaration]) -> Schema:
    return {key: _field(declaration) for key, declaration in keys.items()}


def _field(declaration: Declaration) -> Schema:
    """A plain value, which counts as measured, or a table that says how it was found."""
    kind = "quantity"
    if declaration.dimension == CHOICE:
        kind, limits = "choice", "one of: " + ", ".join(declaration.choices)
    elif declaration.dimension == YES_NO:
        kind, limits = "yes_no", "yes or no"
    else:
        both = dict.fromkeys(limits_in_words(declaration, declaration.hard, system) for system in SYSTEMS)
        limits = " = ".join(both)
    return {"description": f"{declaration.means}; {limits}", "$ref": f"#/$defs/{kind}"}


def _kinds() -> Schema:
    """The three ways in which the value of a field is written."""
    plain: Schema = {"quantity": quantity(), "choice": TEXT, "yes_no": {"type": ["boolean", "string"]}}
    how = {"enum": [how.value for how in Provenance]}
    return {
        kind: {"anyOf": [value, table({"value": value, "how": how, "spread": quantity()}, required=["value"])]}
        for kind, value in plain.items()
    }
