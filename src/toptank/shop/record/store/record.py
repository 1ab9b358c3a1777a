"""What the record of jobs holds, as it is handed out: plain frozen things."""

from dataclasses import dataclass
from datetime import date
from typing import Literal

from toptank.shop.job.write_up import promised_day
from toptank.shop.record.store.kinds import About, Kind
from toptank.units.refusal import Refusal

State = Literal["open", "closed"]
Stands = Literal["in_work", "waiting_for_parts", "waiting_for_customer", "closed"]
Wanted = Literal["open", "in_work", "waiting_for_parts", "waiting_for_customer", "closed"]
"""Which jobs a list is to show; an open one is in work, or waits for something."""


class StoreTrouble(Refusal):
    """The store itself is in the way (locked, full, damaged), not what was typed: the input is to be kept."""


class CannotWrite(StoreTrouble):
    """The disk is full, or the folder is for reading only: what is there can still be read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Revision:
    """A job's whole document as it stood at one time. Revisions are added, never changed and never taken out.

    Parameters
    ----------
    job : number of the job
    number : 1 for the first of this job, each later one is one more
    parent : the revision that it was made from; None for the first
    at : when it was saved: UTC, ISO 8601
    author : who saved it; "" where nobody said
    note : why; "" where nobody said
    title : from the document, for lists and search
    complaint : from the document
    state : closed once the document says what it was
    checksum : SHA-256 of the text in UTF-8
    text : the job file as it was written, comments too
    sitting : names the open page on which a field was typed, so that what was typed in one go is known; "" for the rest
    change : what rows need to know of what was changed (`kinds`); "" for the rest
    """

    job: int
    number: int
    parent: int | None
    at: str
    author: str
    note: str
    title: str
    complaint: str
    state: State
    checksum: str
    text: str
    sitting: str = ""
    change: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRow:
    """A line of the list of jobs: the newest revision, without its text, with who came with what.

    Parameters
    ----------
    vehicle : name of the typical vehicle that it is like; empty where it is like none
    promised, waiting_for : as in `WriteUp`
    found : ids of the causes that it was closed with
    """

    number: int
    title: str
    complaint: str
    state: State
    revision: int
    opened: str
    saved: str
    notes: int
    customer: str = ""
    registration: str = ""
    vehicle: str = ""
    promised: str = ""
    waiting_for: str = ""
    found: tuple[str, ...] = ()

    @property
    def stands(self) -> Stands:
        """How it stands: in work, waiting, or closed."""
        if self.state == "closed":
            return "closed"
        if self.waiting_for == "parts":
            return "waiting_for_parts"
        return "waiting_for_customer" if self.waiting_for == "customer" else "in_work"

    def is_late(self, today: date) -> bool:
        """Whether it was promised for an earlier day and is not closed."""
        day = promised_day(self.promised)
        return self.state == "open" and day is not None and day < today


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """A remark beside a job; what the program itself noted says what it is and what it is about (`kinds`)."""

    at: str
    author: str
    text: str
    kind: Kind = ""
    subject: str = ""

    @property
    def about(self) -> About:
        """What it is about."""
        return About(self.kind, self.subject)


@dataclass(frozen=True, slots=True, kw_only=True)
class Attachment:
    """A photo or a log. It is stored under its checksum; the name that it came with is only shown."""

    checksum: str
    name: str
    size: int
    at: str


@dataclass(frozen=True, slots=True, kw_only=True)
class KeptAnswer:
    """An answer with all that it was made from, so that it can be explained after years.

    Parameters
    ----------
    number : of the answer, in the store
    kind : "forecast", "diagnosis", "choice", "verdict" or "log"
    revision : of the job, that was asked about
    seed : of the draws
    draws : number of them
    equations_version : names the equations that gave the figures
    at : when: UTC, ISO 8601
    answer : as JSON
    """

    number: int
    kind: str
    revision: int
    seed: int
    draws: int
    equations_version: str
    at: str
    answer: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JobRecord:
    """All that is kept of a job, as one revision and what lies beside it."""

    shown: Revision
    newest: int
    notes: tuple[Note, ...]
    attachments: tuple[Attachment, ...]
    answers: tuple[KeptAnswer, ...]
