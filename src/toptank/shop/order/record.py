"""What goes on the paper, as plain records: finished words in the units that were asked for, nothing left to work out.

PDF and HTML are made from the same record, so that they cannot say different things. Every text is plain: what people
typed is escaped where it is set, never here.
"""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class HeadLine:
    """An entry of the head: what it is, and what was said; empty is a line to write on."""

    label: str
    said: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CauseLine:
    """One cause that is possible: its chance, what repairs it by itself, what points to it and away from it."""

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

    `told` is what it may come to: nothing that is done, so that it has no box. `notes` are for whoever wants to know
    more: they stand under the step in the app and in the appendix, not on the bench's page.
    """

    words: str
    time: str = ""
    told: tuple[str, ...] = ()
    boxes: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class ReadingLine:
    """A condition of the road test: what it is, the gauge to expect after the work, and as it is without."""

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
    """The work order: a page for the bench, a page for the customer, and what is behind them for whoever asks.

    Parameters
    ----------
    plan : ids of the remedies that it is for
    title, complaint : as told; `complaint` is empty where nothing was said
    invented : what both pages say where the vehicle is an example, otherwise empty
    shop : lines of the head of the paper; none where the shop has not named itself
    head : customer, phone, registration ...: what is empty is written by hand
    customer_head : those of it that stand on the customer's page
    found : the cause that a mechanic confirmed in the job, otherwise empty
    cause, why : the likeliest cause with its chance; what points to it and what comes next, in a line
    correction : the plan, and how well it holds
    parts, totals : what is bought; what parts, work, tax and all of it cost
    coolant : what comes out and what goes in
    steps, time_note : in order; what the star beside a time means
    readings, stop : what the gauge shall show on the road test, and when to stop
    cautions : what can hurt in this job
    causes, appendix : printed only where it is asked for: headings with their lines
    customer : the second page
    """

    plan: tuple[str, ...]
    title: str
    complaint: str
    invented: str
    shop: tuple[str, ...]
    head: tuple[HeadLine, ...]
    customer_head: tuple[HeadLine, ...]
    found: str
    cause: str
    why: str
    correction: tuple[str, ...]
    parts: tuple[PartLine, ...]
    totals: tuple[PartLine, ...]
    coolant: tuple[str, ...]
    steps: tuple[Step, ...]
    time_note: str
    readings: tuple[ReadingLine, ...]
    stop: tuple[str, ...]
    cautions: tuple[str, ...]
    causes: tuple[CauseLine, ...]
    appendix: tuple[tuple[str, tuple[str, ...]], ...]
    customer: Customer
