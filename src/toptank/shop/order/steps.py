"""The steps of the work in order, each with a box to tick, from cooling down to the check drive.

Times of remedies are those of the price; times of the rest are common practice, no source, and stand outside it.
"""

from collections.abc import Mapping, Sequence

from toptank.catalogue.remedies.coolant import FIND_THE_LEAK
from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.sheet import Fact, Provenance, declaration_of
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.wording import chance, quantity, sentence, time
from toptank.shop.order.coolant_work import CoolantWork, layout_words
from toptank.shop.order.fit_lines import FitTold, asks_for_fit
from toptank.shop.order.record import Step
from toptank.studies.choose.decision import Branch, Decisive
from toptank.studies.diagnose.asking.next_check import Suggestion
from toptank.studies.diagnose.evidence import Evidence
from toptank.units.conversion import System

COOLING, FLUSHING, LEAK_TEST, FLUID_CHECK, DRIVING = 60.0, 30.0, 15.0, 10.0, 45.0
"""Times outside the price [min]; common practice, no source."""

OUTSIDE_THE_PRICE = "{}*"
FOOTNOTE = "* common practice, no source; not in the price"

NO_PRESSURE = 3447.4
"""Gauge pressure of a cap below which a system is open [Pa]: half a psi."""

COMPARED = "Take out the old radiator; compare ports, depth, holes."
"""What is compared with a new core; that any other part is held beside the old one goes without saying."""

FIND_THE_LEAK_FIRST = "It was low: find out where it went before it is filled, or it will be low again."
LOW = frozenset(
    ("found_low", "uses_coolant", "puddle", "loses_without_leak", "empty_before_hot", "lost_coolant_suddenly")
)
GONE = frozenset((("level_cold", "low"), ("coolant_loss", "drips"), ("coolant_loss", "unseen")))
"""What says that coolant goes somewhere: symptoms that were told, outcomes of checks."""

THIS_PLAN = "this plan"

SURELY = 0.999
ANYTHING_ELSE = "Anything else: stop, write it into the job, ask again."
"""What is done where a check shows what was too unlikely to be planned for."""

NO_PLAN = "no plan on the list holds: ask less of it"
"""What is done where a check leaves no plan that holds."""


def steps(
    remedies: Sequence[Remedy],
    work: CoolantWork,
    check: Suggestion | Decisive | None,
    facts: Mapping[str, Fact],
    fit: FitTold | None,
    system: System,
    *,
    was_low: bool = False,
) -> tuple[Step, ...]:
    """Return every step; where coolant was low, the leak is looked for whatever else is done."""
    opened = work.drained or work.topped_up
    found: list[Step] = []
    if check is not None:
        found.append(_looked_at_first(check, remedies, system))
    found.append(Step(words="Cool down, key out.", time=_about(COOLING)))
    if was_low and FIND_THE_LEAK not in {one.id for one in remedies}:
        boxes = (_leak_test(facts, system),)
        found.append(Step(words=FIND_THE_LEAK_FIRST, time=_about(LEAK_TEST), boxes=boxes))
    if opened:
        found.append(Step(words=work.drain))
    if work.flush:
        found.append(Step(words=work.flush, time=_about(FLUSHING)))
    asking = asks_for_fit(remedies)
    found += [_work(one, fit if one is asking else None, system) for one in remedies if one.group != "coolant"]
    if opened:
        filling = next((time(remedy.minutes) for remedy in remedies if remedy.group == "coolant"), "")
        found.append(Step(words=work.fill, time=filling, boxes=work.bleed, notes=(layout_words(work),)))
        found.append(Step(words=_leak_test(facts, system), time=_about(LEAK_TEST)))
    fluid = fluid_check(remedies, facts)
    if fluid:
        found.append(Step(words=fluid, time=_about(FLUID_CHECK)))
    drive = "Road test: fill in the table below."
    found.append(Step(words=drive, time=_about(DRIVING)))
    found += [Step(words=words) for words in work.afterwards]
    return tuple(found)


def coolant_went(evidence: Evidence) -> bool:
    """Whether the job says that coolant was low, or goes somewhere."""
    told = {one.symptom for one in evidence.symptoms if not one.denied}
    return bool(told & LOW) or any((one.check, one.outcome) in GONE for one in evidence.findings)


def _leak_test(facts: Mapping[str, Fact], system: System) -> str:
    """Pump no higher than the cap holds; a system without pressure is only looked at."""
    pressure = quantity(facts["cap.pressure"].value, declaration_of("cap.pressure"), system)
    looked_at = "look at joints, core, heater, floor."
    if facts["cap.pressure"].value < NO_PRESSURE:
        held = f"nothing is pumped, as the cap holds no pressure ({pressure})"
        return f"Leak test: {held}. Full and cold, wait 10 minutes; {looked_at}"
    if facts["cap.pressure"].how == Provenance.ASSUMED:
        first = f"read the stamp of the cap first, {pressure} is only what such a vehicle has; pump to the stamp"
        return f"Leak test, cold: {first}, no higher; hold it 10 minutes; {looked_at}"
    return f"Leak test, cold: pump to the cap's {pressure}, no higher, for 10 minutes; {looked_at}"


def _leads_to(branch: Branch, remedies: Sequence[Remedy], system: System) -> str:
    if branch.plan is None:
        return NO_PLAN
    same = {one.id for one in remedies} == set(branch.plan.ids)
    return THIS_PLAN if same else naming.plan(branch.plan.ids, system)


def _looked_at_first(check: Suggestion | Decisive, remedies: Sequence[Remedy], system: System) -> Step:
    """The check before parts are bought; where the plan depends on it, each plan that it leads to."""
    named = naming.check(check.check, system)
    notes = (named.how,)
    if isinstance(check, Decisive):
        branches = tuple(
            f"{sentence(naming.branch(check, branch, system))} ({chance(branch.chance)}): "
            f"{_leads_to(branch, remedies, system)}."
            for branch in check.branches
        )
        if sum(branch.chance for branch in check.branches) < SURELY:
            branches += (ANYTHING_ELSE,)
        words = f"Before buying parts: {named.name}. It decides:"
        return Step(words=words, time=_about(check.minutes), told=branches, notes=notes)
    words = f"Before buying parts: {named.name}. It tells most of what broke: write into the job what it shows."
    return Step(words=words, time=_about(check.minutes), notes=notes)


def fluid_check(remedies: Sequence[Remedy], facts: Mapping[str, Fact]) -> str:
    """Words for the transmission's fluid where cooler lines are or may be opened, otherwise empty."""
    groups = {remedy.group for remedy in remedies}
    place = facts["transmission_cooler.place"]
    in_the_tank = declaration_of("transmission_cooler.place").choices[round(place.value)] == "in the tank"
    if facts["drivetrain.kind"].value < 0.5 and facts["drivetrain.kind"].how != Provenance.ASSUMED:
        return ""
    check = "transmission fluid; milky means coolant in it"
    if "transmission cooler" in groups or ("core" in groups and in_the_tank and place.how != Provenance.ASSUMED):
        return f"Cooler lines were opened: check the {check}."
    return f"If cooler lines were opened: check the {check}." if "core" in groups else ""


def _work(remedy: Remedy, fit: FitTold | None, system: System) -> Step:
    boxes: list[str] = []
    if remedy.group == "core":
        boxes.append(COMPARED)
    unchecked = "Fit not checked on paper: measure depth, saddles, ports, fan before it is bought."
    told, more, to_do = ((), (), ()) if fit is None else (fit.lines, fit.more, fit.to_do)
    asked = bool(told or to_do)
    boxes += to_do if asked else ((unchecked,) if remedy.group == "core" else ())
    # Where the fit was asked, its answer says more than the limits, which speak of any vehicle.
    named = naming.remedy(remedy.id, system)
    note = named.note if remedy.group == "core" and asked else f"{named.note} {named.limits}"
    words, minutes = f"{sentence(named.name)}.", time(remedy.minutes)
    return Step(words=words, time=minutes, told=told, boxes=tuple(boxes), notes=(*more, note.strip()))


def _about(minutes: float) -> str:
    return OUTSIDE_THE_PRICE.format(time(minutes))
