"""What can hurt in this very job, and what goes before the paper. Common practice, no source, unless a line says so."""

from collections.abc import Mapping, Sequence

from toptank.catalogue.remedies.remedy import Remedy
from toptank.knowledge.sheet import Fact
from toptank.units.conversion import System
from toptank.units.dialect import spoken

HOT = "Never open a hot system: hand on the core first."
ROTATING = "Engine running: hands and sleeves off fan and belts."
ELECTRIC_FAN = "An electric fan can start by itself: unplug it."
POISON = "Coolant is poisonous to people and pets: catch all of it."
BLEEDING = "Cap off, engine running: it can surge. Stand aside."
METAL = "No cold water into a hot engine: metal cracks."
EXHAUST = "Run it outside, or with the exhaust hose on."
LIFTING = "Axle stands and chocked wheels, never a jack alone."
HEAVY = "Fins cut and a radiator is heavy: gloves."
ACID = "Acid cleaners burn skin and eyes and eat aluminum: gloves, goggles, neutralize, never mix."
SOLDER = "Old solder is lead: wash hands, no eating at the bench."
BATTERY = "Battery off before wiring; a fuse in every wire."
FUEL = "No flame or spark near fuel; a timing light's lead keeps clear of the fan."
REFRIGERANT = "Leave the A/C lines closed: that is licensed work."
OIL = "Transmission fluid burns when hot: let it cool, wipe up what runs out."
DEFER = "The service manual and local codes go before this paper."

ACID_CLEANED = ("rod_core", "flush_block")
"""Remedies for which somebody reaches for an acid."""

SOLDERED = ("rod_core", "recore_as_it_was", "recore_3_row", "recore_4_row", "recore_two_pass", "recore_three_pass")
"""Remedies at which old solder is worked on."""

WIRED = ("two_electric_fans", "repair_electric_fan", "repair_gauge")

_RAISED = "A vehicle raised"
"""Beginning of a caution of some layouts that `LIFTING` says too."""

_UNDER_IT = ("core", "hose", "hose layout", "exhaust", "brakes", "transmission cooler", "gearing", "coolant", "block")
_BESIDE_THE_CONDENSER = ("core", "outside", "seals", "transmission cooler")
_ENGINE_OFF = ("load", "gearing", "brakes", "hood")
"""Groups by where one stands, and those for which the engine is not run."""

ELECTRIC = 2.0
"""Place of an electric fan among the drives of a fan (parts/fan)."""


def cautions(
    remedies: Sequence[Remedy],
    facts: Mapping[str, Fact],
    system: System,
    *,
    opened: bool,
    check: str = "",
    layout: Sequence[str] = (),
) -> tuple[str, ...]:
    """Cautions of a plan, each once: what no line of the work asks for is left out.

    Parameters
    ----------
    remedies : the plan
    facts : the sheet: an electric fan, a condenser
    system : units of the words
    opened : coolant is let out
    check : hazard of the check that is made first, empty where there is none
    layout : what hurts when this layout is bled
    """
    groups, ids = {one.group for one in remedies}, {one.id for one in remedies}
    electric = facts["fan.drive"].value == ELECTRIC or bool(ids & set(WIRED))
    applies = (
        (check, bool(check)),
        (HOT, True),
        (POISON, opened),
        (BLEEDING, opened),
        (METAL, opened),
        *((words, opened and not words.startswith(_RAISED)) for words in layout),
        (ROTATING, not groups <= set(_ENGINE_OFF)),
        (ELECTRIC_FAN, electric),
        (EXHAUST, opened or bool(groups & {"timing", "mixture", "exhaust"})),
        (LIFTING, bool(groups & set(_UNDER_IT))),
        (HEAVY, "core" in groups),
        (ACID, bool(ids & set(ACID_CLEANED))),
        (SOLDER, bool(ids & set(SOLDERED))),
        (BATTERY, bool(ids & set(WIRED))),
        (FUEL, bool(groups & {"timing", "mixture"})),
        (OIL, "transmission cooler" in groups),
        (REFRIGERANT, facts["condenser.present"].value > 0.5 and bool(groups & set(_BESIDE_THE_CONDENSER))),
        (DEFER, True),
    )
    return tuple(dict.fromkeys(spoken(words, system) for words, does in applies if does))
