"""The shop: what stands at the head of its paper, the tax on it, and where its record lies."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from toptank.interfaces.web.elements.tags import heard, press, say, tag
from toptank.interfaces.web.frame import plain_page
from toptank.shop.door import shop_settings
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from toptank.shop.door import Shop

ASKED = (
    ("name", "Name of the shop", "at the head of every work order"),
    ("address", "Address", "on one line"),
    ("phone", "Phone", ""),
    ("email", "E-mail", ""),
    ("tax", "Tax on parts and work, %", "empty: prices are said without tax"),
)
"""Key, label, and what to know of it."""


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
            tag("p", "Name, address and phone head both pages of every work order.", "quiet")
        if trouble:
            tag("div", trouble, "note bad", role="alert")
        _form(shop)
        with tag("section", classes="sheet", aria_labelledby="where"):
            tag("h2", "Where the record lies", id="where")
            tag("p", str(shop_settings.record_place()))
            tag("p", f"Settings: {shop_settings.place()}. Copy both, or run `toptank job backup`.", "small quiet")


def _form(shop: Shop) -> None:
    said = {key: str(getattr(shop, key)) for key, _, _ in ASKED}
    with tag("section", classes="sheet", aria_label="head of the paper"):
        with tag("div", classes="fields"):
            for key, label, hint in ASKED:
                with tag("div", classes="field"):
                    tag("label", label, for_=f"shop-{key}")
                    box = tag(
                        "input", id=f"shop-{key}", value=said[key], maxlength=shop_settings.LONGEST, autocomplete="off",
                        aria_describedby=f"shop-{key}-says",
                    )  # fmt: skip
                    tag("div", hint, "says", id=f"shop-{key}-says")

                    def keep(text: str, key: str = key) -> None:
                        said[key] = text

                    heard(box, keep)
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
