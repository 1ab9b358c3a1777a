"""One complaint in three wordings leads to the same causes: read from the words alone, with nothing confirmed by hand.

The shares here come from the words and from how often causes occur; no temperature, no vehicle.
"""

import numpy as np
import pytest

from toptank.catalogue.causes.all_causes import CAUSE_IDS, CAUSES
from toptank.catalogue.causes.told_cases import prior_weights
from toptank.catalogue.symptoms.symptom import symptoms
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.evidence import Evidence, History, Told
from toptank.studies.diagnose.symptom_likelihood import told_lines
from toptank.studies.listen.ticks import ticks

WITHIN = 0.15
"""Points by which the share of the leading cause may differ between two wordings [1]."""

TOLD = {
    "coolant_low": (
        "Low on coolant again, have to top it up every week. Heater blows cold and it gurgles behind the dash.",
        "I keep having to add water to it every week and the level is always down. No heat from the heater, gurgling "
        "noises under the dashboard.",
        "Uses about a quart of antifreeze a week, found it low again. The heater has gone cold, and I hear water "
        "sloshing behind the dash.",
    ),
    "hose_off": (
        "The top hose burst on the motorway and it lost all its water. Steam everywhere.",
        "Lost all its coolant at once when a radiator hose split, with big clouds of steam.",
        "Upper rad hose blew off on the freeway, dumped all the coolant, steam pouring out of the hood.",
    ),
    "belt_slips": (
        "The charge lamp came on, the belt squeals, and then it boiled suddenly.",
        "Battery light came on, fan belt was screeching, all of a sudden it overheated.",
        "Suddenly overheated: alternator light on and the belt squeaking.",
    ),
    "head_gasket_leaks": (
        "Bubbles in the radiator, white smoke from the exhaust, loses water and nobody finds a leak.",
        "White smoke out the tailpipe, bubbles keep coming up in the filler neck, uses coolant but there is no leak.",
        "It's losing coolant with no sign of a leak, blows white smoke from the back and it bubbles in the neck.",
    ),
    "electric_fan_weak": (
        "The electric fan never comes on. The air conditioning goes warm at idle.",
        "Radiator fan doesn't run at all, and the AC blows warm when stopped at lights.",
        "I never hear the fans come on any more, A/C quits blowing cold when sitting in traffic.",
    ),
    "fan_clutch_slips": (
        "You can spin the fan by hand when it's hot, and it is never heard to roar any more.",
        "Fan clutch spins freely with the engine hot. Used to hear the fan roar, now nothing.",
        "The viscous coupling is loose, the fan turns easily by hand hot, haven't heard it roar in ages.",
    ),
    "gauge_reads_high": (
        "The needle jumps when I turn the headlights on and it reads hot as soon as the key is turned.",
        "Temp gauge pegs hot the second I turn the key, and it moves with the headlights.",
        "Gauge shows hot at key on with a cold engine; switch the headlights on and it jumps.",
    ),
    "lower_hose_collapses": (
        "The bottom hose sucks flat when it is revved.",
        "Lower radiator hose collapses at high rpm.",
        "When you rev it the lower hose goes flat.",
    ),
    "fins_blocked": (
        "Used for mowing; the radiator is packed with grass seeds and chaff.",
        "The core is full of chaff and grass, it works in hay all day.",
        "Radiator fins caked with chaff and seeds from baling hay.",
    ),
}  # fmt: skip


OF_A_CLUTCH_FAN, OF_AN_ELECTRIC_FAN = "viscous_clutch", "electric_fan"


def _shares(text: str, *, electric: bool) -> Floats:
    """Shares of single causes, and of none, from the words of a text; what the other kind of fan does is not asked."""
    other = OF_A_CLUTCH_FAN if electric else OF_AN_ELECTRIC_FAN
    found = [one for one in ticks(text) if symptoms()[one.symptom].only_on != other]
    told = tuple(Told(symptom=one.symptom, denied=one.denied) for one in found)
    evidence = Evidence(readings=(), findings=(), changes=(), history=History(), symptoms=told)
    present = np.eye(len(CAUSES) + 1, len(CAUSES), dtype=bool)
    before = np.append(np.array(prior_weights()), 0.1)
    weight = before * np.exp(told_lines(evidence, CAUSES, present).sum(axis=0))
    return np.asarray(weight / weight.sum(), float)


@pytest.mark.parametrize("cause", TOLD)
def test_three_wordings_lead_to_the_same_cause_by_shares_that_are_near(cause: str) -> None:
    shares = [_shares(text, electric=cause.startswith("electric_fan")) for text in TOLD[cause]]
    place = CAUSE_IDS.index(cause)
    assert [CAUSE_IDS[int(np.argmax(one))] for one in shares] == [cause] * len(shares)
    leading = [one[place] for one in shares]
    assert max(leading) - min(leading) <= WITHIN, leading
