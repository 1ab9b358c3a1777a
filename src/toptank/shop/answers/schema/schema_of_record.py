"""JSON schemas of what the record of jobs answers."""

from toptank.shop.answers.schema.schema_shapes import COUNT, TEXT, Schema, headed, many, table_of_all, told, words

NUMBER: Schema = {"type": "integer", "minimum": 1}
TEXT_OR_NULL: Schema = {"type": ["string", "null"]}
TIME: Schema = told("UTC, ISO 8601")
CHECKSUM: Schema = {**TEXT, "pattern": "^[0-9a-f]{64}$", "description": "SHA-256"}
STATE: Schema = words(("open", "closed"))

_REVISION: Schema = {
    "number": {**NUMBER, "description": "of the job"},
    "revision": NUMBER,
    "parent": {"type": ["integer", "null"], "description": "the revision that it was made from; null for the first"},
    "at": TIME,
    "author": TEXT,
    "note": told("why"),
    "title": TEXT,
    "complaint": TEXT,
    "state": STATE,
    "checksum": CHECKSUM,
    "sitting": told("names the open page on which a field was typed; empty for the rest"),
}
_NOTE: Schema = {"at": TIME, "author": TEXT, "text": TEXT}
_ATTACHMENT: Schema = {"checksum": CHECKSUM, "name": TEXT, "size": {**COUNT, "description": "bytes"}, "at": TIME}
_ANSWER: Schema = {
    "number": {**NUMBER, "description": "of the answer"},
    "kind": words(("forecast", "diagnosis", "choice", "verdict", "log")),
    "revision": {**NUMBER, "description": "that was asked about"},
    "seed": COUNT,
    "draws": COUNT,
    "equations_version": TEXT,
    "at": TIME,
    "answer": {"type": "object", "description": "as the command of that name with `--json` gave it"},
}


def attachments_answer() -> Schema:
    """Return the schema of the list of a job's photos and logs, as REST answers it."""
    number = {**NUMBER, "description": "of the job"}
    return headed(
        "The photos and logs of a job", table_of_all({"number": number, "attachments": many(table_of_all(_ATTACHMENT))})
    )


def record_answers() -> dict[str, Schema]:
    """Return every schema by the name of its file, less the ending."""
    row = {
        "number": NUMBER,
        "title": TEXT,
        "complaint": TEXT,
        "state": STATE,
        "revision": {**NUMBER, "description": "the newest"},
        "opened": TIME,
        "saved": TIME,
        "notes": COUNT,
    }
    shown = {
        **_REVISION,
        "text": told("the job file as it was written"),
        "newest": {**NUMBER, "description": "revision"},
        "notes": many(table_of_all(_NOTE)),
        "attachments": many(table_of_all(_ATTACHMENT)),
        "answers": many(table_of_all(_ANSWER)),
    }
    before = {**TEXT_OR_NULL, "description": "where a backup of what was there before lies; null if nothing was"}
    number = {"number": {**NUMBER, "description": "of the job"}}
    answers: dict[str, tuple[str, Schema]] = {
        "revision": ("new, save, revert, close, reopen, import", _REVISION),
        "list": ("list", {"jobs": many(table_of_all(row))}),
        "show": ("show", shown),
        "note": ("note", {**number, **_NOTE}),
        "history": ("history", {**number, "revisions": many(table_of_all(_REVISION), least=1)}),
        "export": ("export", {**number, "file": TEXT, "text": TEXT, "attachments_left": COUNT}),
        "attach": ("attach", {**number, **_ATTACHMENT}),
        "fetch": ("fetch", {**number, "file": TEXT, **_ATTACHMENT}),
        "answer": ("forecast, diagnose", {"job": NUMBER, **_ANSWER}),
        "backup": ("backup", {"file": TEXT, "jobs": COUNT}),
        "restore": ("restore", {"file": TEXT, "jobs": COUNT, "before": before}),
    }
    return {
        f"answer-job-{name}": headed(f"Answer of `toptank job --json`: {verbs}", table_of_all(keys))
        for name, (verbs, keys) in answers.items()
    }
