"""The customer's page: plain words, one picture, nothing that only the trade understands."""

from collections.abc import Sequence

from toptank.catalogue.remedies.remedy import Remedy
from toptank.catalogue.words.words import words
from toptank.shop.answers.answers import Chosen
from toptank.shop.answers.summaries.summary import chances_in_ten
from toptank.shop.answers.words import naming
from toptank.shop.answers.words.wording import ASSUMED, degrees, gauge_band, mark, money, sentence
from toptank.shop.order.check_drive import CheckDrive, Expected, cuts_cooling
from toptank.shop.order.gauge_picture import gauge_picture
from toptank.shop.order.record import Customer, PartLine
from toptank.studies.choose.worst_day_forecast import WorstDayForecast
from toptank.studies.diagnose.diagnosis import Diagnosis
from toptank.units.conversion import System
from toptank.units.dialect import spoken

IF_IT_CLIMBS = (
    "If the needle climbs: A/C off, heater and its blower full on, slow down, lower gear.",
    "If it reaches your limit, or you see steam or smell coolant: stop where it is safe, engine off, and wait. Never "
    "open the cap hot: it scalds.",
    "Coolant is poisonous and tastes sweet. Keep children and pets away from puddles, and tell us about every puddle.",
)

ALSO = 0.1
"""By how much a repair must be likelier than the first cause that asks for it to be told [1]; judgement."""

MISFIT = "The new part won't fit without changes, which are not in this price. We will tell you theirs first."


def customer_page(
    chosen: Chosen,
    plan: WorstDayForecast,
    diagnosed: Diagnosis,
    drive: CheckDrive,
    system: System,
    prices: Sequence[str],
    found: str,
    *,
    cost: Sequence[PartLine],
    misfit: bool,
    driven: Sequence[str] = (),
) -> Customer:
    """Return the page.

    Parameters
    ----------
    chosen, plan, diagnosed, drive, system : as for the bench
    prices : what is to be said of the prices
    found : the cause that a mechanic confirmed, or nothing
    cost : parts, work, tax and the sum, as on the bench's page
    misfit : core or fan does not go in without changes
    driven : what the check drive says, once it was driven
    """
    job, hardest = chosen.job, drive.hardest
    now = gauge_band(hardest.before.p10, hardest.before.p90, hardest.boils_before.p50, system)
    then = gauge_band(hardest.after.p10, hardest.after.p90, hardest.boils_after.p50, system)
    done = tuple(_done(remedy, system) for remedy in plan.remedies) or ("Nothing needs to be fitted.",)
    told = (f"“{' '.join(job.complaint.split())}”",) if job.complaint.strip() else ()
    ambient = hardest.duty.facts["ambient"]
    how = mark(ambient).replace(f" {ASSUMED}", ", assumed")
    day = f"{hardest.duty.name}, {degrees(ambient.value, system)} outside{how}"
    off = (f"It counts on the A/C being off on that day's hard parts{_with_it(chosen, plan)}.",)
    sections = (
        *((("What you told us", told),) if told else ()),
        (
            "What we found" if found else "What we think it is",
            (f"We found: {found}.",) if found else _likeliest(diagnosed, system),
        ),
        ("What we will do", (" ".join(done), *_looked_at_first(chosen, found, system))),
        ("What it costs", (_price(cost), *((MISFIT,) if misfit else ()), *prices)),
        (
            "What it will do",
            (
                f"On your hardest day ({day}) the gauge now reads {now}. After the work we expect {then}.",
                f"Chance that the whole of that day stays under {_limit(chosen, system)}"
                f"{_at_stops(plan, job.judged_by, system)} and nothing boils: {chances_in_ten(plan.holds)}. We test it "
                "on the road and write down what the gauge shows.",
                *(off if cuts_cooling(plan) else ()),
            ),
        ),
        *((("The road test", tuple(driven)),) if driven else ()),
        ("What to watch", IF_IT_CLIMBS),
    )
    says = (
        f"The gauge on your hardest day. Striped: now. Dark: after the repair. The bar is the likely range (8 chances "
        f"in 10), the line in it the most likely value. Dashes: {_limit_there(chosen, hardest, system)}. Double line: "
        "there the coolant boils."
    )
    sections = tuple((heading, tuple(spoken(words, system) for words in lines)) for heading, lines in sections)
    return Customer(sections=sections, picture=gauge_picture(hardest, hardest.limit, system), picture_says=says)


def _price(cost: Sequence[PartLine]) -> str:
    """The sum with what is in it, as the totals of the bench have them."""
    *parts, whole = cost
    inside = ", ".join(f"{one.part} {one.price}" for one in parts)
    without = " without tax" if "without tax" in whole.size else ""
    return f"{whole.price}{without}: {inside}. An estimate: we ask you first if it will be more."


def _done(remedy: Remedy, system: System) -> str:
    """What is done, or what the customer does without: the page speaks to him."""
    if remedy.concession:
        return f"You go without {naming.concession((remedy.id,), system)} on the worst day."
    return f"{sentence(naming.remedy(remedy.id, system).name)}."


def _with_it(chosen: Chosen, plan: WorstDayForecast) -> str:
    """The chance to hold with nothing given up; known of the recommended plan alone."""
    if chosen.asking_nothing is None or plan is not chosen.recommended:
        return ""
    return f"; with it on: {chances_in_ten(chosen.asking_nothing.holds)}"


def _looked_at_first(chosen: Chosen, found: str, system: System) -> tuple[str, ...]:
    if found or not chosen.first_check:
        return ()
    first = f"First we check: {naming.check(chosen.first_check, system).name}."
    if chosen.decisive is None:
        return (first,)
    costs = [branch.plan.cost for branch in chosen.decisive.branches if branch.plan is not None]
    ends = " to ".join(money(cost, chosen.book.currency) for cost in dict.fromkeys((min(costs), max(costs))))
    return (f"{first} What it shows may change the work and the price: {ends}. We ask you then.",)


def _limit_there(chosen: Chosen, there: Expected, system: System) -> str:
    """The limit of one duty, in words."""
    if there.limit == chosen.job.judged_by:
        return _limit(chosen, system).rstrip(",")
    return f"{degrees(there.limit, system)}, which it may reach at a short stop"


def _at_stops(plan: WorstDayForecast, limit: float, system: System) -> str:
    """What it may reach at the short stops of the worst day, where there are any."""
    highest = max(one.limit for one in plan.duties)
    return f" (at a short stop {degrees(highest, system)})" if highest > limit else ""


def _limit(chosen: Chosen, system: System) -> str:
    figure = degrees(chosen.job.judged_by, system)
    if chosen.job.judged_by < chosen.job.limit:
        return f"{figure}, well below where it ran hot,"
    return f"your limit of {figure}" if chosen.job.limit_said else f"{figure} {ASSUMED}, as you named no limit,"


def _likeliest(diagnosed: Diagnosis, system: System) -> tuple[str, ...]:
    """The likeliest cause in words that need no trade, or how likely the work is needed that others ask for too."""
    first = diagnosed.suspects[0]
    named = words(system).cause[first.cause]
    same = next((share for repair, share in diagnosed.repairs if repair == first.repair), first.probability)
    surely = f"That is the most likely cause: {chances_in_ten(first.probability)}."
    if same >= first.probability + ALSO:
        surely = f"That, or something that the same work puts right, is the most likely cause: {chances_in_ten(same)}."
    proof = "It is not proved yet" + (", so we check before we buy parts." if diagnosed.first_check else ".")
    return (f"{named.customer or named.sentence} {surely} {proof}",)
