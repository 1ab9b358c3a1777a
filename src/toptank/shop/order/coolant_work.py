"""Coolant on the paper: what comes out, what goes in, where the new mix freezes, and how to fill and bleed.

Source   volumes: toptank.studies.choose.coolant.mix; families, bleeding: their files, common practice, no source
Range    half and half, the fill of every plan that drains the system
Scatter  what drains: 10 % of the system and more, so it is measured
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from toptank.catalogue.remedies.coolant import DRAIN, TOP_UP
from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.sheet import Fact, declaration_of
from toptank.media.coolant import freeze_point
from toptank.shop.answers.words.fill_words import after_a_flush, fill_words
from toptank.shop.answers.words.wording import ASSUMED, degrees, mark, sentence, shop_volume, told, volume
from toptank.studies.choose.coolant import bleeding, coolant_families, expansion, mix
from toptank.studies.choose.coolant.cap_choice import ASKED_BY_SYSTEM
from toptank.units.conversion import System
from toptank.units.dialect import spoken

WANTED = 0.5
"""Share of concentrate of the fill that remedies reckon with [1]."""

DRAINS = "cock and block drains"
IN_OTHER_STEPS = ("Engine cold:", "Concentrate first,")
"""Beginnings of steps of the bleeding that the paper holds in a step of its own: cooling down, and what goes in."""

COLD = 293.15
"""Temperature of a cold fill [K]."""

NOTHING_DRAINED = ("Nothing is drained. Check the level cold, in the radiator and not only in the bottle.",)

FAMILY = "IAT"
"""The old kind, which suits copper, brass and solder; taken until the record or the manual names another."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CoolantWork:
    """Whether the system is drained or only topped up, what it takes, and what is done about it.

    `recipe` is for the bench, `lines` are all quantities with what they rest on.
    """

    drained: bool
    topped_up: bool
    recipe: tuple[str, ...]
    lines: tuple[str, ...]
    drain: str
    flush: str
    fill: str
    bleed: tuple[str, ...]
    afterwards: tuple[str, ...]
    cautions: tuple[str, ...]
    layout: str


def coolant_work(remedies: Sequence[Remedy], facts: Mapping[str, Fact], T_hot: float, system: System) -> CoolantWork:
    """Return the coolant's part of a plan.

    Parameters
    ----------
    remedies : the plan
    facts : the sheet
    T_hot : hottest coolant to expect after the work [K]
    system : units of the words
    """
    drained = any(remedy.id == DRAIN for remedy in remedies)
    topped_up = any(remedy.id == TOP_UP for remedy in remedies)
    layout = layout_of(facts)
    bled = bleeding.bleeding(layout)
    ending = _shared_ending()
    drain, flush, fill, lines = _quantities(facts, T_hot, system) if drained else ("", "", "", ())
    recipe = _recipe(facts, system) if drained else ()
    if topped_up:
        drain = "Let down the coolant below the work into a clean pan and measure it; clean coolant may go back."
        strength = _told("fill.concentrate", facts, system)
        fill = f"Fill and bleed: top up with the same family, at the strength that is in: {strength}."
        recipe = lines = ("Only what the work lets out: measure it, put the same volume back.",)
    return CoolantWork(
        drained=drained,
        topped_up=topped_up,
        recipe=recipe or NOTHING_DRAINED,
        lines=lines or NOTHING_DRAINED,
        drain=drain,
        flush=flush,
        fill=fill,
        bleed=tuple(
            spoken(words, system)
            for words in bled.steps[: len(bled.steps) - len(ending)]
            if not words.startswith(IN_OTHER_STEPS)
        ),
        afterwards=tuple(spoken(words, system) for words in ending),
        cautions=_own_cautions(bled),
        layout=layout,
    )


def layout_of(facts: Mapping[str, Fact]) -> str:
    """Layout of the system as far as the sheet tells it: by the way the coolant runs through the core."""
    return "crossflow" if facts["core.arrangement"].value > 0.5 else "downflow, neck highest"


def _own_cautions(bled: bleeding.Bleeding) -> tuple[str, ...]:
    """What hurts in this layout and not in every one."""
    return tuple(words for words in bled.cautions if any(words not in one.cautions for one in bleeding.layouts()))


def _shared_ending() -> tuple[str, ...]:
    """The steps that end the bleeding of every layout: they belong behind the drive."""
    backwards = zip(*(reversed(one.steps) for one in bleeding.layouts()), strict=False)
    ending: list[str] = []
    for steps in backwards:
        if len(set(steps)) > 1:
            break
        ending.append(steps[0])
    return tuple(reversed(ending))


def _quantities(facts: Mapping[str, Fact], T_hot: float, system: System) -> tuple[str, str, str, tuple[str, ...]]:
    """Words for draining, flushing and filling, and all quantities."""
    capacity, now, glycol = (facts[f"fill.{key}"] for key in ("capacity", "concentrate", "glycol"))
    drains = mix.DRAINED_BY[DRAINS]
    fresh = after_a_flush(capacity.value, drains, WANTED)
    kept = mix.refill(capacity.value, drains, now.value, WANTED)
    met = coolant_families.compatibility(coolant_families.UNKNOWN, FAMILY, soldered=True, sealed=False)
    grown = expansion.growth(COLD, T_hot, WANTED, glycol.value) * capacity.value
    frozen, strength = float(freeze_point(WANTED, glycol.value)), _told("fill.concentrate", facts, system)
    whole = f"{volume(capacity.value, system)}{mark(capacity)}"
    lines = (
        f"Whole system {whole}; {DRAINS} let out about {volume(fresh.drained, system)} ({100 * drains:.0f} %, "
        f"{ASSUMED[1:-1]}: measure what comes out).",
        f"After a flush with water: {volume(fresh.concentrate, system)} of concentrate first, then about "
        f"{volume(fresh.water, system)} of distilled or deionized water{mark(capacity)}: 50 %. Half and half premix "
        "cannot reach it.",
        f"Without a flush, only if the record names the same family: {volume(kept.concentrate, system)} of "
        f"concentrate, {volume(kept.water, system)} of water{mark(capacity)}, with {strength} in it now.",
        f"Glycol: {_told('fill.glycol', facts, system)}; at 50 % of concentrate it freezes at "
        f"{degrees(frozen, system)}; from cold to hot it grows by {volume(grown, system)}{mark(capacity)}.",
        f"Flushed, as {met.reason.partition(':')[0]}. Family: {FAMILY} {ASSUMED}; {coolant_families.IDENTIFY}.",
        f"A new core may hold another volume: {_asked(facts)}.",
    )
    drain = "Drain at the cock and the block into a clean pan."
    flush = "Flush with water until it runs clear."
    fill = f"Fill and bleed: {fill_words(fresh, capacity.value, system)}{mark(capacity)}."
    return drain, flush, fill, lines


def _recipe(facts: Mapping[str, Fact], system: System) -> tuple[str, ...]:
    """What comes out and what goes in, as it is measured out at the bench."""
    capacity, glycol = facts["fill.capacity"], facts["fill.glycol"]
    fresh = after_a_flush(capacity.value, mix.DRAINED_BY[DRAINS], WANTED)
    whole, out = shop_volume(capacity.value, system), shop_volume(fresh.drained, system)
    frozen = degrees(float(freeze_point(WANTED, glycol.value)), system)
    return (
        f"Out: about {out} of {whole}{mark(capacity)}; measure it.",
        f"In, after a flush: {fill_words(fresh, capacity.value, system, 'distilled water')}, freezes at {frozen}.",
        f"Family {FAMILY} {ASSUMED}: go by the label, not by the color.",
    )


def _asked(facts: Mapping[str, Fact]) -> str:
    """What the kind of the system asks of the level, and how well that kind is known."""
    kinds = declaration_of("cap.system").choices
    kind = kinds[round(facts["cap.system"].value)]
    return f"{ASKED_BY_SYSTEM[kind][-1]}; system: {kind}{mark(facts['cap.system'])}"


def _told(path: str, facts: Mapping[str, Fact], system: System) -> str:
    return told(path, facts, declaration_of(path), system)


def layout_words(work: CoolantWork) -> str:
    """Say which layout the bleeding is for, and that it was taken from the core alone."""
    return f"{sentence(work.layout)} {ASSUMED}: rear engine, remote tank or a heater above the neck bleed otherwise."
