"""The page of every remedy, the keys of bay and offers, and the page of the price book, from their declarations."""

import functools
from collections.abc import Iterator, Mapping
from dataclasses import replace
from importlib import resources
from typing import Any

import numpy as np
from docs_of_diagnosis import CAUTIONS, STANDS_IN, SYSTEM, anchor

from toptank.catalogue.causes.all_causes import CAUSES, with_causes, without
from toptank.catalogue.remedies.air import REMEDIES_OF_AIR
from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.catalogue.remedies.coolant import REMEDIES_OF_COOLANT
from toptank.catalogue.remedies.core import REMEDIES_OF_CORE
from toptank.catalogue.remedies.heat import REMEDIES_OF_HEAT
from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.sheet import sections, vehicle
from toptank.knowledge.typical import typical_names, typical_sheet
from toptank.shop.answers.words import naming
from toptank.shop.job.price_book import FORMAT, GONE_WITHOUT, HIGHEST, LOST_DAY, built_in
from toptank.studies.choose.decision import HOPELESS, WORTH_A_CHECK
from toptank.studies.choose.fit.candidate import REMEDY_MEASURES
from toptank.studies.choose.fit.measures import bay_fields, offer_fields
from toptank.studies.choose.plans import AT_ONCE, LIKELY, MATTERS, MOST_PLANS
from toptank.system.vehicle import Vehicle
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, YES_NO
from toptank.units.display import show

CHAPTERS = (
    ("The air's side", REMEDIES_OF_AIR),
    ("The core", REMEDIES_OF_CORE),
    ("The coolant's side", REMEDIES_OF_COOLANT),
    ("Less heat", REMEDIES_OF_HEAT),
)

WORK = """\
> **With these remedies** (common practice, no source):
>
> - *Acid cleaners burn* skin, eyes and aluminium: gloves and goggles, neutralise, never mix two of them.
> - *Solder and old paint give off lead*: ventilate, wash hands, keep food away.
> - *Refrigerant is under pressure and freezes skin*: its lines are opened by licensed practice only.
> - *Gearing, brakes and exhaust* belong to licensed practice where the law says so.
"""


RULE = f"""\
**Which one is taken.** The one that costs least on the whole: its price, *plus* the chance that it does not hold times
the price of a lost day (`lost_day` of the [price book](prices.md)), *plus* the price of what it asks the customer to go
without (`gone_without`, the air conditioning on the worst day), *plus*, for each fault that may be there and that
it leaves, the chance of that times the price of repairing it later. A fixed line, such as "the cheapest that holds in
80 of 100", would leave a plan at 79 and take it at 81, though both are worth the same; it would let a large radiator
hide a clutch that is broken as likely as not. Here every chance counts for what it is worth. What fails more often than
it holds (under {HOPELESS:.0%}) is no plan. A repair needed in {LIKELY:.0%} or more is tried in every combination;
where the plan leaves it, the answer says so.

**Which check comes first.** Each check that can still be made splits the simulations by what it would show.
Where the best plan depends on that, the average saving, less its own time, is what the check is worth; half of the
vehicles choose the plans and the other half value them, so that chance alone is worth nothing. A check must save at
least {WORTH_A_CHECK:.1%} of a lost day; of several, the one that saves most for a minute is told, with the plan for
whatever it shows.

**What is asked of the customer.** Leaving the air conditioning off costs next to nothing and would beat every plan that
leaves it on. So it pushes none of those off the list, it has a price of its own, and where the plan that is taken asks
for it, the answer says how often the same work holds with it on.
"""


def remedies_page(made: str) -> str:
    """Return the page of every remedy."""
    lines = [
        "# Remedies",
        "",
        made,
        "",
        "What `toptank choose JOB.toml` weighs on the worst day. Each is tried in simulations that agree with",
        f"what is known, alone and up to {AT_ONCE} together, {MOST_PLANS} plans at most. Plans that another beats in",
        f"price and in chance are left out, and so is what cools this vehicle by less than {MATTERS:g} °C.",
        "",
        RULE,
        "",
        CAUTIONS,
        WORK,
        "- *cures*: causes that it takes away: the vehicle is worked out anew without them. *Makes up for*: causes",
        "  that stay, but no longer matter. Every other cause stays as it is; a test over all pairs holds that.",
        "- *changes*: fields of the [sheet](fields.md) that it changes on a vehicle that needs it; by how much is",
        "  judgement.",
        "- *minutes*: working time, judgement. *cost*: parts and minutes at the invented figures of the built-in",
        "  [price book](prices.md).",
        "- *excludes*: of one group one is done.",
        "- *forces*: work that goes with it; its parts and minutes are counted once.",
        "",
        "| remedy | minutes | cost | forces |",
        "|---|---|---|---|",
    ]
    lines += [_row(remedy) for _, remedies in CHAPTERS for remedy in remedies]
    for chapter, remedies in CHAPTERS:
        lines += ["", f"## {chapter}"]
        for remedy in remedies:
            lines += ["", *_remedy(remedy)]
    return "\n".join(lines) + "\n"


def _row(remedy: Remedy) -> str:
    book = built_in()
    forces = ", ".join(_link(name) for name in remedy.forces)
    return f"| {_link(remedy.id)} | {remedy.minutes:g} | {book.currency}{book.cost((remedy,)):,.0f} | {forces} |"


def _link(id_: str) -> str:
    name = naming.remedy(id_, SYSTEM).name
    return f"[{name}](#{anchor(name)})"


def _remedy(remedy: Remedy) -> Iterator[str]:
    others = [other.id for other in REMEDIES if other.group == remedy.group and other is not remedy]
    named = naming.remedy(remedy.id, SYSTEM)
    yield f"### {named.name}"
    yield ""
    yield named.note
    yield ""
    yield f"- *id*: `{remedy.id}`"
    yield f"- *limits*: {named.limits}"
    yield f"- *parts*: {', '.join(naming.part(one, SYSTEM) for one in remedy.parts)} · *minutes*: {remedy.minutes:g}"
    if remedy.forces:
        yield f"- *forces*: {', '.join(_link(name) for name in remedy.forces)}."
    if others:
        yield f"- *excludes*: {', '.join(_link(name) for name in others)}."
    cannot = [name for name in typical_names() if not _can_be_done(remedy, name)]
    for word, causes in (("cures", remedy.cures), ("makes up for", remedy.makes_up_for)):
        if causes:
            yield f"- *{word}*: {naming.causes(causes, SYSTEM)}."
    if cannot:
        yield f"- *not on* a vehicle such as: {', '.join(f'`{name}`' for name in cannot)}."
    told = " ".join((remedy.effect.__doc__ or "").split())
    fields = ", ".join(f"[`{path}`](fields.md#{path.partition('.')[0]})" for path in changed_by(remedy))
    yield f"- *changes*: {fields}." + (f" {told}" if told else "")
    if remedy.id in REMEDY_MEASURES:
        yield f"- *for the fit*: {_brought(remedy.id)}; typical trade figures, measure the actual part."
    yield f"- *size*: {remedy.size}."
    yield f"- *source*: {remedy.source}."


def _can_be_done(remedy: Remedy, like: str) -> bool:
    return float(np.asarray(remedy.fits(_sound(like)), float)) > 0.5


@functools.cache
def _sound(like: str) -> Vehicle:
    return vehicle(typical_sheet(like))


EVERYTHING_WRONG = np.array([[0.4 + 0.2 * (place % 2) for place in range(len(CAUSES))]])
"""Severities of a vehicle on which every remedy finds something to mend; not all to the same degree, or what works both
ways would look sound."""


def changed_by(remedy: Remedy) -> list[str]:
    """Fields that a remedy changes on a worn vehicle that it can be done to."""
    like = next(name for name in (STANDS_IN, *typical_names()) if _can_be_done(remedy, name))
    sound = _sound(like)
    low = replace(sound, fill=replace(sound.fill, air=0.1))  # so its sheet tells: that is topped up
    before = with_causes(low, EVERYTHING_WRONG)
    left = with_causes(low, without(EVERYTHING_WRONG, frozenset(remedy.cures)))
    after = remedy.effect(left, low)

    def value(one: Vehicle, section: str, key: str) -> Any:
        return np.asarray(getattr(getattr(one, section), key), float)

    return [
        f"{section}.{key}"
        for section, keys in sections().items()
        for key in keys
        if np.any(value(before, section, key) != value(after, section, key))
    ]


def _brought(name: str) -> str:
    told: list[str] = []
    for key, fact in REMEDY_MEASURES[name].items():
        declaration = offer_fields()[key]
        told.append(f"{declaration.means}: {_both(fact.value, declaration)} ± {_both(fact.spread, declaration)}")
    return "; ".join(told)


def keys_of_bay() -> str:
    """Return the table of the keys of [fit]."""
    return _keys(bay_fields())


def keys_of_offer() -> str:
    """Return the table of the keys of [[offer]]."""
    return _keys(offer_fields())


def _keys(fields: Mapping[str, Declaration]) -> str:
    rows = ["| key | what it is | possible | usual | how to find it |", "|---|---|---|---|---|"]
    for key, declaration in fields.items():
        cells = (f"`{key}`", declaration.means, *_limits(declaration), declaration.measure)
        rows.append("| " + " | ".join(" ".join(cell.split()).replace("|", "\\|") for cell in cells) + " |")
    return "\n".join(rows)


def _limits(declaration: Declaration) -> tuple[str, str]:
    if declaration.dimension in (CHOICE, YES_NO):
        return " / ".join(declaration.choices), ""
    possible, usual = (
        " = ".join(
            dict.fromkeys(
                " to ".join(show(limit, declaration.dimension, system) for limit in pair) for system in ("us", "metric")
            )
        )
        for pair in (declaration.hard, declaration.plausible)
    )
    return possible, usual


def _both(value: float, declaration: Declaration) -> str:
    return " = ".join(dict.fromkeys(show(value, declaration.dimension, system) for system in ("us", "metric")))


def prices_page(made: str) -> str:
    """Return the page of the price book."""
    written = resources.files("toptank.shop.job").joinpath("price_book.toml").read_text(encoding="utf-8").rstrip()
    book = built_in()
    users = {
        part: [naming.remedy(remedy.id, SYSTEM).name for remedy in REMEDIES if part in remedy.parts]
        for part in book.parts
    }
    lines = [
        "# Price book",
        "",
        made,
        "",
        "What parts and an hour cost the customer: `toptank choose`, `order` and `prices` read it with",
        "`--prices FILE`. Its JSON schema is [schema/prices.json](schema/prices.json). The figures of the built-in one",
        "are invented: copy it and put your own in.",
        "",
        "| key | |",
        "|---|---|",
        f'| `format` | required: `"{FORMAT}"` |',
        '| `currency` | a sign or a short word, at most 4 letters; `"$"` if not said |',
        f"| `labour` | required: an hour of work, 0 to {HIGHEST:,.0f} |",
        "| `lost_day` | a [worst day that is not held](remedies.md): tow, day, second visit, risk to a head gasket; "
        f"{LOST_DAY:,.0f} if not said |",
        "| `gone_without` | the customer goes without the air conditioning on the worst day; "
        f"{GONE_WITHOUT:,.0f} if not said |",
        f"| `[parts]` | part and price, 0 to {HIGHEST:,.0f}; parts left out keep the built-in price |",
        "",
        "Prices are bare figures. An unknown part is refused, with the nearest known one.",
        "",
        "## Parts",
        "",
        "| part | bought for |",
        "|---|---|",
    ]
    lines += [
        f"| `{part}` | {', '.join(f'[{name}](remedies.md#{anchor(name)})' for name in names)} |"
        for part, names in users.items()
    ]
    return "\n".join([*lines, "", "## The built-in one", "", "```toml", written, "```"]) + "\n"
