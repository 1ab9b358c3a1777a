"""Fields of a form on a page: each saves itself, says what was understood, and is kept up to date."""

# The framework's own types are incomplete:
# pyright: reportUnknownMemberType=false

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING, cast

from nicegui.element import Element

from toptank.interfaces.web import changes
from toptank.shop.door import HOWS
from toptank.shop.door import edit_verbs as edit
from toptank.units.dialect import spoken
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from toptank.interfaces.web.elements.tags import Event
    from toptank.interfaces.web.frame import JobPage
    from toptank.shop.door import Field

LONGEST = 4000


class FieldElement(Element, component="field.js"):
    """One field."""

    def __init__(self, page: JobPage, field: Field) -> None:
        """Put the field here."""
        super().__init__()
        self.page, self.field, self.row = page, field, page.row_of(field.path)
        self.props.update(job=page.number, path=field.path, row=self.row, label=field.label, kind=field.kind)
        self.props.update(longest=LONGEST, error="", clash=None)
        self.show(field)
        self.on("typed", self._typed)

    def show(self, field: Field) -> None:
        """Show what stands in the record."""
        self.field = field
        new: dict[str, object] = {
            "unit": field.unit,
            "hint": field.hint,
            "saved": field.typed,
            "how": field.how,
            "hows": [list(pair) for pair in HOWS] if field.how else [],
            "choices": [[one, spoken(one, self.page.job.system)] for one in field.choices],
            "echo": field.echo,
            "more": field.measure,
            "remark": field.remark,
        }
        if any(cast("object", self.props.get(key)) != value for key, value in new.items()):
            self.props.update(new)
            self.update()

    async def _typed(self, event: Event) -> None:
        said = cast("Mapping[str, object]", event.args if isinstance(event.args, dict) else {})
        text, base, how = (str(said.get(key) or "") for key in ("text", "from", "how"))
        known = how if how in [one for one, _ in HOWS] else None
        error, clash = "", None
        try:
            write, path = edit.set_field, self.field.path
            sitting = self.page.client.id
            saved = await asyncio.to_thread(
                write, self.page.number, path, text, base=base, how=known, row=self.row, sitting=sitting
            )
        except Refusal as refusal:
            error, saved = f"{refusal.limit}; {refusal.fix}", None
        if isinstance(saved, edit.Clash):
            clash = saved.theirs
        elif saved is not None:
            changes.changed(self.page.number, saved.number)
            if not self.is_deleted:
                self.props["saved"] = text.strip()
        if not self.is_deleted:  # the page may have been built anew meanwhile
            self.props.update(error=error, clash=clash, answered=int(str(said.get("turn") or 0)))
            self.update()


class Form:
    """The fields of a page by their path and row, so that a change can be shown where it belongs."""

    def __init__(self, page: JobPage) -> None:
        """Begin an empty form."""
        self.page = page
        self.elements: dict[tuple[str, str], FieldElement] = {}

    def put(self, field: Field) -> FieldElement:
        """Put a field here."""
        element = FieldElement(self.page, field)
        self.elements[field.path, element.row] = element
        return element

    def show(self, fields: Iterable[Field]) -> bool:
        """Show what stands in the record now; False where other fields are there than before."""
        known = {(field.path, self.page.row_of(field.path)): field for field in fields}
        if list(known) != list(self.elements):
            return False
        for key, field in known.items():
            self.elements[key].show(field)
        return True
