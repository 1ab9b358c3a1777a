"""The pages of every cause and every check, written from their declarations."""

import re
from collections.abc import Iterator, Sequence

import numpy as np
from scipy.special import betaincinv

from toptank.catalogue.causes.all_causes import CAUSES, NOTHING_BROKEN, NOTHING_TO_REPAIR
from toptank.catalogue.causes.cause import ONSETS, Cause
from toptank.catalogue.checks.check import GROUPS, Check, checks
from toptank.catalogue.checks.measure import MEASURES
from toptank.knowledge.sheet import declaration_of, vehicle
from toptank.knowledge.typical import typical_sheet
from toptank.shop.answers.words import naming
from toptank.studies.diagnose.likelihood import RENEWED, SLIGHT, SUSPECTED, WORKED_ON, outcome_chances
from toptank.studies.diagnose.trial.check_policy import USUAL_ORDER
from toptank.units.conversion import System
from toptank.units.dimension import TEMPERATURE, TEMPERATURE_RISE
from toptank.units.display import show

SYSTEM: System = "us"
"""Units whose English the pages are written in."""

LIKELIER_ON = {
    "core_too_small": "an engine that is large for its core; a fifteenth of a square metre of face a litre is usual",
    "fan_clutch_slips": "possible only with a viscous clutch",
    "fan_clutch_late": "possible only with a viscous clutch",
    "fan_clutch_seized": "possible only with a viscous clutch",
    "electric_fan_weak": "possible only with an electric fan",
    "electric_fan_reversed": "possible only with an electric fan",
    "shroud_missing": "a vehicle that is seen to have none",
    "shroud_chokes_ram_air": "possible only with a shroud",
    "fan_switch_dead": "possible only with an electric fan",
    "fan_clutch_wrong": "possible only with a viscous clutch",
    "fan_backwards": "possible only with a fan on the belt",
    "pusher_shades_core": "possible only with an electric fan",
    "condenser_fan_dead": "possible only with air conditioning",
    "divider_leaks": "a core of several passes; less so one that flows across in one, and no other",
    "mixture_lean": "possible only on a petrol engine",
    "vacuum_advance_lost": "possible only on a petrol engine",
    "ignition_early": "possible only on a petrol engine",
    "transmission_heat": "possible only where the coolant cools the fluid of an automatic transmission",
}
"""What the odds of a cause say, in words; a test holds that every cause with odds of its own is here."""

CAUTIONS = """\
> **Before a hand goes in** (common practice, no source). The maker's manual and licensed practice go before this page.
>
> - *Hot coolant under pressure scalds.* Open nothing until a hand can rest on the core; turn the cap to its first stop
>   under a rag. An engine that boils is left to cool; cold water on hot iron cracks it.
> - *An electric fan starts by itself*, with the key off too: unplug it before fingers come near.
> - *Fan blades burst.* A bent, cracked or loose blade is not run; nobody stands in the plane of a turning fan.
> - *Belts and pulleys take sleeves, hair and fingers.* Engine off and key out before a hand goes to them; loose
>   clothes, rings and cables stay away while it runs.
> - *Coolant poisons* people and animals and tastes sweet: keep it closed, mop it up, dispose of it by local rules.
> - *Exhaust gas kills* in a closed bay: run the engine outdoors or under extraction.
> - *A lifted or running vehicle moves*: wheels chocked, brake on, out of gear; stands carry it, never a jack alone.
> - *On the road a second person reads*, not the driver.
"""

STANDS_IN = "pickup-1970s-v8-air"
"""Vehicle on which it is tried which field a cause changes; which one does not matter."""


_USUAL_ORDER = """\
## The usual order

What `toptank evaluate` compares its own choice of checks with: the order in which most shops check, cheap and usual
suspects first (common practice, no source).
"""


def _causes_head(made: str) -> str:
    return f"""\
# Causes

{made}

What `toptank diagnose` looks for: {len(CAUSES)} causes, up to three at once, and
“{naming.cause(NOTHING_BROKEN, SYSTEM)}” ({naming.repair(NOTHING_TO_REPAIR, SYSTEM)}).
Every cause changes the vehicle in the model by a severity from 0 to 1, so that each reading speaks for or against it;
what the model cannot see is told by [checks](checks.md).

{CAUTIONS}
- *share*: how often it is the reason among vehicles that come in hot, before anything is known of this one.
  *Common practice, no source*: the trade tells that it is common or rare, the figure is ours. *Judgement*: all ours.
- *begins*: of those that did not begin right after work on the vehicle.
- *how bad*: the severities between which eight in ten of such vehicles lie.
- *likelier*: {WORKED_ON:g} times where such a part was worked on just before, {SUSPECTED:g} times where the part that
  cures it gave trouble before, {RENEWED:.0%} of it where that part is new (judgement).
- *shown by*: chance that the check shows this where the cause is as bad as it gets, and where no cause shows it.
  The slightest shows with {show_share(SLIGHT)} of that.

| cause | share | repair |
|---|---|---|"""


def _checks_head(made: str) -> str:
    return f"""\
# Checks

{made}

What a mechanic can do to find out: {len(checks())} checks. In a [job file](job-file.md) each goes into a `[[check]]` of
its own with its `name` and its `outcome`, by the ids that stand here or by these words;
`toptank diagnose` names the next one.

{CAUTIONS}
- *chances*: of each outcome where the cause is as bad as it gets. Hits and false alarms are judgement.
- *minutes*: working time; waiting for a cold engine is not counted. Judgement.
- *source*: of the doing and of its traps.
- A cause that is not in a table shows what the first line says.
- Facts of the sheet that are only assumed and would change the answer are offered as checks too: count the fins,
  measure the pulleys. [Fields](fields.md) says how to find each; what was found is written in its section."""


def causes_page(made: str) -> str:
    """Return the page of every cause."""
    lines = [_causes_head(made)]
    total = sum(cause.prior_weight for cause in CAUSES)
    ordered = sorted(CAUSES, key=lambda cause: -cause.prior_weight)
    lines += [
        f"| {_cause_link(cause.id)} | {show_share(cause.prior_weight / total)} | {_repair(cause)} |"
        for cause in ordered
    ]
    for cause in CAUSES:
        lines += [
            "",
            f"## {naming.cause(cause.id, SYSTEM)}",
            "",
            naming.cause_sentence(cause.id, SYSTEM),
            "",
            *_about(cause, total),
            "",
            *_shown_by(cause),
        ]
    return "\n".join(lines) + "\n"


def _about(cause: Cause, total: float) -> list[str]:
    begins = ", ".join(f"{word} {show_share(share)}" for word, share in zip(ONSETS, cause.onset, strict=False))
    low, high = (float(betaincinv(*cause.severity, part)) for part in (0.1, 0.9))
    likelier = [LIKELIER_ON.get(cause.id, ""), "after many miles" if cause.wears else ""]
    likelier.append("after work on " + _worked(cause.begun_by) if cause.begun_by else "")
    return [
        f"- *id*: `{cause.id}`.",
        f"- *repair*: {_repair(cause)}. One of these repairs or replaces it: {_worked(cause.mended_by)}.",
        f"- *share*: {show_share(cause.prior_weight / total)}; {cause.origin}.",
        f"- *size* at its worst: {cause.size}.",
        f"- *begins*, if not after work on it: {begins}.",
        f"- *how bad*: {100 * low:.0f} to {100 * high:.0f} %.",
        f"- *likelier*: {'; '.join(filter(None, likelier)) or 'on no vehicle more than on others'}.",
    ]


def _shown_by(cause: Cause) -> list[str]:
    rows: list[tuple[float, str]] = []
    for check in checks().values():
        if not check.outcomes:
            continue
        bad, sound = chances(check, cause), chances(check, None)
        for outcome, chance, alarm in zip(check.abnormal, bad, sound, strict=False):
            if cause.id in check.shown_by and chance > 1.5 * alarm:
                cells = (_check_link(check, "checks.md"), _seen(check, outcome), show_share(chance), show_share(alarm))
                rows.append((chance / alarm if alarm else np.inf, f"| {' | '.join(cells)} |"))
    rows.sort(key=lambda row: -row[0])
    head = ["| shown by | it shows | if bad | if not there |", "|---|---|---|---|"] if rows else []
    read = [_check_link(check, "checks.md") for check in checks().values() if _figure_moves(check, cause)]
    figures = ["", f"Read as a figure: {', '.join(read)}."] if read else []
    return [*head, *(row for _, row in rows), *figures] or ["No check on the list shows it by itself; readings do."]


def chances(check: Check, cause: Cause | None) -> list[float]:
    """Chance of each outcome of a check where a cause is as bad as it gets, or where none is there [1]."""
    severity = np.array([[float(one is cause) for one in CAUSES]])
    return [float(chance) for chance in outcome_chances(check, CAUSES, severity)[0]]


def _figure_moves(check: Check, cause: Cause) -> bool:
    """Whether a cause changes the figure that a check reads; only where no balance is needed to know it."""
    sound = vehicle(typical_sheet(STANDS_IN))
    bad = cause.effect(sound, 0.9)
    if check.field:
        section, _, key = check.field.partition(".")
        before, after = (getattr(getattr(one, section), key) for one in (sound, bad))
    elif check.measure and not MEASURES[check.measure].at:
        before, after = (MEASURES[check.measure].of(one, {}, 300.0) for one in (sound, bad))
    else:
        return False
    return bool(np.any(np.asarray(before) != np.asarray(after)))


def checks_page(made: str) -> str:
    """Return the page of every check."""
    lines = [_checks_head(made)]
    for group in GROUPS:
        lines += ["", f"## {naming.group(group, SYSTEM)}"]
        for check in checks().values():
            if check.group == group:
                lines += ["", *_check(check)]
    lines += [
        "",
        _USUAL_ORDER,
        *(f"{number}. {link(naming.check(name, SYSTEM).name)}" for number, name in enumerate(USUAL_ORDER, start=1)),
    ]
    return "\n".join(lines) + "\n"


def _check(check: Check) -> Iterator[str]:
    named, hazard = naming.check(check.id, SYSTEM), naming.hazard(check.id, SYSTEM)
    yield f"### {named.name}"
    yield ""
    only = f" · only with: {check.only_on.replace('_', ' ')}" if check.only_on else ""
    yield f"{check.minutes:g} min · tools: {named.tools or 'none'}{only}"
    yield ""
    yield f"- *id*: `{check.id}`"
    yield f"- *do*: {_in_one_line(named.how)}"
    yield f"- *tells*: {_in_one_line(named.tells)}"
    if named.misleads:
        yield f"- *misleads*: {_in_one_line(named.misleads)}"
    if hazard:
        yield f"- **mind**: {_in_one_line(hazard)}"
    yield f"- *source*: {check.source}"
    yield ""
    yield from _outcome_table(check) if check.outcomes else _figure_read(check)


def _outcome_table(check: Check) -> Iterator[str]:
    yield f"| cause | {' | '.join(f'{_seen(check, one)} (`{one}`)' for one in check.outcomes)} |"
    yield "|---" * (1 + len(check.outcomes)) + "|"
    yield f"| none that shows it | {' | '.join(show_share(chance) for chance in chances(check, None))} |"
    shown = [cause for cause in CAUSES if cause.id in check.shown_by]
    for cause in sorted(shown, key=lambda cause: chances(check, cause)[-1]):
        shares = " | ".join(show_share(chance) for chance in chances(check, cause))
        yield f"| {_cause_link(cause.id, 'causes.md')} | {shares} |"


def _figure_read(check: Check) -> Iterator[str]:
    assert check.dimension is not None
    kind = TEMPERATURE_RISE if check.dimension == TEMPERATURE else check.dimension
    us, metric = (show(check.error, kind, system) for system in ("us", "metric"))
    both = us if us == metric else f"{us} = {metric}"
    error = f"{100 * check.error:g} % of it" if check.relative else both
    yield f"A figure is read ({check.dimension.name}), within ± {error} (one standard deviation)."
    moved = [_cause_link(cause.id, "causes.md") for cause in CAUSES if _figure_moves(check, cause)]
    if check.field:
        means = _in_one_line(declaration_of(check.field).means)
        yield f"It is `{check.field}` of the [sheet](fields.md): {means}."
    elif MEASURES[check.measure].at:
        where = " against ".join(duty.value for duty in MEASURES[check.measure].at)
        yield f"What every cause would make of it, the model works out on the vehicle at hand ({where})."
    if moved:
        yield f"Changed by: {', '.join(moved)}."


def _cause_link(id_: str, page: str = "") -> str:
    return link(naming.cause(id_, SYSTEM), page)


def _check_link(check: Check, page: str = "") -> str:
    return link(naming.check(check.id, SYSTEM).name, page)


def _repair(cause: Cause) -> str:
    return naming.repair(cause.repair, SYSTEM)


def _worked(ids: Sequence[str]) -> str:
    return ", ".join(naming.work(one, SYSTEM) for one in ids)


def _seen(check: Check, outcome: str) -> str:
    return naming.check(check.id, SYSTEM).outcomes[outcome]


def link(name: str, page: str = "") -> str:
    """Return a link to the heading of a cause or a check."""
    return f"[{name}]({page}#{anchor(name)})"


def anchor(heading: str) -> str:
    """Return what a heading is called in an address: small letters, hyphens, no other signs."""
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")


def show_share(share: float) -> str:
    """Return a share in percent, with one digit below 10 %."""
    percent = 100.0 * share
    return f"{percent:.0f} %" if percent >= 9.95 else f"{percent:.1f} %".replace(".0 %", " %")


def _in_one_line(text: str) -> str:
    return " ".join(text.split())
