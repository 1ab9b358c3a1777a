"""The shop: what stands at the head of its paper, the tax on it, and where its record lies."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.tags import heard, press, say, stands_first, tag
from toptank.interfaces.web.shell import plain_page
from toptank.shop.door import naming, own_prices, sentence, shop_settings
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.door import PriceBook, Shop

ASKED = (
    ("name", "Name of the shop", "at the head of every work order"),
    ("address", "Address", "on one line"),
    ("phone", "Phone", ""),
    ("email", "E-mail", ""),
    ("tax", "Tax on parts and work, %", "empty: prices are said without tax"),
)
"""Key, label, and what to know of it."""

FIGURES = (
    ("labour", "An hour of labor", "without tax"),
    ("lost_day", "A worst day that does not hold", "tow, lost day, second visit: plans are ranked by it"),
    ("gone_without", "Going without A/C on that day", "what that is worth to a customer"),
)
"""Price that belongs to no part, label, and what to know of it."""

NOT_YET = "All prices are invented examples until you type your own: they decide which plan is recommended."


async def page() -> None:
    """Build the page."""
    trouble = ""
    try:
        shop = await asyncio.to_thread(shop_settings.read)
    except Refusal as refusal:
        shop, trouble = await asyncio.to_thread(shop_settings.empty), str(refusal)
    with plain_page("The shop"):
        with tag("div", classes="lead"):
            tag("h1", "The shop")
            tag("p", "What heads every work order, and what the shop asks for parts and work.", "quiet")
        if trouble:
            tag("div", trouble, "note bad", role="alert")
        _form(shop)
        await _prices()
        with tag("section", classes="sheet", aria_labelledby="where"):
            tag("h2", "Where the record lies", id="where")
            tag("p", str(shop_settings.record_place()))
            tag("p", f"Beside it: {shop_settings.place().name} and {own_prices.NAME}. A backup holds all three.",
                "small quiet")  # fmt: skip


def _form(shop: Shop) -> None:
    said = {key: str(getattr(shop, key)) for key, _, _ in ASKED}
    with tag("section", classes="sheet", aria_label="head of the paper"):
        with tag("div", classes="fields"):
            for key, label, hint in ASKED:
                with tag("div", classes="field"):
                    tag("label", label, for_=f"shop-{key}")
                    box = tag(
                        "input", id=f"shop-{key}", maxlength=shop_settings.LONGEST, autocomplete="off",
                        aria_describedby=f"shop-{key}-says",
                    )  # fmt: skip
                    tag("div", hint, "says", id=f"shop-{key}-says")

                    def keep(text: str, key: str = key) -> None:
                        said[key] = text

                    heard(stands_first(box, said[key]), keep)
        wrong = tag("div", "", "wrong", role="alert")

        async def save() -> None:
            try:
                await asyncio.to_thread(shop_settings.save, said)
            except Refusal as refusal:
                wrong.set_text(str(refusal))
                return
            wrong.set_text("")
            say("Saved: it stands on the next work order.")

        press("Save", save, "main")


async def _prices() -> None:
    """Put the price book here: what is typed is the shop's own, all else is invented and marked so."""
    trouble = ""
    try:
        book = await asyncio.to_thread(own_prices.read)
    except Refusal as refusal:
        book, trouble = await asyncio.to_thread(own_prices.built_in), str(refusal)
    said, invented = _typed(book), await asyncio.to_thread(own_prices.built_in)
    with tag("section", classes="sheet", aria_labelledby="prices"):
        tag("h2", "Labor and prices", id="prices")
        told = f"{len(book.own)} of {len(book.parts)} parts have a price of your own."
        tag("p", told if book.own_labour else NOT_YET, "note warn" if not book.own_labour else "")
        if trouble:
            tag("div", trouble, "note bad", role="alert")
        with tag("div", classes="fields"):
            for key, label, hint in (("currency", "Currency", ""), *FIGURES):
                usual = invented.currency if key == "currency" else f"{getattr(invented, key):,.0f}"
                _price(said, key, label, hint, usual=usual)
        with tag("details", open=bool(book.own) or None):
            tag("summary", "Parts")
            with tag("div", classes="fields"):
                for part, price in invented.parts.items():
                    _price(said, part, sentence(naming.part(part, "us")), "", usual=f"{price:,.2f}".removesuffix(".00"))
        wrong = tag("div", "", "wrong", role="alert")

        async def save() -> None:
            try:
                kept = await asyncio.to_thread(own_prices.save, said)
            except Refusal as refusal:
                wrong.set_text(str(refusal))
                return
            wrong.set_text("")
            say(
                f"Saved: {len(kept.own)} parts with a price of your own."
                if kept.own_labour
                else "Saved: no own prices."
            )

        press("Save prices", save, "main")


def _typed(book: PriceBook) -> dict[str, str]:
    """What stands in the boxes at first: the shop's own prices alone."""
    if not book.own_labour:
        return {}
    own = {part: f"{book.parts[part]:.2f}".removesuffix(".00") for part in book.own}
    return (
        own
        | {"currency": book.currency}
        | {key: f"{getattr(book, key):.2f}".removesuffix(".00") for key, _, _ in FIGURES}
    )


def _price(said: dict[str, str], key: str, label: str, hint: str, *, usual: str) -> None:
    with tag("div", classes="field"):
        tag("label", label, for_=f"price-{key}")
        box = tag(
            "input", id=f"price-{key}", maxlength=20, autocomplete="off", placeholder=f"invented: {usual}",
            inputmode="text" if key == "currency" else "decimal", aria_describedby=f"price-{key}-says",
        )  # fmt: skip
        tag("div", hint, "says", id=f"price-{key}-says")

    def keep(text: str) -> None:
        said[key] = text

    heard(stands_first(box, said.get(key, "")), keep)
