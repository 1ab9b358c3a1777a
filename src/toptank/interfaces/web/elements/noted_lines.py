"""A drive noted line by line: a few boxes a line, kept as a log of the job."""

from __future__ import annotations

import asyncio
from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web.elements.tags import drop_draft, heard, press, say, tag
from toptank.shop.door import NotedRow, as_typed, kept_logs
from toptank.units.conversion import unit_of
from toptank.units.dimension import GRADE, SPEED, TEMPERATURE
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Callable

    from toptank.interfaces.web.elements.tags import Tag
    from toptank.interfaces.web.frame import JobPage

LINES, MORE, MOST = 5, 3, 24
EXAMPLES = (
    ("14:00", 195, "50", "flat"), ("14:06", 200, "35", "5"), ("14:15", 212, "35", "5"),
    ("14:16", None, "0", "flat"), ("14:21", 215, "0", "flat"),
)  # fmt: skip
"""What a line looks like, the gauge in °F: shown grey until something is typed."""


@dataclass(slots=True)
class _Lines:
    """What is typed, line by line and box by box."""

    page: JobPage
    purpose: str
    rows: list[dict[str, str]] = field(default_factory=list[dict[str, str]])


def noted_lines(page: JobPage, purpose: str, *, opened: bool) -> None:
    """Put the lines here. `purpose` names the log that comes of them: "check drive", "before the work"."""
    lines = _Lines(page, purpose)
    degree, speed = unit_of(TEMPERATURE, page.job.system), unit_of(SPEED, page.job.system)
    with tag("details", open=opened or None):
        tag("summary", "No logger? Note it line by line")
        with tag("div", classes="stack"):
            tag(
                "p",
                "A line wherever something changes: at the start, at the foot of the hill, at its top, after some "
                "minutes of standing. What is left empty holds on from the line above; the gauge counts only where it "
                "was read.",
                "small quiet",
            )
            heads = ("time or minute", f"gauge, {degree}", f"speed, {speed}", f"grade, {unit_of(GRADE, 'us')}", "A/C")
            with tag("div", classes="lines") as sheet:
                with tag("div", classes="line head", aria_hidden="true"):
                    for head in heads:
                        tag("span", head)
                for _ in range(LINES):
                    _line(lines, heads)
            wrong = tag("div", "", "says", role="alert")
            with tag("div", classes="line-up"):
                press("Keep these lines", lambda: _keep(lines, wrong))
                press(f"{MORE} more lines", lambda: _more(lines, sheet, heads), "plain")


def _more(lines: _Lines, sheet: Tag, heads: tuple[str, ...]) -> None:
    if len(lines.rows) >= MOST:
        say(f"More than {MOST} lines are a job for a logger.")
        return
    with sheet:
        for _ in range(MORE):
            _line(lines, heads)


def _line(lines: _Lines, heads: tuple[str, ...]) -> None:
    number, row = len(lines.rows) + 1, dict[str, str]()
    lines.rows.append(row)
    at, gauge, speed, grade = EXAMPLES[number - 1] if number <= len(EXAMPLES) else ("", None, "", "")
    hints = (at, "" if gauge is None else as_typed(gauge, lines.page.job.system), speed, grade)
    with tag("div", classes="line", role="group", aria_label=f"line {number}"):
        for key, hint, head in zip(("at", "gauge", "speed", "grade"), hints, heads, strict=False):
            box = tag(
                "input", id=f"line-{number}-{key}", autocomplete="off", maxlength=20, placeholder=hint, data_draft="",
                aria_label=f"line {number}: {head}",
            )  # fmt: skip
            heard(box, _keeper(row, key))
        with tag("select", id=f"line-{number}-ac", data_draft="", aria_label=f"line {number}: air conditioning") as box:
            for value, words in (("", "–"), ("on", "on"), ("off", "off")):
                tag("option", words, value=value)
        heard(box, _keeper(row, "air_conditioning"))


def _keeper(row: dict[str, str], key: str) -> Callable[[str], None]:
    return lambda text: row.update({key: text})


async def _keep(lines: _Lines, wrong: Tag) -> None:
    page, keys = lines.page, ("at", "gauge", "speed", "grade", "air_conditioning")
    rows = [NotedRow(**{key: row.get(key, "") for key in keys}) for row in lines.rows]
    name = f"{lines.purpose} noted.csv"
    try:
        kept = await asyncio.to_thread(kept_logs.keep_table, page.number, rows, name=name, system=page.job.system)
    except Refusal as refusal:
        wrong.classes("wrong")
        wrong.set_text(f"{refusal.field}: {refusal.limit}; {refusal.fix}")
        return
    for number in range(1, len(rows) + 1):
        for key in ("at", "gauge", "speed", "grade", "ac"):
            drop_draft(f"line-{number}-{key}")
    ui.navigate.to(page.address(page.step, of=page.asked, log=kept.checksum))
