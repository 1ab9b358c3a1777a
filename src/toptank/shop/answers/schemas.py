"""JSON schemas of the files that people write and of every answer, by the name of their file."""

from functools import cache

from toptank.shop.answers import (
    bench,
    checks_and_causes,
    choice,
    diagnosis,
    drive,
    evaluation,
    fit,
    fleet,
    forecast,
    log,
    record,
    verdict,
    what_if,
)
from toptank.shop.answers.answer import Answer
from toptank.shop.answers.file_schemas import Schema, core_schema, headed, job_schema, price_book_schema
from toptank.shop.answers.fluids import coolant, mix
from toptank.shop.answers.similar import SimilarAnswer

ANSWERS: dict[str, type[Answer]] = {
    "forecast": forecast.ForecastAnswer,
    "demo": forecast.DemoAnswer,
    "diagnose": diagnosis.DiagnosisAnswer,
    "checks": checks_and_causes.ChecksAnswer,
    "causes": checks_and_causes.CausesAnswer,
    "evaluate": evaluation.EvaluationAnswer,
    "choose": choice.ChoiceAnswer,
    "prices": choice.PricesAnswer,
    "fit": fit.FitAnswer,
    "fleet": fleet.FleetAnswer,
    "mix": mix.MixAnswer,
    "what-if": what_if.WhatIfAnswer,
    "drive": drive.DriveAnswer,
    "cap": coolant.CapAnswer,
    "water": coolant.WaterAnswer,
    "bleed": coolant.BleedAnswer,
    "log": log.LogAnswer,
    "verify": verdict.VerdictAnswer,
    "core": bench.CoreAnswer,
    "boil": bench.BoilAnswer,
    "freeze": bench.FreezeAnswer,
    "vehicles": bench.VehiclesAnswer,
    "explain": bench.ExplainAnswer,
    "sheet-new": bench.SheetAnswer,
    "job-revision": record.RevisionAnswer,
    "job-list": record.JobListAnswer,
    "job-similar": SimilarAnswer,
    "job-show": record.JobAnswer,
    "job-note": record.JobNoteAnswer,
    "job-history": record.HistoryAnswer,
    "job-export": record.ExportAnswer,
    "job-import": record.ImportAnswer,
    "job-attach": record.JobAttachmentAnswer,
    "job-fetch": record.FetchAnswer,
    "job-answer": record.JobAnswerAnswer,
    "job-backup": record.BackupAnswer,
    "job-restore": record.RestoreAnswer,
    "attachments": record.AttachmentsAnswer,
}
"""The answers that commands and REST give, by the name of their schema."""

_ALSO = {
    "job-revision": "new, write-up, save, revert, close, reopen, import",
    "job-answer": "forecast, diagnose, choose",
}


@cache
def schemas() -> dict[str, Schema]:
    """Return every schema by the name of its file, less the ending."""
    files = {"job": job_schema(), "core": core_schema(), "prices": price_book_schema()}
    return files | {f"answer-{name}": answer_schema(name) for name in ANSWERS}


def answer_schema(name: str) -> Schema:
    """Return the schema of one answer."""
    schema = ANSWERS[name].model_json_schema(mode="serialization")
    return headed(_title(name), {key: value for key, value in schema.items() if key != "title"})


def _title(name: str) -> str:
    if name in _ALSO:
        return f"Answer of `toptank job --json`: {_ALSO[name]}"
    if name == "attachments":
        return "The photos and logs of a job"
    command = name.replace("job-", "job ").replace("sheet-", "sheet ")
    return f"Answer of `toptank {command} --json`"
