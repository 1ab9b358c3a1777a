"""The card of a check: how it is made, what can hurt, what each outcome would mean; pressing one writes it down."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.tags import drop_draft, press, say, tag
from toptank.shop.door import chance, check_figure, naming, rows_of, sentence
from toptank.shop.door import diagnose_verbs as diagnose
from toptank.shop.door import edit_verbs as edit
from toptank.shop.door import working_time as worked
from toptank.units.refusal import Refusal
from toptank.units.sentence import said

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable, Sequence

    from toptank.interfaces.web.elements.tags import Event
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import NextCheck


def check_card(page: JobPage, one: NextCheck, *, first: bool = True, sure: bool = False) -> None:
    """Put the card of a suggested check here."""
    name, how, tools, hazard, misleads = (
        said(words, page.job.system) for words in (one.name, one.how, one.tools, one.hazard, one.misleads)
    )
    with tag("section", classes="sheet", aria_label=f"check: {name}"):
        with tag("div", classes="lead"):
            head = ("make sure of it" if sure else "check next") if first else "or this"
            tag("span", head, "small quiet")
            tag("h2", name)
            tag("p", ", ".join(filter(None, (worked(one.minutes), tools))), "quiet")
        if hazard:
            tag("div", hazard, "hazard")
        tag("p", how)
        if misleads:
            tag("p", f"Can fool you: {misleads}", "small quiet")
        _outcomes(page, one, name)


def _outcomes(page: JobPage, one: NextCheck, name: str) -> None:
    system = page.job.system
    tag("h3", "What was seen?")
    with tag("ul", classes="bars"):
        for outcome in one.outcomes:
            leads = "; ".join(
                f"{naming.cause(then.cause, system)} {_chance(then.probability_pct)}" for then in outcome.causes[:2]
            )
            told = said(outcome.seen, system)
            with tag("li"):
                if outcome.outcome is None:
                    tag("b", told)
                else:
                    then = [(naming.cause(one.cause, system), one.probability_pct) for one in outcome.causes]
                    record = _recorder(page, one.check, outcome.outcome, (f"{sentence(name)}, {told}", then))
                    press(told, record, "plain outcome", aria_label=f"{name}: {told}")
                words = f"expected {_chance(outcome.chance_pct)}; then {leads}".replace(" %", "\u00a0%")
                tag("span", words, "small quiet")
    if any(outcome.outcome is None for outcome in one.outcomes):
        _figure(page, one.check, one.field)


def _chance(share_pct: float) -> str:
    return chance(share_pct / 100.0)


def _recorder(
    page: JobPage, check: str, outcome: str, announced: tuple[str, Sequence[tuple[str, float]]]
) -> Callable[[], Awaitable[object]]:
    """Return what writes an outcome down; what was announced for it is shown until it is worked out exactly."""

    async def record() -> None:
        page.announced = announced
        if await page.do(edit.add_row, "check", {"name": check, "outcome": outcome}) is None:
            page.announced = None

    return record


def _figure(page: JobPage, check: str, field: str | None) -> None:
    """A figure is typed: into the sheet where it measures a field of it, else as the outcome of the check."""
    asked = check_figure.asked_figure(check, page.job)
    typed = {"text": ""}
    name = "figure-" + "".join(sign if sign.isalnum() else "-" for sign in check)
    with tag("div", classes="field"):
        with tag("label", "What was read ", for_=name):
            tag("small", asked.unit)
        example = f"such as {asked.example}" if asked.example else None
        box = tag("input", id=name, autocomplete="off", maxlength=60, data_draft="", placeholder=example)
        box.put("aria_describedby", f"{name}-tells")
        tag("div", asked.tells, "says", id=f"{name}-tells")
        wrong = tag("div", "", "says", role="alert")
    box.on("input", lambda event: typed.update(text=str(event.args or "")), js_handler="(e) => emit(e.target.value)")

    async def note() -> None:
        text = typed["text"].strip()
        if not text:
            say("Type the figure first.")
            return
        try:
            text = check_figure.figure_kept(check, text, page.job)
        except Refusal as refusal:
            wrong.classes("wrong")
            wrong.set_text(f"{refusal.limit}; {refusal.fix}")
            return
        saved = (
            await page.do(edit.set_field, field, text, how="measured")
            if field
            else await page.do(edit.add_row, "check", {"name": check, "outcome": text})
        )
        if saved is not None:
            drop_draft(name)
            say(f"{'Written into the sheet' if field else 'Written down'}: {text}.")

    press("Write it down", note, aria_label=f"Write it down: figure of {naming.check(check, page.job.system).name}")


def findings(page: JobPage) -> None:
    """Put the checks that were made here, and the way to write down any other."""
    with tag("section", classes="sheet", aria_label="checks made"):
        tag("h2", "Checks made")
        rows = rows_of(page.document, "check")
        if not rows:
            tag("p", "None yet.", "quiet")
        with tag("ul", classes="ticks"):
            for at, row in enumerate(rows):
                with tag("li", classes="line-up apart"):
                    name, outcome = naming.finding(row["name"], row["outcome"], page.job.system)
                    tag("span", f"{name}: {outcome}")
                    told = f"Take out the check {name}"
                    press("Take out", page.taker("check", at), "plain", aria_label=told)
        _another(page)


def _another(page: JobPage) -> None:
    """Any check of the list, with what was seen."""
    known, system = diagnose.checks(), page.job.system
    chosen = {"name": "", "outcome": ""}
    with tag("details"):
        tag("summary", "Another check was made")
        with tag("div", classes="fields"):
            with tag("div", classes="field"):
                tag("label", "Which check", for_="other-check")
                with tag("select", id="other-check") as select:
                    tag("option", "choose", value="")
                    for one in known:
                        tag("option", naming.check(one.id, system).name, value=one.id)
            with tag("div", classes="field"):
                tag("label", "What was seen", for_="other-outcome")
                outcome = tag("select", id="other-outcome")
        figure = tag("div", classes="stack")

        def pick(event: Event) -> None:
            chosen.update(name=str(event.args or ""), outcome="")
            check = next((one for one in known if one.id == chosen["name"]), None)
            outcome.clear()
            figure.clear()
            if check is None:
                return
            with outcome:
                tag("option", "choose" if check.outcomes else "a figure, below", value="")
                for id_, word in naming.check(check.id, system).outcomes.items():
                    tag("option", word, value=id_)
            if check.dimension is not None:
                with figure:
                    _figure(page, check.id, check.field)

        select.on("change", pick, js_handler="(e) => emit(e.target.value)")
        take = "(e) => emit(e.target.value)"
        outcome.on("change", lambda event: chosen.update(outcome=str(event.args or "")), js_handler=take)

        async def add() -> None:
            if chosen["name"] and chosen["outcome"]:
                await page.do(edit.add_row, "check", chosen)
            else:
                say("Choose the check and what was seen first.")

        press("Write it down", add)
