"""Where everything stands along the axis and up, in millimetres of the vehicle, to be drawn."""

from dataclasses import dataclass

from toptank.studies.choose.fit.fit import Fit
from toptank.studies.choose.fit.item import Sum, measured

TANK = 45.0
"""Height of a tank where nobody measured one [mm]."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Places:
    """Where everything stands: x from the grille side, y from the lower seat upwards, all in mm.

    `guessed` names what was drawn without having been measured.
    """

    front_now: float
    rear_now: float
    front: float
    rear: float
    seat: float
    upper_seat: float
    cap_top: float
    saddle_width: float
    rubber: float
    tank_width: float
    height: float
    hood: float
    shroud_front: float
    blade_front: float
    blade_rear: float
    shroud_rear: float
    engine: float
    nose: float
    forward: float
    fan_radius: float
    ring_radius: float
    fan_depth: float
    guessed: frozenset[str]


def places(fit: Fit) -> Places:
    """Return where everything stands; what was not measured stands where it usually does, and is named."""
    stack, candidate, sheet = fit.stack, fit.candidate, fit.stack.sheet.facts
    guessed: set[str] = set()

    def at(name: str, found: Sum) -> float:
        if found.missing:
            guessed.add(name)
        return 1000.0 * found.value

    seat = at("grille", stack.bay("support_depth"))
    depth = at("core", candidate.depth)
    growth = at("core", candidate.growth) if not candidate.growth.missing else 0.0
    rearward = at("core", stack.by_mount(Sum(1.0), behind=True)) / 1000.0
    rear, rear_now = seat + rearward * depth, seat + rearward * (depth - growth)
    blades = measured("shroud.fan_to_core", sheet["shroud.fan_to_core"])
    blade_front = rear_now + at("fan", blades) - 1000.0 * stack.fan_forward().value
    blade_rear = blade_front + at("fan", stack.bay("blade_depth"))
    shroud_moved = 1000.0 * stack.shroud_moves().value
    tank = candidate.brings("tank_width") if not candidate.tanks_stay else candidate.depth
    radius = 500.0 * sheet["fan.diameter"].value
    rubber, between = at("saddle", stack.bay("saddle_rubber")), stack.bay("height_between")
    overall, cap = candidate.facts.get("overall_height"), candidate.facts.get("cap_height")
    height = 1000.0 * (overall.value if overall else sheet["core.face_height"].value) + (0.0 if overall else 2.0 * TANK)
    return Places(
        front_now=rear_now - (depth - growth),
        rear_now=rear_now,
        front=rear - depth,
        rear=rear,
        seat=seat,
        upper_seat=height + 2.0 * rubber if between.missing else 1000.0 * between.value,
        cap_top=1000.0 * cap.value + rubber if cap else 0.0,
        saddle_width=at("saddle", stack.bay("saddle_width")),
        rubber=rubber,
        tank_width=at("tank", tank) if tank.value else depth,
        height=height,
        hood=at("hood", stack.bay("hood_height")),
        shroud_front=rear_now + at("shroud", stack.bay("shroud_to_core")) + shroud_moved,
        blade_front=blade_front,
        blade_rear=blade_rear,
        shroud_rear=blade_front + at("shroud", stack.blade_in_shroud()),
        engine=blade_rear + at("engine", stack.blade_to_engine()),
        nose=rear_now + at("nose", stack.bay("pulley_nose_to_core")),
        forward=1000.0 * stack.bay("engine_fore_aft").value,
        fan_radius=radius,
        ring_radius=radius + at("shroud", stack.tip_clearance()),
        fan_depth=1000.0 * candidate.brings("fan_depth").value if candidate.electric_fan else 0.0,
        guessed=frozenset(guessed),
    )


@dataclass(frozen=True, slots=True)
class Gap:
    """A gap to be drawn, from one point to another [mm], with the item that judges it."""

    item: str
    label: str
    x: float
    x_end: float
    y: float
    y_end: float

    def along(self) -> bool:
        """Whether it lies along the axis."""
        return self.y == self.y_end

    def length(self) -> float:
        """Return what the arrow shows [mm]; below nought where things overlap."""
        return self.x_end - self.x if self.along() else self.y_end - self.y

    def highest(self) -> float:
        """Return the height from which it is led to the list [mm]."""
        return (self.y + self.y_end) / 2.0

    def farthest(self) -> float:
        """Return the end that is nearer to the list [mm]."""
        return max(self.x, self.x_end)


def gaps(fit: Fit, at: Places) -> list[Gap]:
    """Return the gaps that the answer judges and the drawing can show, each at a height of its own."""
    wheel, radius, room = at.height / 2.0, at.fan_radius, at.saddle_width / 2.0 - at.rubber
    nose = "pulley nose to core when the engine comes forward"
    inside = _worse(fit, "blades far enough in the shroud", "blades far enough out of the shroud")
    forward = "fan to core when the engine comes forward"
    tip, middle = "blade tip to shroud", (at.blade_front + min(at.blade_rear, at.shroud_rear)) / 2.0
    found = [
        _along("core in the saddle", at.seat - room, at.seat + room, 6.0, "room in the saddle, rubber in"),
        _along("front of the core to what stands before it", 0.0, at.front, 0.86 * at.height),
        _along("shroud to core", at.rear, at.shroud_front, 0.94 * at.height),
        _along("fan to core", at.rear, at.blade_front, wheel + 0.72 * radius),
        _along(inside, at.blade_front, at.shroud_rear, wheel + 0.5 * radius, "blades inside the shroud"),
        _along("blade rear edge to engine", at.blade_rear, at.engine, wheel + 0.3 * radius),
        _along(nose, at.rear, at.nose - at.forward, wheel),
        _along("electric fans to pulley nose", at.rear + at.fan_depth, at.nose - at.forward, wheel),
        _along(forward, at.rear, at.blade_front - at.forward, wheel - 0.5 * radius),
        Gap(tip, tip, middle, middle, wheel - at.ring_radius, wheel - radius),
        Gap("cap to hood", "cap to hood", at.seat, at.seat, at.cap_top, at.hood),
    ]
    judged = {item.name for item in fit.items}
    return [gap for gap in found if gap.item in judged]


def _along(item: str, start: float, end: float, y: float, label: str = "") -> Gap:
    return Gap(item, label or item, start, end, y, y)


def _worse(fit: Fit, first: str, second: str) -> str:
    """Name the one of two questions with the smaller margin."""
    margins = {item.name: item.margin or 0.0 for item in fit.items}
    return min((first, second), key=lambda name: margins.get(name, 0.0))
