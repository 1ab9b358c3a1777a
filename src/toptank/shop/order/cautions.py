"""What can hurt, and what goes before the paper. Common practice, no source, unless a line says otherwise."""

from collections.abc import Sequence

from toptank.catalogue.remedies.remedy import Remedy

ALWAYS = (
    "Never open a hot system: wait until a hand can rest on the core.",
    "Ethylene glycol is poisonous to people and pets: keep it closed, catch every drop, dispose of it by local rules.",
    "A fan may start by itself, even with the key off: hands, sleeves and hoses away from fans and belts.",
    "Lifting: axle stands, wheels chocked, never a jack alone. A core is heavy and sharp.",
    "Exhaust kills in closed rooms: run the engine outside or with the hose on.",
)
ACID = "Acid cleaners burn skin and eyes and eat aluminium: gloves, goggles, neutralise, never mix."
SOLDER = "Old solder is lead: wash hands, no eating at the bench."
BATTERY = "Battery off before wiring; a fuse in every wire."
FUEL = "No flame or spark near fuel; a timing light's lead keeps clear of the fan."
REFRIGERANT = "Refrigerant lines stay closed: opening them is licensed work in most places."
DEFER = (
    "The maker's manual, local codes and licensed practice go before everything on this paper. Figures are forecasts."
)

_IN_FULL_ABOVE = ("A fan may start", "Coolant poisons", "A vehicle raised", "A filled system")
"""Beginnings of cautions of the bleeding that `ALWAYS` or a step holds in full."""

_BY_GROUP = {
    "core": (SOLDER, REFRIGERANT),
    "outside": (REFRIGERANT,),
    "fan drive": (BATTERY,),
    "load": (BATTERY, REFRIGERANT),
    "timing": (FUEL,),
    "mixture": (FUEL,),
}


def cautions(remedies: Sequence[Remedy], more: Sequence[str]) -> tuple[str, ...]:
    """Cautions of a plan, each once: those for all, those of its work, `more`, and what goes before the paper.

    What `more` says of fans, poison and lifting is left out, as the first lines say it.

    Acid belongs to every paper: whoever flushes an old core reaches for it.
    """
    of_the_work = [line for remedy in remedies for line in _BY_GROUP.get(remedy.group, ())]
    new = [line for line in more if not line.startswith(_IN_FULL_ABOVE)]
    return tuple(dict.fromkeys((*ALWAYS, ACID, *of_the_work, *new, DEFER)))
