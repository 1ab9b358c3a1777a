"""Complaint and readings: the driver's words, the conditions at which something was seen, and what was seen."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.symptom_list import symptom_list
from toptank.interfaces.web.elements.tags import drop_draft, press, say, tag
from toptank.interfaces.web.fields import Form
from toptank.shop.door import as_typed, complaint_form, naming
from toptank.shop.door import edit_verbs as edit

if TYPE_CHECKING:
    from collections.abc import Callable

    from toptank.interfaces.web.elements.tags import Event, Renew
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import Field


def build(page: JobPage) -> Renew:
    """Build the page; fields are shown anew where they stand as long as the same ones are there."""
    form = Form(page)
    whole = tag("div", classes="stack")
    named: list[Callable[[str], None]] = []
    with whole:
        said = _content(page, form, named)

    async def renew() -> None:
        nonlocal said
        if form.show(complaint_form.every_field(page.document, page.job)):
            said()
            for name, duty in zip(named, page.job.duties, strict=True):
                name(duty.name)
            return
        form.elements.clear()
        named.clear()
        whole.clear()
        with whole:
            said = _content(page, form, named)

    return renew


def _content(page: JobPage, form: Form, named: list[Callable[[str], None]]) -> Callable[[], None]:
    """Put the page here; what comes back puts anew what no field shows: what the driver says, what was tried."""
    told = complaint_form.told_form(page.document, page.job)
    with tag("div", classes="lead"):
        tag("h1", "What was seen")
        tag(
            "p",
            "The driver's own words, then one card for every condition he speaks of: on the grade, on the flat, "
            "waiting at the gate.",
            "quiet",
        )
    with tag("section", classes="sheet", aria_label="complaint"):
        for field in told:
            form.put(field)
    said = symptom_list(page)
    with tag("section", classes="sheet", aria_label="customer and vehicle"):
        tag("h2", "Customer and vehicle")
        with tag("div", classes="fields"):
            for field in complaint_form.write_up_form(page.document, page.job):
                form.put(field)
    named.extend(_condition(page, form, card) for card in complaint_form.conditions(page.document, page.job))
    with tag("div", classes="line-up"):
        press("Add a condition", lambda: _add_condition(page), "main")
    _history(page, form)
    with tag("div", classes="stack") as tried:
        _changes(page)

    def again() -> None:
        said()
        tried.clear()
        with tried:
            _changes(page)

    return again


def _condition(page: JobPage, form: Form, card: complaint_form.Condition) -> Callable[[str], None]:
    """Put the card of a condition here; what comes back gives it another name."""
    with tag("section", classes="sheet", aria_label=f"condition: {card.name}") as whole:
        with tag("div", classes="line-up apart"):
            head = tag("h2", card.name)
            if len(page.job.duties) > 1:
                told = f"Take out the condition {card.name}"
                press("Take out", page.taker("duty", card.place), "plain", aria_label=told)
        with tag("div", classes="fields"):
            for field in card.first:
                form.put(field)
        for at, fields in card.readings:
            _reading(page, form, at, fields)
        if card.readings:
            with tag("details"):
                tag("summary", "Another reading", aria_label=f"Another reading at {card.name}")
                _new_reading(page, card)
        else:
            _new_reading(page, card)
        with tag("details", open=any(field.typed for field in card.more) or None):
            tag("summary", "Trailer, wind, gear and more")
            with tag("div", classes="fields"):
                for field in card.more:
                    form.put(field)

    def name_it(name: str) -> None:
        head.set_text(name)
        whole.put("aria_label", f"condition: {name}")
        whole.update()

    return name_it


def _new_reading(page: JobPage, card: complaint_form.Condition) -> None:
    """What was seen is written down as a whole: a reading that says nothing is none."""
    said = {"gauge": "", "words": "", "needle": ""}
    box, row = f"new-gauge-{card.place}", page.row_of(f"duty.{card.place}")
    hint = "such as {}, or {} to {}".format(*(as_typed(one, page.job.system) for one in (215, 210, 215)))
    with tag("fieldset", classes="not-on-paper"):
        tag("legend", "What did the gauge show?")
        with tag("div", classes="fields"):
            with tag("div", classes="field"):
                with tag("label", "Temperature seen ", for_=box):
                    tag("small", complaint_form.degrees_unit(page.job))
                figure = tag("input", id=box, autocomplete="off", maxlength=60, placeholder=hint, data_draft="")
            for key, label, words in complaint_form.READING_WORDS:
                _choice(f"{key}-{card.place}", label, [(one, one) for one in words], said, key=key)
        take = "(e) => emit(e.target.value)"
        figure.on("input", lambda event: said.update(gauge=str(event.args or "")), js_handler=take)

        async def add() -> None:
            if not any(said.values()):
                say("Type a temperature, or say it in words, first.")
                return
            if await page.do(edit.add_reading, card.place, said, row=row or None) is not None:
                drop_draft(box)

        press("Write it down", add, aria_label=f"Write it down: {card.name}")


def _reading(page: JobPage, form: Form, at: int, fields: tuple[Field, ...]) -> None:
    with tag("fieldset"):
        tag("legend", "What the gauge showed")
        with tag("div", classes="fields"):
            for field in fields:
                form.put(field)
        press("Take this reading out", page.taker("reading", at), "plain")


def _history(page: JobPage, form: Form) -> None:
    with tag("section", classes="sheet", aria_label="how it began"):
        tag("h2", "How it began")
        with tag("div", classes="fields"):
            for field in complaint_form.history_form(page.document, page.job):
                form.put(field)


def _changes(page: JobPage) -> None:
    """What was changed already, and what came of it."""
    parts, effects = complaint_form.parts_and_effects()
    with tag("section", classes="sheet", aria_label="what was tried"):
        tag("h2", "What was tried already")
        if not page.job.evidence.changes:
            tag("p", "Nothing yet.", "quiet on-paper-only")
        else:
            with tag("ul", classes="ticks"):
                for at, one in enumerate(page.job.evidence.changes):
                    with tag("li", classes="line-up apart"):
                        name = naming.work(one.part, page.job.system)
                        note = f" ({one.note})" if one.note else ""
                        tag("span", f"{name}: {naming.EFFECT_WORDS[one.effect]}{note}")
                        told = f"Take out {name}"
                        press("Take out", page.taker("changed", at), "plain", aria_label=told)
        chosen = {"part": "", "effect": "", "note": ""}
        with tag("div", classes="fields not-on-paper"):
            _choice("part", "Part or work", [(one, naming.work(one, page.job.system)) for one in parts], chosen)
            _choice("effect", "What it did", [(one, naming.EFFECT_WORDS[one]) for one in effects], chosen)
            _note(chosen)

        async def add() -> None:
            if chosen["part"] and chosen["effect"]:
                await page.do(edit.add_row, "changed", chosen)
            else:
                say("Choose the part and what it did first.")

        with tag("div", classes="line-up"):
            press("Add it", add)


def _note(chosen: dict[str, str]) -> None:
    """Anything else of what was tried: which part, how long it held."""
    with tag("div", classes="field"):
        tag("label", "Note, if any", for_="new-note")
        box = tag("input", id="new-note", type="text", maxlength=200)

    def take(event: Event) -> None:
        chosen["note"] = str(event.args or "")

    box.on("input", take, js_handler="(event) => emit(event.target.value)")


def _choice(name: str, label: str, words: list[tuple[str, str]], chosen: dict[str, str], *, key: str = "") -> None:
    with tag("div", classes="field"):
        tag("label", label, for_=f"new-{name}")
        with tag("select", id=f"new-{name}") as select:
            tag("option", "choose", value="")
            for value, shown in words:
                tag("option", shown, value=value)

    def pick(event: Event) -> None:
        chosen[key or name] = str(event.args or "")

    select.on("change", pick, js_handler="(event) => emit(event.target.value)")


async def _add_condition(page: JobPage) -> None:
    taken = {duty.name for duty in page.job.duties}
    # A name such as "long climb" would claim a grade and a speed that nobody has said.
    name = next(one for one in (f"condition {n}" for n in range(len(taken) + 1, 999)) if one not in taken)
    await page.do(edit.add_row, "duty", {"name": name})
