"""JSON schemas (draft 2020-12) of the files that people write and of the answers, made from the declarations."""

from typing import Any

from toptank.catalogue.causes.all_causes import CAUSE_NAMES
from toptank.catalogue.checks.check import Check, checks
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.knowledge.sheet import Provenance, duty_fields, sections
from toptank.knowledge.typical import typical_names
from toptank.shop.answers.schema.schema_of_answers import (
    boil_answer,
    core_answer,
    explain_answer,
    forecast_answer,
    freeze_answer,
    sheet_answer,
    vehicles_answer,
)
from toptank.shop.answers.schema.schema_of_choice import (
    choose_answer,
    fit_answer,
    mix_answer,
    price_book_file,
    prices_answer,
)
from toptank.shop.answers.schema.schema_of_coolant import bleed_answer, cap_answer, water_answer
from toptank.shop.answers.schema.schema_of_diagnosis import diagnosis, evaluation, list_of_causes, list_of_checks
from toptank.shop.answers.schema.schema_of_drive import drive_answer
from toptank.shop.answers.schema.schema_of_log import log_answer, verify_answer
from toptank.shop.answers.schema.schema_of_record import attachments_answer, record_answers
from toptank.shop.answers.schema.schema_shapes import (
    SYSTEMS,
    TEXT,
    Schema,
    headed,
    many,
    quantity,
    table,
    table_of_all,
    told,
    words,
)
from toptank.shop.answers.what_if_json import what_if_answer
from toptank.shop.job import core_file, fit_file, job_file, price_book
from toptank.shop.log.log_mapping import DECIMALS, MOST_COLUMNS
from toptank.studies.choose.fit.measures import bay_fields, offer_fields
from toptank.studies.diagnose.evidence import EFFECTS, NEEDLE, ONSETS, PARTS, PLACES, TOLD, WORDS
from toptank.units.conversion import System
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, YES_NO
from toptank.units.display import show


def schemas() -> dict[str, Schema]:
    """Return every schema by the name of its file, less the ending."""
    return {
        "job": job_schema(),
        "core": core_schema(),
        "prices": price_book_schema(),
        "answer-forecast": _forecast_and_demo(),
        "answer-diagnose": headed("Answer of `toptank diagnose --json`", diagnosis()),
        "answer-checks": headed("Answer of `toptank checks --json`", list_of_checks()),
        "answer-causes": headed("Answer of `toptank causes --json`", list_of_causes()),
        "answer-evaluate": headed("Answer of `toptank evaluate --json`", evaluation()),
        "answer-choose": _by_system("choose", choose_answer),
        "answer-prices": headed("Answer of `toptank prices --json`", prices_answer()),
        "answer-fit": _by_system("fit", fit_answer),
        "answer-mix": _by_system("mix", mix_answer),
        "answer-what-if": _by_system("what-if", what_if_answer),
        "answer-drive": _by_system("drive", drive_answer),
        "answer-cap": _by_system("cap", cap_answer),
        "answer-water": headed("Answer of `toptank water --json`", water_answer()),
        "answer-bleed": headed("Answer of `toptank bleed --json`", bleed_answer()),
        "answer-log": _by_system("log", log_answer),
        "answer-verify": _by_system("verify", verify_answer),
        "answer-core": _by_system("core", core_answer),
        "answer-boil": _by_system("boil", boil_answer),
        "answer-freeze": _by_system("freeze", freeze_answer),
        "answer-vehicles": headed("Answer of `toptank vehicles --json`", vehicles_answer()),
        "answer-explain": headed("Answer of `toptank explain --json`", explain_answer()),
        "answer-sheet-new": headed("Answer of `toptank sheet new --json`", sheet_answer()),
        "answer-attachments": attachments_answer(),
        **record_answers(),
    }


def limits_in_words(declaration: Declaration, limits: tuple[float, float], system: System) -> str:
    """Write two limits of a field in the units of the shop."""
    low, high = (show(limit, declaration.dimension, system) for limit in limits)
    return f"{low} to {high}"


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
    vague = {"type": "boolean", "description": "true: told of in a few words only, so every spread is wider"}
    vehicle = table({"like": words(typical_names()), "vague": vague}, required=["like"])
    duty = table({"name": TEXT, **_fields(duty_fields())}, required=["name"])
    properties: Schema = {
        **_file_head(job_file.FORMAT),
        "job": job,
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
        "id": words(symptoms(), "a symptom; `toptank symptoms` lists them"),
        "told": words(TOLD, "said, if left out"),
        "note": told("anything else"),
    }
    return table(keys, required=["id"])


def _check() -> Schema:
    """A check with outcomes takes one of them, another one a figure."""
    known: list[Schema] = []
    for check in checks().values():
        outcome = words(check.outcomes) if check.outcomes else quantity(f"the {_kind(check)} that was read")
        known.append({"properties": {"name": {"const": check.name}, "outcome": outcome}})
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
    return table({"part": words(PARTS, "part changed, or work done"), "effect": effect}, required=["part", "effect"])


def _history() -> Schema:
    parts = many(words(PARTS))
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
    causes = words(CAUSE_NAMES)
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
    keys = {"format": {"const": price_book.FORMAT}, **price_book_file()}
    return headed("Price book of toptank", table(keys, required=["format", "labour"]))


def _by_system(command: str, answer: Any) -> Schema:
    """Both forms of an answer: its keys carry the units of the shop."""
    forms = [table_of_all({"units": {"const": system}, **answer(system)}) for system in SYSTEMS]
    return headed(f"Answer of `toptank {command} --json`", {"oneOf": forms})


def _forecast_and_demo() -> Schema:
    """A forecast; that of the demo has a diagnosis behind it."""
    both = _by_system("forecast and demo", forecast_answer)
    for form in both["oneOf"]:
        form["properties"]["diagnosis"] = {"$ref": "#/$defs/diagnosis", "description": "of the demo only"}
    return {**both, "$defs": {"diagnosis": diagnosis()}}


def _file_head(written: str) -> Schema:
    units = {"enum": list(SYSTEMS), "default": "us", "description": "unit system of a bare number"}
    return {"format": {"const": written}, "units": units}


def _fields(keys: Any) -> Schema:
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
