"""Which cap: enough pressure for the worst day, and never more than the weakest part bears.

Source   boiling of toptank.media.coolant; standard atmosphere us_std_1976; margin: common practice, no source;
         limits of parts: judgement after it
Range    caps 0 to 20 psi, sea level to 5500 m
Scatter  boiling 2 K; a 7 psi cap may open at 6.25 to 7.5 psi (common practice, no source)
"""

from collections.abc import Iterable
from dataclasses import dataclass

from toptank.equations.atmosphere import pressure_at_altitude
from toptank.media import coolant
from toptank.units.refusal import Refusal

_PSI = 6894.757293168
CAPS = tuple(stamped * _PSI for stamped in (0.0, 4.0, 7.0, 10.0, 13.0, 14.0, 15.0, 16.0, 18.0, 20.0))
"""Gauge pressures that caps are sold for [Pa]."""

MARGIN = (15.0 / 1.8, 20.0 / 1.8)
"""Least margin to boiling and that to aim for [K]; common practice, no source: metal boils coolant before the bulk."""

SPECIFIED = "the cap that the maker specified"
SUCH_A_VEHICLE = "the cap that such a vehicle has (assumed: read its stamp)"
"""Where the pressure is from that a system was made for: found on this vehicle, or usual for its kind."""

PART_LIMITS = {
    "open system, 1930s and before": 0.0,
    "soldered core made for 4 psi": 4.0 * _PSI,
    "soldered core made for 7 psi": 7.0 * _PSI,
    "heater core, old or unknown": 15.0 * _PSI,
    "radiator seams, old and soldered": 13.0 * _PSI,
    "radiator, copper and brass, sound": 16.0 * _PSI,
    "radiator, crimped plastic tanks": 16.0 * _PSI,
    "plastic expansion tank, old": 15.0 * _PSI,
    "plastic expansion tank, new": 20.0 * _PSI,
    "radiator, all aluminium, welded": 20.0 * _PSI,
    "hoses, old or unknown": 15.0 * _PSI,
}
"""Highest gauge pressure of a cap over each part [Pa]. Judgement, after common practice, no source: caps grew from 4
to 16 psi over the years, and nothing here is tried above 20. The maker's figure goes first."""

ASKED_BY_SYSTEM = {
    "open overflow": (
        "the cap needs no seal at the rim",
        "leave the core 1 to 2 in (25 to 50 mm) below the neck when cold: what is more is pushed out on the road",
    ),
    "recovery bottle": (
        "the cap must seal twice: below for the pressure and at the rim, or the system draws air instead of coolant",
        "the vacuum valve must move freely and open below 0.625 psi (4.3 kPa)",
        "fill the core to the neck and the bottle to the cold mark; the hose ends below the level",
    ),
}
"""What each kind of system asks of its cap and its level, by the words of a sheet; common practice, no source."""


@dataclass(frozen=True, slots=True, kw_only=True)
class CapRow:
    """One cap: gauge pressure [Pa], boiling point [K], margin to the worst temperature [K], the part that forbids it.

    `enough` says whether the margin to aim for is there; `forbidden_by` is empty where every part bears the cap.
    """

    pressure: float
    boiling_point: float
    margin: float
    enough: bool
    forbidden_by: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CapAnswer:
    """Every cap, and the one to fit.

    Parameters
    ----------
    rows : in order of pressure
    chosen : the cap that was specified, where every part bears it and it has the margin to aim for; where a part bears
        less, or nobody knows what was specified, the lowest with that margin; None where there is none
    reason : one sentence
    """

    rows: tuple[CapRow, ...]
    chosen: CapRow | None
    reason: str


def weakest(parts: Iterable[str]) -> tuple[str, float]:
    """Return the part that bears least and the cap that it bears [Pa]; a part that is not known is refused."""
    named = list(parts)
    for part in named:
        if part not in PART_LIMITS:
            known = ", ".join(repr(one) for one in PART_LIMITS)
            raise Refusal(field="part", value=part, limit="is not a part with a limit here", fix=f"name one of {known}")
    if not named:
        raise Refusal(
            field="parts",
            value="none",
            limit="a cap is chosen by the weakest part",
            fix="name what the pressure reaches",
        )
    part = min(named, key=lambda one: PART_LIMITS[one])
    return part, PART_LIMITS[part]


def choose_cap(
    T_worst: float,
    altitude: float,
    concentrate: float,
    glycol: float,
    parts: Iterable[str],
    *,
    stamped: float | None,
    stamped_by: str = SPECIFIED,
    guessed: bool = False,
) -> CapAnswer:
    """Choose a cap.

    Parameters
    ----------
    T_worst : hottest coolant on the worst day, leaving the engine [K]
    altitude : above the sea [m]
    concentrate : share of concentrate by volume [1]
    glycol : 0 ethylene, 1 propylene [1]
    parts : what the pressure reaches, names of `PART_LIMITS`
    stamped : what the maker specified [Pa], or None where it is not known; never exceeded
    stamped_by : where that is from, in words
    guessed : nobody looked at the parts: what they might bear says nothing against the cap that was specified for them

    Returns
    -------
    answer : every cap and the one to fit
    """
    part, limit = weakest(parts)
    as_specified = stamped is not None and (guessed or stamped <= limit)
    if stamped is not None and (guessed or stamped < limit):
        part, limit = stamped_by, stamped
    outside = float(pressure_at_altitude(altitude))
    rows: list[CapRow] = []
    for pressure in CAPS:
        boils = float(coolant.boiling_temperature(outside + pressure, concentrate, glycol))
        margin = boils - T_worst
        borne = pressure <= limit * (1.0 + 1e-9)
        rows.append(
            CapRow(
                pressure=pressure,
                boiling_point=boils,
                margin=margin,
                enough=margin >= MARGIN[1],
                forbidden_by="" if borne else part,
            )
        )
    borne = [row for row in rows if not row.forbidden_by]
    # Below what the maker specified there is nothing to gain: less pressure boils sooner.
    fit = borne[-1:] if as_specified else borne
    chosen = next((row for row in fit if row.enough), None)
    return CapAnswer(rows=tuple(rows), chosen=chosen, reason=_reason(rows, chosen, part, as_specified=as_specified))


def _reason(rows: list[CapRow], chosen: CapRow | None, part: str, *, as_specified: bool) -> str:
    if chosen is not None and as_specified:
        return f"{part}: it has the margin to aim for; less pressure boils sooner, more strains every joint"
    if chosen is not None:
        return "the lowest cap with the margin to aim for: more pressure only strains every joint"
    borne = [row for row in rows if not row.forbidden_by]
    if any(row.margin >= MARGIN[0] for row in borne):
        return f"the strongest cap that may be fitted leaves little margin, bound by {part}: bring the temperature down"
    return f"no cap that may be fitted keeps a margin to boiling, bound by {part}: bring the temperature down"
