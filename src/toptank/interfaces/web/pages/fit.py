"""Fit: does it go in, drawn to scale; what is not known is asked for beside it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.say_first import say_first
from toptank.interfaces.web.elements.tags import drawn, drop_draft, heard, press, say, table, tag
from toptank.interfaces.web.fields import Form
from toptank.shop.door import ShortAnswer, fit_form, sentence
from toptank.shop.door import edit_verbs as edit
from toptank.shop.door import fit_name as named
from toptank.shop.door import fit_picture as picture
from toptank.shop.door import fit_told as told
from toptank.shop.door import fit_verbs as fit
from toptank.shop.door import fit_words as words

if TYPE_CHECKING:
    from collections.abc import Sequence

    from toptank.interfaces.web.elements.tags import Renew, Tag
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import Field, Fit

SIGNS = {"clears": ("✓ clears", "good"), "tight": ("± tight", "warn"), "rubs": ("✕ rubs", "bad"),
         "not known": ("? not known", "assumed")}  # fmt: skip
"""A verdict as a mark: sign and word, and its class."""


def build(page: JobPage) -> Renew:
    """Build the page; what is being filled in stays where it is, the answers above it are given anew."""
    bay, offers = Form(page), Form(page)
    with tag("div", classes="lead"):
        tag("h1", "Does it go in?")
        tag("p", "It says clears or rubs only where your measures leave no real doubt (95 in 100).", "quiet")
    answers = tag("div", classes="stack")
    open_still = tag("p")

    def tell() -> tuple[tuple[Field, ...], tuple[Field, ...]]:
        answer = fit.fit_job(page.job)
        answers.clear()
        with answers:
            _first(page, answer.fits)
        asked, rest = fit_form.bay_form(page.document, page.job, answer)
        new = any(one.candidate.name or one.candidate.remedies for one in answer.fits)
        open_still.set_text(_left(len(asked)) if new else "They are wanted once another radiator or fan is to go in.")
        return asked, rest

    asked, rest = tell()
    _bay(bay, asked, rest, open_still)
    offered = tag("div", classes="stack")

    names: list[Tag] = []

    def offer_anew() -> None:
        offers.elements.clear()
        offered.clear()
        with offered:
            names[:] = _offers(page, offers)

    offer_anew()

    async def renew() -> None:
        asked, rest = tell()
        by_path = {field.path: field for field in (*asked, *rest)}
        for (path, _), element in bay.elements.items():
            element.show(by_path[path])
        offered_now = fit_form.offers_form(page.document, page.job)
        if offers.show([field for _, fields in offered_now for field in fields]):
            for place, (name, _) in zip(names, offered_now, strict=True):
                place.set_text(name)
        else:
            await page.while_nobody_writes(offer_anew)

    return renew


STAYS = "The radiator that is in stays: nothing has to be measured."
HOW_TO_ASK = (
    "To ask about another one, take a plan that brings it on Remedies, or type below what a seller prints of it: its "
    "name first, then its sizes."
)

IN_WORDS = {"clears": "goes in", "tight": "goes in, touch and go", "rubs": "won't go in without changes",
            "not known": "is not confirmed yet"}  # fmt: skip


def _first(page: JobPage, fits: Sequence[Fit]) -> None:
    """The answer of the page, then every fit; what is in goes in, so its drawing is folded away."""
    if any(one.candidate.name or one.candidate.remedies for one in fits):
        say_first(ShortAnswer(answer=_in_a_sentence(page, fits)))
        for one in fits:
            _fit(page, one)
        return
    say_first(ShortAnswer(answer=STAYS, lines=(HOW_TO_ASK,)))
    with tag("details", classes="sheet folded"):
        tag("summary", "The radiator that is in, drawn to scale")
        for one in fits:
            _fit(page, one)


def _in_a_sentence(page: JobPage, fits: Sequence[Fit]) -> str:
    """The answer of the page: what of all that was tried fits best, and where it touches."""
    order = ("clears", "tight", "not known", "rubs")
    best = min(fits, key=lambda one: order.index(one.verdict().value))
    rubs = [item.name for item in best.items if item.verdict.value == "rubs"]
    where = f" ({', '.join(one.replace(':', ',') for one in rubs[:3])})" if rubs else ""
    to_measure = len(best.to_measure())
    first = f" {to_measure} measures are missing." if best.verdict().value == "not known" and to_measure else ""
    return f"{sentence(named(best, page.job.system))} {IN_WORDS[best.verdict().value]}{where}.{first}"


def _fit(page: JobPage, one: Fit) -> None:
    system = page.job.system
    name, (_, note) = named(one, system), told(one, system)
    with tag("section", classes="sheet", aria_label=name):
        with tag("div", classes="line-up apart"):
            tag("h2", name)
            sign, look = SIGNS[one.verdict().value]
            tag("span", sign, f"tag {look}")
        lines = [note, one.candidate.price and f"Price as offered: {one.candidate.price}"]
        for line in filter(None, lines):
            tag("p", line, "small quiet")
        if any(item.verdict.value == "not known" or item.gap is not None for item in one.items):
            tag("p", "Push the drawing sideways to see the rest of it.", "small quiet sideways")
            drawn(picture(one, page.job.title, system), f"stack from grille to water pump, to scale: {name}")
        with table(f"answers for {name}", ("what", "answer, and what to do")):
            for item in one.items:
                verdict, more = words(item, system)
                mark, look = SIGNS[item.verdict.value]
                with tag("tr"):
                    tag("th", item.name, scope="row")
                    with tag("td"):
                        tag("span", mark.split(" ")[0], f"tag {look}")
                        tag("span", f" {verdict}")
                        if more:
                            tag("div", more, "small")


def _bay(form: Form, asked: Sequence[Field], rest: Sequence[Field], open_still: Tag) -> None:
    """What would settle what is open when the page is opened stands first, and stays there while it is filled in."""
    with tag("section", classes="sheet", aria_labelledby="bay") as whole:
        tag("h2", "Measures of the bay", id="bay")
        open_still.move(whole)
        if asked:
            with tag("div", classes="fields"):
                for field in asked:
                    form.put(field)
        with tag("details"):
            tag("summary", f"The other {len(rest)} measures")
            with tag("div", classes="fields"):
                for field in rest:
                    form.put(field)


def _left(count: int) -> str:
    if not count:
        return "Nothing is open: every question is answered by the measures that are there."
    return "One measure would settle what is open." if count == 1 else f"{count} measures would settle what is open."


def _offers(page: JobPage, form: Form) -> list[Tag]:
    """Put every radiator on offer here; what comes back holds their names."""
    with tag("section", classes="sheet", aria_labelledby="offers"):
        tag("h2", "Radiators on offer", id="offers")
        names: list[Tag] = []
        offers = fit_form.offers_form(page.document, page.job)
        if not offers:
            tag("p", "None: what is in now was looked at. Add what a catalogue or a seller prints.", "quiet")
        for place, (name, fields) in enumerate(offers):
            with tag("details"):
                names.append(tag("summary", name))
                with tag("div", classes="fields"):
                    for field in fields:
                        form.put(field)
                press("Take out", page.taker("offer", place), "plain", aria_label=f"Take out {name}")
        _another(page)
    return names


def _another(page: JobPage) -> None:
    """An offer begins with what it is: one without a name says nothing to whoever orders it."""
    said = {"name": ""}

    async def add() -> None:
        if not said["name"].strip():
            say("Say first what it is: maker's number, or the words of the catalogue.")
            return
        if await page.do(edit.add_row, "offer", {"name": said["name"].strip()}) is not None:
            drop_draft("new-offer")

    with tag("div", classes="line-up not-on-paper"):
        with tag("div", classes="field"):
            tag("label", "What is on offer?", for_="new-offer")
            box = tag("input", id="new-offer", maxlength=120, autocomplete="off", data_draft="")
        heard(box, lambda text: said.update(name=text))
        press("Add the offer", add)
