"""Symptoms to confirm: what the complaint tells in its own words, and what the driver should be asked first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.tags import press, tag
from toptank.shop.door import edit_verbs as edit
from toptank.shop.door import figure_form, symptom_form
from toptank.units.sentence import said

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable, Mapping

    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import DiagnosisAnswer, ProposedFigure


def symptom_list(page: JobPage) -> Callable[[], None]:
    """Put what the complaint tells here, and what is ticked; what comes back puts it anew."""
    place = tag("section", classes="sheet", aria_label="what the driver says")

    def fill() -> None:
        place.clear()
        with place:
            _content(page)

    fill()
    return fill


def heard_first(page: JobPage) -> None:
    """Put what the complaint tells and nobody has confirmed here, where there is any: it does not count until then."""
    if symptom_form.heard(page.job) or figure_form.proposed_figures(page.job):
        with tag("section", classes="sheet not-on-paper", aria_label="what the driver says"):
            tag("h2", "Did the driver say so?")
            _to_confirm(page)


def _to_confirm(page: JobPage) -> None:
    heard, figures = symptom_form.heard(page.job), figure_form.proposed_figures(page.job)
    tag("p", "Read in the complaint. It counts once you have confirmed it:", "quiet")
    with tag("ul", classes="ticks not-on-paper"):
        for one in heard:
            _answered(page, one.told, f"“{one.quote}”", one.row, one.contrary_row)
        for figure in figures:
            _figure(page, figure)


def _content(page: JobPage) -> None:
    heard, ticked = symptom_form.heard(page.job), symptom_form.ticked(page.job)
    figures = figure_form.proposed_figures(page.job)
    tag("h2", "What the driver says")
    if not heard and not ticked and not figures:
        tag("p", "Nothing in these words that tells one fault from another.", "quiet")
    if heard or figures:
        _to_confirm(page)
    if ticked:
        with tag("ul", classes="ticks"):
            for one in ticked:
                with tag("li", classes="line-up apart"):
                    tag("span", one.told)
                    press("Take out", page.taker("symptom", one.place), "plain", aria_label=f"Take out: {one.told}")


def _figure(page: JobPage, figure: ProposedFigure) -> None:
    """A figure that was read, and a press that writes it down."""

    async def confirm() -> None:
        await page.do(edit.confirm_figure, figure)

    with tag("li", classes="line-up apart"):
        with tag("span"):
            tag("span", figure.told)
            tag("small", f" “{figure.quote}”", "quiet")
        press("Write it down", confirm, "plain", aria_label=f"Write it down: {figure.told}")


def ask_first(page: JobPage, answer: DiagnosisAnswer) -> None:
    """Put the questions to the driver here that would tell most, where there are any."""
    if not answer.ask_first:
        return
    with tag("section", classes="sheet not-on-paper", aria_label="ask the driver first"):
        tag("h2", "Ask the driver first")
        tag("p", "It costs nothing, and tells more than what he was not asked.", "quiet")
        with tag("ul", classes="ticks"):
            for one in answer.ask_first:
                yes, no = (symptom_form.symptom_row(one.symptom, yes=yes) for yes in (True, False))
                _answered(page, said(one.question, page.job.system), "", yes, no)


def _answered(page: JobPage, told: str, quote: str, yes: Mapping[str, str], no: Mapping[str, str]) -> None:
    """A line with what is asked, and a yes and a no that write it down."""
    with tag("li", classes="line-up apart"):
        with tag("span"):
            tag("span", told)
            if quote:
                tag("small", f" {quote}", "quiet")
        with tag("span", classes="line-up"):
            press("Yes", _recorder(page, yes), "plain", aria_label=f"Yes: {told}")
            press("No", _recorder(page, no), "plain", aria_label=f"No: {told}")


def _recorder(page: JobPage, row: Mapping[str, str]) -> Callable[[], Awaitable[object]]:
    return lambda: page.do(edit.add_row, "symptom", row)
