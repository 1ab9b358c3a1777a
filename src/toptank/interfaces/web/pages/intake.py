"""Intake by touch: what it is, when it runs hot, where the needle stood, what was changed; then the first check."""

# The framework's own types are incomplete:
# pyright: reportUnknownMemberType=false

from __future__ import annotations

import asyncio
import json
from operator import attrgetter
from typing import TYPE_CHECKING, Any, cast

from nicegui import background_tasks, ui

from toptank.interfaces.file_kinds import LARGEST
from toptank.interfaces.web.drawing.layout_glyph import glyph, layout_of
from toptank.interfaces.web.elements.needle_gauge import needle_gauge
from toptank.interfaces.web.elements.one_of import one_of
from toptank.interfaces.web.elements.tags import heard, link, press, tag
from toptank.interfaces.web.shell import plain_page
from toptank.shop.door import intake, job_verbs, naming, service
from toptank.units.conversion import SYSTEM_WORDS, system_named, unit_of
from toptank.units.dimension import TEMPERATURE
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from toptank.interfaces.web.elements.tags import Tag
    from toptank.units.conversion import System

LEVEL, LOSS = ("low", "full"), ("pushed_out", "drips", "unseen", "none_lost")
PHOTOS, PATIENCE = "new-photos", 120.0
"""Where photos are taken, and for how long their sending is waited [s]."""

WHO = (("customer", "Customer"), ("phone", "Phone"), ("registration", "License plate or registration"))


KEPT = ("system", "like", "level", "loss", "said", "figures", "needle", "read")
SETS = ("replaced", "cooled")
PLACE = "toptank:new"
"""What a tab keeps of an intake that is not opened yet, and where."""


async def page() -> None:
    """Build the page."""
    vehicles = (await asyncio.to_thread(service.vehicles)).vehicles
    with plain_page("New job"):
        _Intake([(one.name, one.title) for one in sorted(vehicles, key=attrgetter("title"))])


class _Intake:
    """What one open page has heard so far."""

    def __init__(self, vehicles: list[tuple[str, str]]) -> None:
        self.system: System = "us"
        self.like, self.level, self.loss = "", "", ""
        self.said: dict[str, str] = {}
        self.figures: dict[str, dict[str, str]] = {}
        self.needle: dict[str, str] = {}
        self.read: dict[str, str] = {}
        self.row_of: dict[str, Tag] = {}
        self.replaced: set[str] = set()
        self.cooled: set[str] = set()
        self.opened: int | None = None
        self.opening = self.sending = False
        self.vehicles, self.client = vehicles, ui.context.client
        with tag("div", classes="stack") as self.whole:
            self._content()
        background_tasks.create(self._give_back(), name="intake of this tab")

    def _content(self) -> None:
        with tag("div", classes="lead"):
            tag("h1", "New job")
            tag("p", "Touch what fits. Whatever nobody has said can be filled in later.", "quiet")
        self._units()
        self._vehicle(self.vehicles)
        self.rows = self._conditions()
        self._show_rows()
        self._rest()
        self.wrong = tag("div", "", "wrong", role="alert")
        press("First causes and first check", self._open, "main")

    def _keep(self) -> None:
        """Keep what was said in this tab: a reload, or a tablet that falls asleep, loses nothing."""
        said = {key: getattr(self, key) for key in KEPT} | {key: sorted(getattr(self, key)) for key in SETS}
        with self.client:
            ui.run_javascript(f"sessionStorage.setItem('{PLACE}', {json.dumps(json.dumps(said))})")

    async def _give_back(self) -> None:
        """Show again what this tab had heard before it was loaded anew."""
        try:
            await self.client.connected()
            text = cast("str | None", await self.client.run_javascript(f"sessionStorage.getItem('{PLACE}')"))
        except TimeoutError:  # a browser that is gone
            return
        if not text or self.whole.is_deleted:
            return
        said = cast("dict[str, Any]", json.loads(text))
        for key in KEPT:
            setattr(self, key, said.get(key, getattr(self, key)))  # an older page kept less
        for key in SETS:
            setattr(self, key, set(said.get(key, ())))
        with self.client:
            self.whole.clear()
            with self.whole:
                self._content()

    def _units(self) -> None:
        with tag("div", classes="line-up"):
            one_of(list(SYSTEM_WORDS.items()), self._set_units, chosen=self.system, label="Units")

    def _set_units(self, system: str) -> None:
        before, self.system = self.system, system_named(system)
        for name, figures in self.figures.items():
            usual = self._usual(name)
            self.figures[name] = {
                key: usual[key]
                if text == intake.usual(name, before)[key]
                else intake.in_units(key, text, before, self.system)
                for key, text in figures.items()
            }
        self.read = {name: intake.in_units("gauge", text, before, self.system) for name, text in self.read.items()}
        self._show_rows()
        self._keep()

    def _usual(self, name: str) -> dict[str, str]:
        return dict(intake.usual(name, self.system))

    def _vehicle(self, vehicles: list[tuple[str, str]]) -> None:
        with tag("section", classes="sheet", aria_labelledby="kind"):
            tag("h2", "What is it most like?", id="kind")
            with tag("div", classes="tiles", role="radiogroup", aria_labelledby="kind"):
                tiles: dict[str, Tag] = {}
                for name, title in vehicles:
                    with tag("button", "", "tile", type="button", role="radio",
                             aria_checked="true" if name == self.like else "false") as tile:  # fmt: skip
                        ui.html(glyph(layout_of(title)), sanitize=False)
                        tag("span", title)
                    tiles[name] = tile
                    tile.on("click", lambda _, name=name: self._pick_vehicle(name, tiles))

    def _pick_vehicle(self, name: str, tiles: dict[str, Tag]) -> None:
        self.like = name
        self._offer_cooling()
        for key, tile in tiles.items():
            tile.put("aria_checked", "true" if key == name else "false")
            tile.update()
        self._keep()

    def _offer_cooling(self) -> None:
        """Whoever's vehicle has no air conditioning is not asked whether it was on."""
        without = bool(self.like) and not intake.has_air_conditioning(self.like)
        self.rows.classes(add="uncooled" if without else "", remove="" if without else "uncooled")

    def _conditions(self) -> Tag:
        with tag("section", classes="sheet", aria_labelledby="when"):
            tag("h2", "When does it run hot, and when not?", id="when")
            with tag("div", classes="line-up"):
                for preset in intake.PRESETS:
                    button = tag("button", preset.name, "press tile-small", type="button",
                                 aria_pressed="true" if preset.name in self.figures else "false")  # fmt: skip
                    button.on("click", lambda _, name=preset.name, button=button: self._toggle(name, button))
            return tag("div", classes="stack")

    def _toggle(self, name: str, button: Tag) -> None:
        if name in self.figures:
            del self.figures[name]
            self.needle.pop(name, None)
            self.read.pop(name, None)
            self.cooled.discard(name)
            self.row_of.pop(name).delete()
        else:
            self.figures[name] = self._usual(name)
            self._row(name)  # the other rows stay as they are: somebody may be typing in one
        button.put("aria_pressed", "true" if name in self.figures else "false")
        button.update()
        self._keep()

    def _show_rows(self) -> None:
        self.rows.clear()
        self.row_of.clear()
        for name in self.figures:
            self._row(name)
        self._offer_cooling()

    def _row(self, name: str) -> None:
        with self.rows, tag("fieldset") as row:
            tag("legend", name)
            with tag("div", classes="line-up intake-row"):
                for key, text in self.figures[name].items():
                    self._figure(name, key, text)
                self._tick("A/C on", self.cooled, name, label=f"A/C on, {name}", classes="cooled")
            with tag("div", classes="intake-seen"):
                needle_gauge(f"Needle, {name}", self._into(self.needle, name), chosen=self.needle.get(name, ""))
                self._read(name)
        self.row_of[name] = row

    def _read(self, name: str) -> None:
        """A figure that was read off the gauge; it says more than where the needle stood."""
        unit = unit_of(TEMPERATURE, self.system)
        with tag("label", classes="intake-figure"):
            tag("span", f"or a figure, {unit}", "small quiet")
            box = tag("input", value=self.read.get(name, ""), maxlength=20, autocomplete="off", inputmode="decimal",
                      aria_label=f"Figure of the gauge, {name}")  # fmt: skip

        def typed(text: str) -> None:
            self.read[name] = text
            box.props["value"] = text
            self._keep()

        heard(box, typed)

    def _figure(self, name: str, key: str, text: str) -> None:
        words = {"ambient": "air outside", "trailer_mass": "trailer"}.get(key, key)
        with tag("label", classes="intake-figure"):
            tag("span", words, "small quiet")
            box = tag("input", value=text, maxlength=20, autocomplete="off", aria_label=f"{words}, {name}")

        def typed(text: str) -> None:
            self.figures[name][key] = text
            box.props["value"] = text  # what is drawn anew shows what was typed
            self._keep()

        heard(box, typed)

    def _rest(self) -> None:
        with tag("section", classes="sheet", aria_labelledby="lost"):
            tag("h2", "Is the coolant low, and where does it go?", id="lost")
            with tag("div", classes="line-up intake-ticks"):
                for check, outcomes, label, keep, chosen in (
                    ("level_cold", LEVEL, "Level, cold", self._set_level, self.level),
                    ("coolant_loss", LOSS, "Coolant", self._set_loss, self.loss),
                ):
                    told = [(one, naming.seen_words(check, one, self.system)) for one in outcomes]
                    one_of(told, keep, label=label, chosen=chosen)
        with tag("section", classes="sheet", aria_labelledby="new-parts"):
            tag("h2", "What was replaced already, to no effect?", id="new-parts")
            with tag("div", classes="line-up"):
                for part in intake.REPLACED:
                    self._tick(naming.work(part, self.system), self.replaced, part)
        with tag("section", classes="sheet", aria_label="customer and vehicle"), tag("div", classes="fields"):
            for key, label in (*WHO, ("distance", "Odometer"), ("title", "What do you call it?")):
                with tag("div", classes="field"):
                    tag("label", label, for_=f"new-{key}")
                    box = tag("input", id=f"new-{key}", maxlength=120, autocomplete="off", value=self.said.get(key, ""))
                    heard(box, self._into(self.said, key))
            with tag("div", classes="field"):
                tag("label", "Photos: plate, odometer, what leaks", for_=PHOTOS)
                tag("input", id=PHOTOS, type="file", accept="image/*", capture="environment", multiple=True)
            with tag("div", classes="field"):
                tag("label", "The driver's own words", for_="new-complaint")
                words = tag("textarea", id="new-complaint", maxlength=4000, value=self.said.get("complaint", ""))
                heard(words, self._into(self.said, "complaint"))

    def _set_level(self, level: str) -> None:
        self.level = level
        self._keep()

    def _set_loss(self, loss: str) -> None:
        self.loss = loss
        self._keep()

    def _tick(self, text: str, among: set[str], key: str, *, label: str | None = None, classes: str = "") -> None:
        """A button that stays pressed; what is pressed is kept in that set."""
        button = tag("button", text, f"press {classes}", type="button", aria_label=label,
                     aria_pressed="true" if key in among else "false")  # fmt: skip

        def touched() -> None:
            among.symmetric_difference_update({key})
            button.put("aria_pressed", "true" if key in among else "false")
            button.update()
            self._keep()

        button.on("click", touched)

    async def _open(self) -> None:
        """Open the job, once: a second press sends what the first could not."""
        if self.opened is not None:
            await self._photos(self.opened)
            return
        if not self.like:
            self.wrong.set_text("Touch first what it is most like: the nearest in age, engine and size will do.")
            return
        seen = [
            intake.Seen(
                name=name,
                figures=figures,
                cooled=name in self.cooled,
                gauge=self.read.get(name, ""),
                needle="" if self.read.get(name, "").strip() else self.needle.get(name, ""),
            )
            for name, figures in self.figures.items()
        ]
        told = intake.Intake(
            like=self.like, system=self.system, title=self.said.get("title", ""), level=self.level, loss=self.loss,
            seen=seen, complaint=self.said.get("complaint", ""), replaced=sorted(self.replaced),
            distance=self.said.get("distance", ""), write_up={key: self.said.get(key, "") for key, _ in WHO},
        )  # fmt: skip
        if self.opening:  # a second touch, while the first is at it
            return
        self.opening = True
        try:
            opened = await asyncio.to_thread(job_verbs.open_text, intake.intake_text(told), note="opened")
        except Refusal as refusal:
            self.wrong.set_text(str(refusal))
            return
        finally:
            self.opening = False
        self.opened = opened.job
        ui.run_javascript(f"sessionStorage.removeItem('{PLACE}')")
        await self._photos(opened.job)

    async def _photos(self, job: int) -> None:
        """Send what the camera took, then go on; what was not taken is told first."""
        if self.sending:
            return
        self.sending = True
        sent = f"window.toptank.sendPhotos({json.dumps(PHOTOS)}, '/job/{job}/file', {LARGEST})"
        try:
            wrong = cast("Sequence[str]", await ui.run_javascript(sent, timeout=PATIENCE))
        except TimeoutError:
            wrong = [f"not all have come in {PATIENCE:g} s; they can be added on the page Record"]
        finally:
            self.sending = False
        if wrong:
            self.wrong.set_text(f"Job {job} is open, without these photos: {'; '.join(map(str, wrong))}.")
            with self.wrong:
                link("Go on", f"/job/{job}/causes", "press plain")
            return
        ui.navigate.to(f"/job/{job}/causes")

    def _into(self, place: dict[str, str], key: str) -> Callable[[str], None]:
        def keep(text: str) -> None:
            place[key] = text
            self._keep()

        return keep
