"""JSON schemas of remedies on the worst day, of the price book, of a mix and of a fit."""

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.shop.answers.as_json import keyed
from toptank.shop.answers.schema.schema_of_coolant import family_change, strength_read
from toptank.shop.answers.schema.schema_shapes import (
    COUNT,
    PERCENT,
    TEXT,
    TEXTS,
    Schema,
    figure,
    many,
    table,
    table_of_all,
    words,
)
from toptank.shop.ask.choose import FEWEST, MOST
from toptank.shop.ask.coolant.mix import GLYCOLS
from toptank.shop.job.price_book import GONE_WITHOUT, HIGHEST, LOST_DAY, known_parts
from toptank.studies.choose.fit.item import Verdict
from toptank.units.conversion import System, unit_of
from toptank.units.dimension import CURRENT, FRACTION, LENGTH, MASS, PRESSURE, TEMPERATURE, VOLUME, Dimension
from toptank.units.display import key_suffix

MONEY: Schema = {"type": "number", "minimum": 0, "description": "in the shop's money"}
MINUTES: Schema = {"type": "number", "minimum": 0, "description": "working time in minutes"}
YES_NO: Schema = {"type": "boolean"}
TEXT_OR_NULL: Schema = {"type": ["string", "null"]}


def choose_answer(system: System) -> Schema:
    """Return the schema of remedies on the worst day."""
    remedy = {"name": words(remedy.name for remedy in REMEDIES), "note": TEXT, "limits": TEXT, "parts": TEXTS}
    duty: Schema = {
        "duty": TEXT,
        keyed("top_tank", TEMPERATURE, system): _band(),
        keyed("gauge", TEMPERATURE, system): _band(),
        "under_limit_pct": PERCENT,
        "under_boiling_pct": PERCENT,
    }
    ambient = {"anyOf": [_band(), {"type": "null"}], "description": "null where it was not solved for"}
    plan: Schema = {
        "plan": TEXT,
        "remedies": {**many(table_of_all(remedy)), "description": "what they force included; none is doing nothing"},
        "asks_the_customer": {**TEXT_OR_NULL, "description": "what the customer goes without; null if nothing"},
        "goes_in": {
            "anyOf": [table_of_all({"fit": words(Verdict), "with_mends": YES_NO, "says": TEXT}), {"type": "null"}],
            "description": "whether it goes into the bay, with mends where it must, as far as that was measured: read "
            "`with_mends` with `fit`; null where core, tanks and fan stay as they are",
        },
        "cost": MONEY,
        "minutes": MINUTES,
        "holds_pct": {**PERCENT, "description": "share of the draws under limit and boiling at every duty"},
        "hardest_duty": TEXT,
        keyed("limiting_ambient", TEMPERATURE, system): ambient,
        "duties": many(table_of_all(duty), least=1),
    }
    branch = {"seen": {**TEXTS, "minItems": 1}, "chance_pct": PERCENT, "plan": TEXT_OR_NULL}
    check: Schema = {
        "check": TEXT,
        "how": TEXT,
        "hazard": TEXT,
        "minutes": MINUTES,
        "saves": {**MONEY, "description": "on average, its own time paid"},
        "branches": many(table_of_all(branch), least=2),
    }
    left = {"repair": TEXT, "needed_pct": PERCENT, "cost": MONEY}
    return {
        "title": TEXT,
        "invented": YES_NO,
        "draws": {**COUNT, "minimum": FEWEST, "maximum": MOST},
        "seed": COUNT,
        "currency": TEXT,
        **figure("limit", TEMPERATURE, system),
        "worst_day": many(table_of_all({"name": TEXT, **figure("ambient", TEMPERATURE, system)}), least=1),
        "plans": {**many(table_of_all(plan), least=1), "description": "doing nothing first, then by rising cost"},
        "recommended": {**TEXT_OR_NULL, "description": "name of a plan; null where none on the list holds"},
        "does_not_go_in": {
            **TEXT_OR_NULL,
            "description": "plan that would be recommended if only it went in; null where nothing bars the best one",
        },
        "check_first": {"anyOf": [table_of_all(check), {"type": "null"}], "description": "null where none decides"},
        "holds_if_nothing_is_asked_pct": {
            "anyOf": [PERCENT, {"type": "null"}],
            "description": "the recommended work where the customer goes without nothing; null where it asks nothing",
        },
        "leaves_in": {**many(table_of_all(left)), "description": "likely faults that the recommended plan leaves"},
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def _band() -> Schema:
    return table_of_all({point: {"type": "number"} for point in ("p10", "p50", "p90")})


def prices_answer() -> Schema:
    """Return the schema of a price book as it is shown; the built-in prices stand in for what it leaves out."""
    parts = table_of_all(dict.fromkeys(known_parts(), MONEY))
    return table_of_all(
        {"currency": TEXT, "labour_an_hour": MONEY, "lost_day": MONEY, "gone_without": MONEY, "parts": parts}
    )


def price_book_file() -> Schema:
    """Return what may stand in a price book beside its format."""
    price = {**MONEY, "maximum": HIGHEST}
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


def mix_answer(system: System) -> Schema:
    """Return the schema of what to drain and what to add."""
    three = table_of_all({key: {"type": "number"} for key in ("least", "usual", "most")})
    recipe = _recipe(system)
    corrected: Schema = {
        **recipe,
        **figure("drain_least", VOLUME, system),
        **figure("drain_most", VOLUME, system),
        keyed("glycol_in_concentrate", FRACTION, system): three,
        keyed("pure_recipe_gives", FRACTION, system): three,
    }
    drained = {
        **_figures(("drain", "concentrate", "water"), VOLUME, system),
        **figure("reached", FRACTION, system),
        "reaches": YES_NO,
    }
    premix = {
        **_or_null(figure("exchange", VOLUME, system)),
        **figure("reached", FRACTION, system),
        "reaches": YES_NO,
    }
    return {
        "glycol": words(GLYCOLS),
        **figure("capacity", VOLUME, system),
        **_figures(("now", "want", "drainable"), FRACTION, system),
        "counted_as_pure": table_of_all(recipe),
        "corrected": {**table_of_all(corrected), "description": "percentages of glycol itself"},
        "drain_all": table_of_all(drained),
        "premix": table_of_all(premix),
        "before": _reading(system),
        "after": _reading(system),
        **figure("cap", PRESSURE, system),
        "read": strength_read(system),
        "family": family_change(),
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def _recipe(system: System) -> Schema:
    one = {**_figures(("drain", "concentrate", "water"), VOLUME, system), **figure("share", FRACTION, system)}
    return {
        "rounds": many(table_of_all(one)),
        **figure("drain", VOLUME, system),
        **figure("reached", FRACTION, system),
        "reaches": YES_NO,
        "rounds_needed": {"type": ["integer", "null"], "description": "null where no number of rounds does"},
    }


def _reading(system: System) -> Schema:
    points = table_of_all(_or_null(_figures(("freeze", "boil_open", "boil_capped"), TEMPERATURE, system)))
    ways = ("counted_as_pure", "corrected", "corrected_least_glycol", "corrected_most_glycol")
    return table_of_all({**figure("share", FRACTION, system), **dict.fromkeys(ways, points)})


def _figures(names: tuple[str, ...], dimension: Dimension, system: System) -> Schema:
    return {key: one for name in names for key, one in figure(name, dimension, system).items()}


def _or_null(figures: Schema) -> Schema:
    return {key: {**one, "type": ["number", "null"]} for key, one in figures.items()}


def fit_answer(system: System) -> Schema:
    """Return the schema of a fit: items with figures of length, weight or current, and items that match or do not."""
    verdict = words(verdict.value for verdict in Verdict)
    told: Schema = {
        "item": TEXT,
        "verdict": verdict,
        "says": TEXT,
        "mend": TEXT_OR_NULL,
        "note": TEXT_OR_NULL,
        "measure": {**TEXTS, "description": "sections and keys of the job file"},
        "source": TEXT,
    }
    figured = [table_of_all({**told, **_gaps(dimension, system)}) for dimension in (LENGTH, MASS, CURRENT)]
    fit: Schema = {
        "name": TEXT,
        "parts": TEXT,
        "price": TEXT,
        "note": TEXT,
        "verdict": verdict,
        "items": many({"anyOf": [table_of_all(told), *figured]}, least=1),
        "measure_next": TEXTS,
    }
    return {
        "title": TEXT,
        "invented": YES_NO,
        "fits": many(table_of_all(fit), least=1),
        "remarks": TEXTS,
        "assumed_units": TEXTS,
    }


def _gaps(dimension: Dimension, system: System) -> Schema:
    figures = {"type": ["number", "null"], "description": f"in {unit_of(dimension, system)}"}
    return {f"{key}_{key_suffix(dimension, system)}": figures for key in ("gap", "least", "margin", "spread")}
