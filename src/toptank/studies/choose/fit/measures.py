"""What a tape finds in the bay, and what a radiator brings: every measure that decides whether it goes in.

Along the axis all is measured from the grille side to the engine. The gap from fan to core and the one at the blade
tips stand on the vehicle's own sheet ([shroud]). Ranges and spreads: judgement; spacings of the trade: common practice,
no source; where a size is from memory, it says so.
"""

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from math import ceil
from types import MappingProxyType

from toptank.knowledge.sheet import Fact, declaration_of, declared
from toptank.units.conversion import System, unit_of
from toptank.units.declaration import Declaration, declarations, declare, declare_choice, declare_yes_no
from toptank.units.dimension import COUNT, CURRENT, LENGTH, MASS
from toptank.units.sentence import Text

SIDES = ("left", "right", "centre")
CAMS = ("small", "large")
_FROM_SEAT = "tape from the lower seat; pad not counted"


@dataclass(frozen=True, slots=True, kw_only=True)
class Bay:
    """The place that the radiator goes into, and what stands around it. Fan and shroud as they are now."""

    # fmt: off
    core_depth_now: float = declare(
        "depth of the core that is in, front to back", LENGTH, hard=(0.01, 0.25), plausible=(0.02, 0.12), typical=0.05,
        spread=0.008, measure="caliper or tape across the fins at the side, tanks not counted")
    mount: float = declare_choice(
        "what holds the core front to back", ("saddles", "front face on the support", "rear face on the support"),
        typical="saddles", doubt=0.3,
        measure="U-shaped seats with rubber: saddles; straps: see which face lies on the support")
    support_depth: float = declare(
        "from the grille side (grille, condenser or cooler) to the seat: middle of the saddles, or face of the support",
        LENGTH, hard=(0.0, 0.6), plausible=(0.01, 0.2), typical=0.06, spread=0.012,
        measure="straightedge over what stands in front, tape back to the seat")
    saddle_width: float = declare(
        "clear width of a saddle, front to back", LENGTH, hard=(0.01, 0.3), plausible=(0.03, 0.15), typical=0.075,
        spread=0.008, measure="tape inside the U, metal to metal, rubbers out")
    saddle_rubber: float = declare(
        "thickness of one saddle rubber", LENGTH, hard=(0.0, 0.04), plausible=(0.002, 0.015), typical=0.005,
        spread=0.002, measure="caliper on a rubber where it is pressed")
    width_between: float = declare(
        "width between the supports", LENGTH, hard=(0.1, 2.8), plausible=(0.35, 1.2), typical=0.7, spread=0.012,
        measure="tape between the side supports at top and bottom, the smaller one")
    height_between: float = declare(
        "height between the lower and the upper seat", LENGTH, hard=(0.1, 2.2), plausible=(0.3, 1.0), typical=0.53,
        spread=0.012, measure="tape from seat to seat, metal to metal, rubbers out")
    shroud_mount: float = declare_choice(
        "what the shroud is bolted to", ("radiator", "support"), typical="radiator", doubt=0.3,
        measure="follow its bolts")
    shroud_to_core: float = declare(
        "gap from the shroud's front edge to the core that is in", LENGTH, hard=(0.0, 0.2), plausible=(0.0, 0.03),
        typical=0.008, spread=0.006, measure="folded card or drill shank between shroud and fins, four places")
    shroud_depth: float = declare(
        "depth of the shroud, front edge to the rear edge of its ring", LENGTH, hard=(0.01, 0.5),
        plausible=(0.05, 0.3), typical=0.13, spread=0.012, measure="tape along the axis, outside")
    blade_depth: float = declare(
        "depth of the blades, front edge to rear edge", LENGTH, hard=(0.01, 0.3), plausible=(0.03, 0.12), typical=0.06,
        spread=0.01, measure="straightedge across the blades before and behind, tape along the axis")
    blade_in_shroud: float = declare(
        "how much of the blades' depth is inside the shroud", LENGTH, hard=(0.0, 0.3), plausible=(0.01, 0.08),
        typical=0.03, spread=0.01, measure="tape from the shroud's rear edge forward to the blades' front edge")
    blade_to_engine: float = declare(
        "gap from the blades' rear edge to the engine", LENGTH, hard=(0.0, 0.6), plausible=(0.008, 0.15), typical=0.03,
        spread=0.01, measure="tape to the nearest pulley, hose or bracket; turn the fan once round")
    engine_fore_aft: float = declare(
        "how far the engine moves forward", LENGTH, hard=(0.0, 0.08), plausible=(0.002, 0.025), typical=0.008,
        spread=0.004, measure="bar against the crossmember, tape at the pulley; old mounts move more")
    engine_up_down: float = declare(
        "how far the fan moves up or down with the engine", LENGTH, hard=(0.0, 0.12), plausible=(0.003, 0.035),
        typical=0.01, spread=0.005,
        measure="engine off: lever it gently at the mount with a bar, tape at a blade tip")
    pulley_nose_to_core: float = declare(
        "gap from the core that is in to the foremost hub, bolt or pulley nose", LENGTH, hard=(0.0, 0.6),
        plausible=(0.02, 0.2), typical=0.08, spread=0.01, measure="tape from the fins to the foremost bolt head")
    hood_height: float = declare(
        "from the lower seat to the hood above the neck", LENGTH, hard=(0.1, 2.4), plausible=(0.35, 1.2), typical=0.6,
        spread=0.015, measure="clay on the cap, hood shut: what is left of it, and the cap's height above the seat")
    top_hose_side: float = declare_choice(
        "side that the top hose comes from, as the driver sits", SIDES, typical="right", doubt=0.4, measure="look")
    top_hose_height: float = declare(
        "height of the top port above the lower seat", LENGTH, hard=(0.0, 2.2), plausible=(0.2, 1.0), typical=0.48,
        spread=0.025, measure=_FROM_SEAT)
    top_hose_diameter: float = declare(
        "diameter of the port that the top hose fits", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.06),
        typical=0.0381, spread=0.003, measure="caliper over the port beside its bead, or bore of the hose")
    bottom_hose_side: float = declare_choice(
        "side that the lower hose comes from, as the driver sits", SIDES, typical="left", doubt=0.4, measure="look")
    bottom_hose_height: float = declare(
        "height of the bottom port above the lower seat", LENGTH, hard=(0.0, 2.2), plausible=(0.0, 0.4), typical=0.05,
        spread=0.025, measure=_FROM_SEAT)
    bottom_hose_diameter: float = declare(
        "diameter of the port that the lower hose fits", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.07),
        typical=0.0445, spread=0.003, measure="caliper over the port beside its bead, or bore of the hose")
    cap_reach: float = declare(
        "reach of the cap: from its rim seal to its lower seal", LENGTH, hard=(0.005, 0.06), plausible=(0.015, 0.03),
        typical=0.019, spread=0.003, measure="caliper; 3/4 and 1 in are usual, typical, no source")
    cap_cam: float = declare_choice(
        "cam of the cap", CAMS, typical="large", doubt=0.3,
        measure="width over the cap's two ears; try it on the neck")
    cap_kind: float = declare_choice(
        "kind of cap", ("closed", "open"), typical="closed", doubt=0.2,
        measure="a second seal under the rim: closed, for a recovery bottle; one seal only: open")
    cap_upper_gasket: float = declare_yes_no(
        "the cap has a whole gasket under its rim", typical=True, doubt=0.2, measure="look under the cap, engine cold")
    cap_vacuum_valve: float = declare_yes_no(
        "the cap has a vacuum valve that moves", typical=True, doubt=0.2,
        measure="lift the small disc in the middle with a finger nail, engine cold")
    cooler_thread: float = declare_choice(
        "thread of the transmission's cooler pipes", ("1/8 NPT", "1/4 NPT", "5/16 flare", "3/8 flare"),
        typical="5/16 flare", doubt=0.5, measure="caliper and thread gauge on a fitting; typical sizes, no source")
    weight_limit: float = declare(
        "most that the supports may carry", MASS, hard=(1.0, 500.0), plausible=(8.0, 80.0), typical=25.0, spread=5.0,
        measure="maker's manual; else the weight of the radiator that was in when new, filled")
    alternator_current: float = declare(
        "rated current of the alternator", CURRENT, hard=(5.0, 500.0), plausible=(20.0, 200.0), typical=60.0,
        spread=10.0, measure="stamp on its housing or plate")
    other_current: float = declare(
        "current of all else that runs at hot idle", CURRENT, hard=(0.0, 400.0), plausible=(5.0, 80.0), typical=25.0,
        spread=8.0, measure="clamp meter on the battery cable, engine off, key on, blower and lights on")
    # fmt: on


@dataclass(frozen=True, slots=True, kw_only=True)
class Radiator:
    """What a radiator on offer brings, fan included, as its maker prints it or a tape on the bench finds it."""

    # fmt: off
    core_depth: float = declare(
        "depth of its core, front to back", LENGTH, hard=(0.01, 0.25), plausible=(0.02, 0.12), typical=0.055,
        spread=0.008, measure="caliper across the fins; maker's print")
    passes: float = declare(
        "times the coolant crosses its face", COUNT, hard=(1, 3), plausible=(1, 3), typical=1, spread=0.0,
        measure="both ports on one tank, with a divider inside: 2")
    tank_width: float = declare(
        "width of its tanks, front to back", LENGTH, hard=(0.01, 0.3), plausible=(0.03, 0.13), typical=0.06,
        spread=0.008, measure="caliper over the tank where it sits; maker's print")
    overall_width: float = declare(
        "width over everything", LENGTH, hard=(0.1, 2.8), plausible=(0.35, 1.2), typical=0.68, spread=0.012,
        measure="tape over tanks and straps; maker's print")
    overall_height: float = declare(
        "height over the tanks, neck not counted", LENGTH, hard=(0.1, 2.2), plausible=(0.3, 1.0), typical=0.5,
        spread=0.012, measure="tape; maker's print")
    cap_height: float = declare(
        "height over the cap, above its lower face", LENGTH, hard=(0.1, 2.4), plausible=(0.3, 1.1), typical=0.54,
        spread=0.012, measure="tape from the lower face to the top of the cap")
    top_port_side: float = declare_choice(
        "side of its top port, as the driver sits", SIDES, typical="right", doubt=0.4, measure="look; maker's print")
    top_port_height: float = declare(
        "height of its top port above the lower face", LENGTH, hard=(0.0, 2.2), plausible=(0.2, 1.0), typical=0.48,
        spread=0.025, measure="tape; maker's print")
    top_port_diameter: float = declare(
        "diameter of its top port", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.06), typical=0.0381, spread=0.003,
        measure="caliper beside the bead; maker's print")
    bottom_port_side: float = declare_choice(
        "side of its bottom port, as the driver sits", SIDES, typical="left", doubt=0.4, measure="look; maker's print")
    bottom_port_height: float = declare(
        "height of its bottom port above the lower face", LENGTH, hard=(0.0, 2.2), plausible=(0.0, 0.4), typical=0.05,
        spread=0.025, measure="tape; maker's print")
    bottom_port_diameter: float = declare(
        "diameter of its bottom port", LENGTH, hard=(0.01, 0.1), plausible=(0.025, 0.07), typical=0.0445, spread=0.003,
        measure="caliper beside the bead; maker's print")
    neck_depth: float = declare(
        "depth of its filler neck, rim to lower seat", LENGTH, hard=(0.005, 0.06), plausible=(0.015, 0.03),
        typical=0.019, spread=0.003, measure="depth gauge or caliper tail; 3/4 and 1 in are usual, typical, no source")
    neck_cam: float = declare_choice(
        "cam of its filler neck", CAMS, typical="large", doubt=0.3, measure="try the cap on it")
    cooler_fittings: float = declare_yes_no(
        "it has fittings for the transmission's cooler", typical=False, doubt=0.5, measure="two threaded bosses")
    cooler_thread: float = declare_choice(
        "thread of those fittings", ("1/8 NPT", "1/4 NPT", "5/16 flare", "3/8 flare"), typical="5/16 flare", doubt=0.5,
        measure="thread gauge; maker's print")
    weight: float = declare(
        "weight, filled", MASS, hard=(0.5, 500.0), plausible=(4.0, 80.0), typical=16.0, spread=3.0,
        measure="scales, and a kilogram a litre, two pounds a quart, for what it holds; maker's print")
    fan_depth: float = declare(
        "depth of the electric fans and shroud that come with it, behind the core", LENGTH, hard=(0.0, 0.3),
        plausible=(0.0, 0.15), typical=0.0, spread=0.012,
        measure="tape from the core to the motor's end; maker's print")
    fan_current: float = declare(
        "current of its electric fans, running", CURRENT, hard=(0.0, 200.0), plausible=(5.0, 60.0), typical=30.0,
        spread=5.0, measure="clamp meter on their wire; maker's print")
    fan_forward: float = declare(
        "how far the new engine-driven fan's blades stand forward of the old one's", LENGTH, hard=(-0.15, 0.15),
        plausible=(-0.05, 0.05), typical=0.0, spread=0.006,
        measure="both fans on the bench, tape from hub face to blade")
    direct_fit: float = declare_yes_no(
        "made for this vehicle: same mounts, necks and hoses", typical=False, doubt=0.3,
        measure="maker's list for the vehicle; the seller's word")
    # fmt: on


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """A radiator that somebody offers: its name, what is bought, its price as written, its facts by measure.

    `remedy` names the remedy that it would be, and is empty where nobody said.
    """

    name: str
    parts: str
    price: str
    facts: Mapping[str, Fact]
    remedy: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class FitSheet:
    """What is known of the bay, and what is on offer.

    Parameters
    ----------
    facts : measure -> fact, for every measure of the bay
    hose_route : where the hoses run and what they must clear, in the mechanic's words
    offers : radiators on offer
    remarks : values accepted though unusual
    """

    facts: Mapping[str, Fact]
    hose_route: str = ""
    offers: tuple[Offer, ...] = ()
    remarks: tuple[Text, ...] = ()


@functools.cache
def bay_fields() -> Mapping[str, Declaration]:
    """Every measure of the bay."""
    return MappingProxyType(dict(declarations(Bay)))


@functools.cache
def offer_fields() -> Mapping[str, Declaration]:
    """Every measure of a radiator on offer."""
    return MappingProxyType(dict(declarations(Radiator)))


def fit_sheet(
    facts: Mapping[str, Fact], *, hose_route: str = "", offers: tuple[Offer, ...] = (), remarks: tuple[Text, ...] = ()
) -> FitSheet:
    """Sheet of the facts that are known; the declarations stand in for the rest and count as not known."""
    whole = {key: facts.get(key, declared(field)) for key, field in bay_fields().items()}
    return FitSheet(facts=whole, hose_route=hose_route, offers=offers, remarks=remarks)


def measure_of(path: str) -> Declaration:
    """Declaration of a measure by its path: "fit.saddle_width", "offer.core_depth", "shroud.fan_to_core"."""
    section, _, key = path.partition(".")
    own = {"fit": bay_fields, "offer": offer_fields}.get(section)
    return own()[key] if own else declaration_of(path)


def tape(length: float, system: System) -> str:
    """Write a length as a tape reads it: to 1/16 in, or to a millimetre."""
    if unit_of(LENGTH, system) == "mm":
        return f"{round(length * 1000.0)} mm"
    sixteenths = round(abs(length) / 0.0254 * 16.0)
    sign = "-" if length < 0.0 and sixteenths else ""
    whole, part = divmod(sixteenths, 16)
    below = 16
    while part and part % 2 == 0:
        part, below = part // 2, below // 2
    fraction = f"{part}/{below}" if part else ""
    return f"{sign}{' '.join(filter(None, (str(whole) if whole or not part else '', fraction)))} in"


def cut(length: float, system: System) -> str:
    """Write how much to take off or to put in: rounded up to what a tape shows, so that it suffices."""
    step = 0.001 if unit_of(LENGTH, system) == "mm" else 0.0254 / 16.0
    return tape(ceil(length / step - 1e-6) * step, system)
