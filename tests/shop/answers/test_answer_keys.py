"""The shape of every answer: numbers with their unit in the key, nothing that changes, a schema for each."""

import re
from collections.abc import Iterator

from toptank.shop.answers import answer as answers
from toptank.shop.answers.schemas import ANSWERS, schemas

UNITS = (
    "degC", "K", "kPa", "Pa", "kW", "L", "L_per_min", "km", "m", "mm", "kg", "A", "km_per_h", "m_per_s", "rpm", "pct",
    "minutes", "seconds", "bit", "nat", "bytes", "W_per_K", "K_per_kPa",
)  # fmt: skip
COUNTED = {
    "draws", "seed", "closed_jobs", "effective_draws", "independent_readings", "odds_factor", "tube_reynolds", "rows",
    "causes", "repairs", "cases", "readings", "rank", "rank_from_complaint", "own_facts", "rounds_needed", "passes",
    "fans", "job", "number", "number_there", "revision", "parent", "newest", "notes", "jobs", "attachments_left",
    "measured", "plate", "assumed", "line", "known", "hold", "doubtful", "do_not_hold", "hold_at_some_hour",
    "expected_to_hold",
}  # fmt: skip
"""Counts, numbers of things, and what has no unit."""

MONEY = {"cost", "work_cost", "saves", "labour_an_hour", "lost_day", "gone_without", "parts"}
"""In the currency that stands beside them."""

UNDER_A_KEY_WITH_A_UNIT = {"Band", "OpenBand", "Statuses", "Severity", "Three"}
WITH_A_UNIT_BESIDE = {"WaterLimit"}


def _models(model: type[answers.Answer]) -> Iterator[type[answers.Answer]]:
    yield model
    for one in model.__subclasses__():
        yield from _models(one)


def test_every_number_of_every_answer_has_its_unit_in_its_key() -> None:
    schemas()  # every module of answers is there
    bare: list[str] = []
    for model in _models(answers.Answer):
        if model.__name__ in UNDER_A_KEY_WITH_A_UNIT | WITH_A_UNIT_BESIDE:
            continue
        for key, field in model.model_fields.items():
            shape = str(field.annotation)
            numbers = re.search(r"\b(int|float)\b|\b(Open)?Band\b|Severity\b|Three\b|Statuses\b", shape)
            if numbers and key not in COUNTED | MONEY and not key.endswith(tuple(f"_{one}" for one in UNITS)):
                bare += [f"{model.__name__}.{key}"] if key not in UNITS else []
    assert bare == []


def test_every_answer_is_frozen_and_every_model_has_a_schema_file() -> None:
    assert all(model.model_config.get("frozen") for model in _models(answers.Answer))
    assert {f"answer-{name}" for name in ANSWERS} <= set(schemas())
