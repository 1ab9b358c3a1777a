"""Across and up: frame, hood, ports, neck and cap, cooler pipes, weight."""

from collections.abc import Iterator
from dataclasses import replace

from toptank.knowledge.sheet import Fact, Sheet
from toptank.studies.choose.fit.candidate import Candidate
from toptank.studies.choose.fit.item import (
    GEOMETRY,
    JUDGEMENT,
    Item,
    Sum,
    Verdict,
    alike,
    clearance,
    known,
    matches,
    measured,
)
from toptank.studies.choose.fit.measures import CAMS, SIDES, FitSheet, bay_fields
from toptank.units.dimension import CURRENT, MASS

_INCH = 0.0254
PORT_DIAMETERS_ALIKE = _INCH / 16.0
"""How far the diameters of two ports for one hose may differ [m]; sizes step by 1/8 to 1/4 in; judgement."""

PORT_HEIGHTS_ALIKE = 1.0 * _INCH
"""How far a hose can be led up or down [m]; judgement."""

HELD = 1.0 * _INCH
"""How much lower than the room between its seats a radiator may be: their lips hold no more [m]; judgement."""

NECKS_ALIKE = _INCH / 16.0
"""How far a cap's reach and the depth of the neck may differ [m]; that they match is practice, so much is judgement."""

AT_HOT_IDLE = 0.5
"""Share of its rated current that an alternator gives at hot idle [1]; common practice, no source."""

_RECOVERY = 1.0
_IN_THE_TANK = 1.0


def across(sheet: Sheet, fit: FitSheet, candidate: Candidate) -> Iterator[Item]:
    """Answer every question that does not lie on the axis."""
    ports: tuple[Item, ...] = ()
    if candidate.tanks_stay:
        note = "The old tanks stay, and with them width, height, ports and neck."
        yield Item(name="frame, hood, ports and neck", verdict=Verdict.CLEARS, note=note, source=GEOMETRY)
    else:
        yield from _frame(fit, candidate)
        ports = tuple(_ports(fit, candidate))
        yield from ports
        yield from _neck(fit, candidate)
    yield from _cap(sheet, fit)
    yield from _cooler(sheet, fit, candidate)
    if not candidate.tanks_stay or "weight" in candidate.facts:
        yield _weight(fit, candidate)
    if candidate.electric_fan:
        yield _alternator(fit, candidate)
    yield _hoses(fit, ports)


def _bay(fit: FitSheet, key: str) -> Sum:
    return measured(f"fit.{key}", fit.facts[key])


def _frame(fit: FitSheet, candidate: Candidate) -> Iterator[Item]:
    rubbers = _bay(fit, "saddle_rubber").times(2.0)
    fix = "a radiator smaller by {amount}, or supports moved"
    width = _bay(fit, "width_between") - candidate.brings("overall_width")
    yield clearance("width between the supports", width, fix=fix, source=GEOMETRY, another_part=True)
    height = _bay(fit, "height_between") - rubbers - candidate.brings("overall_height")
    item = clearance("height between the seats, rubber in", height, fix=fix, source=GEOMETRY, another_part=True)
    yield item
    if item.verdict != Verdict.RUBS and not (known(fit.facts["mount"]) and fit.facts["mount"].value > 0.5):
        yield alike(
            "held between the seats",
            _bay(fit, "height_between") - rubbers,
            candidate.brings("overall_height"),
            within=HELD,
            fix="rubber or brackets that take up {amount}: the seats do not hold it",
            source=JUDGEMENT,
        )
    hood = _bay(fit, "hood_height") - _bay(fit, "saddle_rubber") - candidate.brings("cap_height")
    yield clearance("cap to hood", hood, fix="lower the seats by {amount}, or a lower neck", source=GEOMETRY)


def _ports(fit: FitSheet, candidate: Candidate) -> Iterator[Item]:
    for end in ("top", "bottom"):
        hose, port = f"{end}_hose_side", f"{end}_port_side"
        wants, has = _choice(fit, hose), candidate.choice(port)
        told = "" if wants is None or has is None else f"Hose {SIDES[round(wants)]}, port {SIDES[round(has)]}."
        yield matches(
            f"{end} port: side",
            _unknown((f"fit.{hose}", wants), (f"offer.{port}", has)),
            None if wants is None or has is None else wants == has,
            fix="another hose, routed clear of belt and fan, or a radiator with this port on the other side",
            note=told,
        )
        yield alike(
            f"{end} port: height",
            _bay(fit, f"{end}_hose_height"),
            candidate.brings(f"{end}_port_height"),
            within=PORT_HEIGHTS_ALIKE,
            fix="a hose of another shape: the ports stand {amount} apart in height",
            source=JUDGEMENT,
        )
        yield alike(
            f"{end} port: diameter",
            _bay(fit, f"{end}_hose_diameter"),
            candidate.brings(f"{end}_port_diameter"),
            within=PORT_DIAMETERS_ALIKE,
            fix="a stepped hose or a sleeve: the diameters differ by {amount}",
        )


def _neck(fit: FitSheet, candidate: Candidate) -> Iterator[Item]:
    yield alike(
        "reach of the cap to depth of the neck",
        _bay(fit, "cap_reach"),
        candidate.brings("neck_depth"),
        within=NECKS_ALIKE,
        fix="a cap made for this neck: reach and depth differ by {amount}",
    )
    cap, neck = _choice(fit, "cap_cam"), candidate.choice("neck_cam")
    told = "" if cap is None or neck is None else f"Cap {CAMS[round(cap)]}, neck {CAMS[round(neck)]}."
    yield matches(
        "cam of the cap to the neck",
        _unknown(("fit.cap_cam", cap), ("offer.neck_cam", neck)),
        None if cap is None or neck is None else cap == neck,
        fix="a cap with the neck's cam",
        note=told,
    )


def _cap(sheet: Sheet, fit: FitSheet) -> Iterator[Item]:
    """A recovery bottle needs a closed cap that seals at the rim and lets back in; an open system asks neither."""
    system, kind = _found(sheet.facts["cap.system"]), _choice(fit, "cap_kind")
    name = "kind of cap to the system"
    if system is None or kind is None:
        yield matches(name, _unknown(("cap.system", system), ("fit.cap_kind", kind)), None, fix="")
        return
    recovery, closed = system == _RECOVERY, kind < 0.5
    if not recovery:
        note = "Closed cap on an open overflow: works, its upper seal has nothing to do." if closed else ""
        yield matches(name, (), True, fix="", note=note)
        return
    yield matches(name, (), closed, fix="a closed cap, with upper gasket and vacuum valve, for the recovery bottle")
    if not closed:
        return
    for key, what in (("cap_upper_gasket", "upper gasket of the cap"), ("cap_vacuum_valve", "vacuum valve of the cap")):
        whole = _choice(fit, key)
        fix = "a new closed cap: without it the system draws air instead of coolant"
        yield matches(what, (f"fit.{key}",), None if whole is None else whole > 0.5, fix=fix)


def _cooler(sheet: Sheet, fit: FitSheet, candidate: Candidate) -> Iterator[Item]:
    """Pipes of the transmission need fittings in a tank; a core of several passes has no room for them."""
    place = _found(sheet.facts["transmission_cooler.place"])
    name = "transmission's cooler in the tank"
    if place is None:
        yield matches(name, ("transmission_cooler.place",), None, fix="")
        return
    if place != _IN_THE_TANK:
        return
    external = "a cooler of its own for the transmission, out of the core's air"
    if (candidate.passes or 1.0) > 1.5:
        note = "A core of two or three passes has no room for it in the tank."
        yield matches(name, (), False, fix=external, note=note)
        return
    if candidate.tanks_stay:
        return
    fittings = candidate.choice("cooler_fittings")
    yield matches(name, ("offer.cooler_fittings",), None if fittings is None else fittings > 0.5, fix=external)
    if fittings is None or fittings < 0.5:
        return
    pipes, bosses = _choice(fit, "cooler_thread"), candidate.choice("cooler_thread")
    words = bay_fields()["cooler_thread"].choices
    told = "" if pipes is None or bosses is None else f"Pipes {words[round(pipes)]}, tank {words[round(bosses)]}."
    yield matches(
        "thread of the cooler pipes",
        _unknown(("fit.cooler_thread", pipes), ("offer.cooler_thread", bosses)),
        None if pipes is None or bosses is None else pipes == bosses,
        fix="adapters of the right thread; never force one into another",
        note=told,
    )


def _weight(fit: FitSheet, candidate: Candidate) -> Item:
    spare = _bay(fit, "weight_limit") - candidate.brings("weight")
    fix = "a lighter radiator, or stays from the supports to the frame"
    return clearance("weight on the supports", spare, fix=fix, dimension=MASS)


def _alternator(fit: FitSheet, candidate: Candidate) -> Item:
    """At hot idle, where the fans are wanted most, an alternator gives a part of what is stamped on it."""
    gives = _bay(fit, "alternator_current").times(AT_HOT_IDLE)
    spare = gives - _bay(fit, "other_current") - candidate.brings("fan_current")
    fix = "an alternator that gives {amount} more at idle, a smaller pulley on it, or fans in two stages"
    note = f"At hot idle {AT_HOT_IDLE:.0%} of the rated current; fuse, relay and wire by the fans' current."
    return replace(clearance("alternator to the fans' current", spare, fix=fix, dimension=CURRENT), note=note)


def _hoses(fit: FitSheet, ports: tuple[Item, ...]) -> Item:
    """Hoses keep their way where the ports stay where they were; else only a hose held up shows it."""
    noted = f" Noted: {fit.hose_route}" if fit.hose_route else ""
    if all(port.verdict == Verdict.CLEARS for port in ports):
        return Item(name="hose routes", verdict=Verdict.CLEARS, note=f"As they were: the ports stand alike.{noted}")
    note = f"Hold a hose to both ports: it must clear belt, fan and exhaust.{noted}"
    return Item(name="hose routes", verdict=Verdict.NOT_KNOWN, note=note)


def _choice(fit: FitSheet, key: str) -> float | None:
    return _found(fit.facts[key])


def _found(fact: Fact) -> float | None:
    return fact.value if known(fact) else None


def _unknown(*measures: tuple[str, float | None]) -> tuple[str, ...]:
    return tuple(path for path, value in measures if value is None)
