"""What lies beside a job's document: notes, and answers with all that they were made from."""

import dataclasses

from sqlalchemy import insert

from toptank.shop.record.store.jobs_and_revisions import newest_number
from toptank.shop.record.store.kinds import About
from toptank.shop.record.store.opening import Store, writing
from toptank.shop.record.store.record import KeptAnswer, Note
from toptank.shop.record.store.tables import ANSWER, NOTE
from toptank.shop.record.store.words import LONGEST_NOTE, check_words
from toptank.units.refusal import Refusal

NOTHING = About()
"""A note in somebody's own words."""


def add_note(store: Store, job: int, text: str, *, author: str, at: str, about: About = NOTHING) -> Note:
    """Put a note beside a job; `about` says what the program notes."""
    check_words(text, "note", LONGEST_NOTE)
    if not text.strip():
        raise Refusal(field="note", value='""', limit="must not be empty", fix="write it in quotes behind the number")
    added = Note(at=at, author=author, text=text, kind=about.kind, subject=about.subject)
    with writing(store) as connection:
        newest_number(connection, job)
        connection.execute(insert(NOTE).values(job=job, **dataclasses.asdict(added)))
    return added


def keep_answer(
    store: Store,
    job: int,
    revision: int,
    *,
    kind: str,
    seed: int,
    draws: int,
    equations_version: str,
    at: str,
    answer: str,
) -> KeptAnswer:
    """Keep an answer of one revision with its inputs: a forecast, a diagnosis, a verdict, or what a log says."""
    made_from = {"kind": kind, "revision": revision, "seed": seed, "draws": draws}
    said = {"equations_version": equations_version, "at": at, "answer": answer}
    with writing(store) as connection:
        newest_number(connection, job)
        row = insert(ANSWER).values(job=job, **made_from, **said).returning(ANSWER.c.number)
        number: int = connection.execute(row).scalar_one()
    return KeptAnswer(
        number=number,
        kind=kind,
        revision=revision,
        seed=seed,
        draws=draws,
        equations_version=equations_version,
        at=at,
        answer=answer,
    )
