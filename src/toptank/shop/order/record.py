"""What goes on the paper, as plain records: finished words in the units that were asked for, nothing to reckon with.

PDF and HTML are made from the same record, so that they cannot say different things. Every text is plain: what people
typed is escaped where it is set, never here.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseLine:
    """One cause that is possible: its chance, what mends it by itself, what speaks for it and against it."""

    cause: str
    chance: str
    repair: str
    speaks: str


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLine:
    """One part: its size and its price."""

    part: str
    size: str
    price: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """One step: words, time, and beneath it what is told of it, boxes of its own, and notes.

    `told` is what it may come to or what is to be known: nothing that is done, so that it has no box.
    """

    words: str
    time: str = ""
    told: tuple[str, ...] = ()
    boxes: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingLine:
    """A duty of the check drive: what it is, the gauge to expect after the work, and what was or would be without."""

    duty: str
    day: str
    after: str
    before: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Customer:
    """The page of the customer: sections in order, each a heading with paragraphs, and one picture (SVG)."""

    sections: tuple[tuple[str, tuple[str, ...]], ...]
    picture: str
    picture_says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Order:
    """The work order.

    Parameters
    ----------
    title, complaint : as told; `complaint` is empty where nothing was said
    invented : what both pages say where the vehicle is an example, otherwise empty
    found : the cause that a mechanic confirmed in the job, otherwise empty
    causes, cause_note : what it may be and how sure that is
    correction : the plan, and how well it holds
    parts, totals : what is bought; what parts, work and both cost
    coolant : quantities
    steps, time_note : in order; what the star beside a time means
    readings, stop : what the gauge shall show on the check drive, and when to stop
    cautions : what can hurt
    assumptions : what was not measured and matters
    remarks : what is to be looked at again
    customer : the second page
    """

    title: str
    complaint: str
    invented: str
    found: str
    causes: tuple[CauseLine, ...]
    cause_note: str
    correction: tuple[str, ...]
    parts: tuple[PartLine, ...]
    totals: tuple[PartLine, ...]
    coolant: tuple[str, ...]
    steps: tuple[Step, ...]
    time_note: str
    readings: tuple[ReadingLine, ...]
    stop: tuple[str, ...]
    cautions: tuple[str, ...]
    assumptions: tuple[str, ...]
    remarks: tuple[str, ...]
    customer: Customer
