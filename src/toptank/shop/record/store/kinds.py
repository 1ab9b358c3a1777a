"""What the program's own notes and changes are about, kept beside their words, so that words may be reworded.

A note or a revision of former times said it in its words alone. Those wordings are read here, once: by the step that
brought older stores along, and by whoever reads a file that was carried away before.
"""

import json
import re
from typing import Literal, NamedTuple, cast

from toptank.catalogue.words.aliases import plan_of, written_plan

Kind = Literal["", "plan_taken", "step_done", "step_open", "steps_open", "gauge_after"]
"""What a note is: somebody's own words; a plan that was taken; a step of the order that is done, or open again; all
of them open again; what the gauge showed after the work."""


class About(NamedTuple):
    """What a note is, and what it is about: ids of a plan, the words of a step, a duty and its reading as JSON."""

    kind: Kind = ""
    subject: str = ""


def gauge_after(duty: str, gauge: str) -> About:
    """Return what a note is about that tells a reading of the check drive."""
    return About("gauge_after", json.dumps({"duty": duty, "gauge": gauge}, ensure_ascii=False))


def reading_of(about: About) -> tuple[str, str]:
    """Return duty and reading of such a note."""
    read = cast("dict[str, str]", json.loads(about.subject))
    return read["duty"], read["gauge"]


def taken_out(key: str, place: int) -> str:
    """Return what changed where a row was taken out of a list; it tells which one of two alike it was."""
    return json.dumps({"taken_out": [key, place]})


def back_to(revision: int) -> str:
    """Return what changed where changes were taken back."""
    return json.dumps({"back_to": revision})


def row_taken_out(change: str) -> tuple[str, int] | None:
    """Return list and place of the row that was taken out, if that is what changed."""
    found = json.loads(change).get("taken_out") if change else None
    return None if found is None else (str(found[0]), int(found[1]))


def revision_gone_back_to(change: str) -> int | None:
    """Return the revision that was gone back to, if that is what changed."""
    found = json.loads(change).get("back_to") if change else None
    return None if found is None else int(found)


_GAUGE = re.compile(r"after the work: (?P<duty>.+): gauge (?P<gauge>[^:]+)", re.DOTALL)
_TAKEN_OUT = re.compile(r"(\w+) (\d+) taken out")
_UNDONE = re.compile(r"undone: back to revision (\d+)")


def former_note(text: str) -> About:
    """Return what a note is about that says so in its words alone."""
    if text == "steps: all unticked":
        return About("steps_open")
    beginnings: tuple[tuple[str, Kind], ...] = (("done: ", "step_done"), ("not done after all: ", "step_open"))
    for beginning, kind in beginnings:
        if text.startswith(beginning):
            return About(kind, text.removeprefix(beginning))
    if text.startswith("plan taken: "):
        plan = plan_of(text.removeprefix("plan taken: "))
        return About() if plan is None else About("plan_taken", written_plan(plan))
    read = _GAUGE.fullmatch(text)
    return gauge_after(read["duty"], read["gauge"]) if read else About()


def former_change(note: str) -> str:
    """Return what a revision changed that says so in its note alone; empty for whatever needs not be known."""
    if row := _TAKEN_OUT.fullmatch(note):
        return taken_out(row[1], int(row[2]) - 1)
    undone = _UNDONE.fullmatch(note)
    return back_to(int(undone[1])) if undone else ""
