"""What logs have said, as it is kept with the job: verdicts on check drives, and causes that a drive has moved."""

from __future__ import annotations

from typing import TYPE_CHECKING

from nicegui import ui

from toptank.interfaces.web.drawing.loop import dressed
from toptank.interfaces.web.drawing.strip_chart import says, strip_chart
from toptank.interfaces.web.drawing.strip_of_verdict import strip_of_verdict
from toptank.interfaces.web.elements.tags import link, table, tag
from toptank.interfaces.web.pages.record import when
from toptank.shop.door import chance, naming, sentence, verdict_works, verdict_worst_day, worth_words

if TYPE_CHECKING:
    from toptank.interfaces.web.drawing.strip_of_verdict import Kept
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import Said
    from toptank.units.conversion import System

LOOKS = {"as forecast": ("✓ as forecast", "good"), "better": ("↓ cooler", "good"), "worse": ("↑ hotter", "bad")}
SHOWN, LEAST = 6, 2.0
"""Causes that are listed, and the percentage from which one is."""


def verdicts(page: JobPage, found: tuple[Said, ...]) -> None:
    """Put the newest verdict here whole, the earlier ones folded."""
    if not found:
        return
    _verdict(page, found[0])
    if len(found) > 1:
        with tag("details", classes="sheet folded"):
            tag("summary", f"{len(found) - 1} earlier")
            with tag("ul"):
                for one in found[1:]:
                    log = _log_name(one.answer)
                    done = naming.written_works(one.answer["done"], page.job.system)
                    tag("li", f"{when(one.at)}, {log}: {_words(one.answer)[0]}. Done: {done}.")


def _log_name(said: Kept) -> str:
    """Name of the log; empty for a simulated drive."""
    return str(said["log"]["file"]) if said["log"] else ""


def _words(said: Kept) -> list[str]:
    """Headline and lines; of a verdict that was kept without them, the bare word."""
    return said.get("says") or [sentence(f"{said['verdict']} forecast".replace("as forecast forecast", "as forecast"))]


def _verdict(page: JobPage, one: Said) -> None:
    said = one.answer
    words = _words(said)
    told, look = LOOKS[said["verdict"]]
    with tag("section", classes="sheet", aria_labelledby="verdict"):
        tag("p", _means(said), "answer")
        tag("p", _worst_day(said))
        with tag("div", classes="line-up apart"):
            tag("h2", words[0], id="verdict")
            with tag("div", classes="line-up"):
                tag("span", told, f"tag {look}")
                if not said["proves"]:
                    tag("span", "proves little", "tag warn")
        tag("p", f"Done: {naming.written_works(said['done'], page.job.system)}.")
        _strip(said, page.job.system)
        _chances(said)
        if said.get("better_drive_says"):
            tag("div", said["better_drive_says"], "note warn")
        if said["verdict"] == "worse":
            _back(page, said)
        elif said["proves"]:
            with tag("div", classes="note good"):
                link("Close the job with what it was", f"/job/{page.number}/record")
        with tag("details"):
            tag("summary", "What this rests on")
            with tag("ul"):
                for line in (*words[1:], *said["remarks"], *said["assumed_units"]):
                    tag("li", line)
        log = _log_name(said)
        tag("p", f"{log}, held beside the forecast on {when(one.at)} (revision {one.revision}).", "small quiet")


def _means(said: Kept) -> str:
    """Whether the repair works, as far as the road test tells."""
    read = [one for one in said.get("readings", {}).get("read_degC", ()) if one is not None]
    cool = max(read, default=0.0) <= said.get("limit_degC", float("inf"))
    place = said.get("place_in_forecast_pct", 50.0) / 100.0
    return verdict_works(said["verdict"], place, proves=bool(said["proves"]), cool=cool)


def _worst_day(said: Kept) -> str:
    """What the road test means for the customer's worst day, below how it ran."""
    day = said["worst_day"]
    return verdict_worst_day(day["holds_now_pct"] / 100.0, day["holds_forecast_pct"] / 100.0, day["hardest"])


def _strip(said: Kept, system: System) -> None:
    strip = strip_of_verdict(said)
    if strip is None:
        tag("p", "This verdict was kept without its strip; hold the log beside the forecast again to see it.", "quiet")
        return
    put_strip(strip_chart(strip, system), says(strip, system))
    tag(
        "p",
        "Band: likely range after this work (8 chances in 10); line in it: most likely; dots: what was read.",
        "small quiet",
    )


def put_strip(drawing: str, told: str) -> None:
    """Put a strip here; on a narrow screen it is pushed sideways."""
    dressed()
    tag("p", "Push the drawing sideways to see the rest of it.", "small quiet sideways")
    with tag("div", classes="strip-frame", tabindex="0", role="region", aria_label=told):
        ui.html(drawing, sanitize=False)


def _chances(said: Kept) -> None:
    day = said["worst_day"]
    with tag("div", classes="promised"):
        figure("holds the worst day now", chance(day["holds_now_pct"] / 100.0))
        figure("on the order, before this road test", chance(day["holds_forecast_pct"] / 100.0))
        figure("chance the repair did not work", chance(said["nothing_done_pct"] / 100.0))
        if said["verdict"] != "as forecast":
            figure("it is only weather or road", chance(said["only_weather_or_road_pct"] / 100.0))


def figure(name: str, words: str) -> None:
    """Put a figure with its name here."""
    with tag("div"):
        tag("div", name, "small quiet")
        tag("b", words)


def _back(page: JobPage, said: Kept) -> None:
    with tag("div", classes="note bad"):
        if said["causes_back"]:
            tag("p", "These come back up:")
            with tag("ul"):
                for one in said["causes_back"][:SHOWN]:
                    was, now = (chance(one[key] / 100.0) for key in ("expected_pct", "now_pct"))
                    tag("li", f"{naming.written_cause(one['cause'], page.job.system)}: {now}, expected was {was}")
        else:
            tag("p", "No single cause stands out: look at the work itself first.")
        link("What else may it be?", f"/job/{page.number}/causes")


def moved(page: JobPage, found: tuple[Said, ...]) -> None:
    """Put here what drives before the work have said of the causes, the newest whole."""
    for place, one in enumerate(found[:SHOWN]):
        said = one.answer
        with tag("section", classes="sheet", aria_label=f"logged drive: {said['file']}, answer {one.number}"):
            tag("h2", "What a logged drive says" if place == 0 else f"An earlier drive: {said['file']}")
            for line in said.get("says", ()):
                tag("p", line)
            rows = [row for row in said["causes"][:SHOWN] if max(row["before_pct"], row["with_the_log_pct"]) >= LEAST]
            with table(f"causes with {said['file']}, answer {one.number}", ("it may be", "without it", "with it", "")):
                for row in rows:
                    before, after = row["before_pct"], row["with_the_log_pct"]
                    with tag("tr"):
                        tag("th", naming.written_cause(row["cause"], page.job.system), scope="row")
                        tag("td", chance(before / 100.0), "number")
                        tag("td", chance(after / 100.0), "number")
                        tag("td", _way(before, after))
            tag("p", f"None of these: {chance(said['none_of_these_pct'] / 100.0)}.", "small quiet")
            tag(
                "p",
                f"Worth {worth_words(said['independent_readings'])}, however many rows it has: what "
                "the model misses, it misses for minutes. The list of causes above is without it: write what it showed "
                "when settled into the readings as well.",
                "small quiet",
            )
            for remark in said["remarks"]:
                tag("p", remark, "small quiet")
            tag("p", f"{said['file']}, {when(one.at)} (revision {one.revision} of job {page.number}).", "small quiet")


def _way(before: float, after: float) -> str:
    if abs(after - before) < LEAST:
        return "as before"
    return "↑\u00a0likelier" if after > before else "↓\u00a0less likely"
