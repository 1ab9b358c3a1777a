"""The answers that need no job: `core`, `boil`, `freeze`, `vehicles`, `explain`, `sheet new`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Literal

from toptank.shop.answers.answer import (
    Amount,
    Answer,
    Count,
    Glycol,
    Percent,
    Remarked,
    Text,
    Texts,
    degC,
    kPa,
    kW,
    mm,
    pct,
    rounded,
)

if TYPE_CHECKING:
    from toptank.shop.answers.answers import Boiling, CoreRating, Explanation, Freezing, TypicalRow

KILO = 1000.0


class CoreAnswer(Remarked):
    """A core on the bench.

    Parameters
    ----------
    conductance_W_per_K : UA
    effectiveness_pct : of the heat that could be given up
    air_share_of_resistance_pct : of the whole resistance to heat
    tube_reynolds : Reynolds number in the tubes [1]
    depth_mm : of the core
    """

    name: str
    heat_kW: float
    coolant_out_degC: float
    air_out_degC: float
    air_pressure_drop_Pa: float
    coolant_pressure_drop_kPa: float
    conductance_W_per_K: float
    effectiveness_pct: Percent
    air_share_of_resistance_pct: Percent
    depth_mm: float
    tube_reynolds: float
    regime: Literal["laminar", "transition", "turbulent"]


class CapBoils(Answer):
    """Under one cap; the gain since the cap before, null for the first."""

    cap_kPa: Amount
    boiling_point_degC: float
    gain_K_per_kPa: float | None


class BoilAnswer(Answer):
    """Boiling point of a mix under a cap at an altitude, and under other caps.

    Parameters
    ----------
    mix_pct : of concentrate
    open_boiling_point_degC : without a cap
    gain_at_this_cap_K_per_kPa : what more cap would be worth
    mean_gain_K_per_kPa : on the way from open to this cap
    """

    glycol: Glycol
    mix_pct: Percent
    cap_kPa: Amount
    altitude_m: float
    boiling_point_degC: float
    open_boiling_point_degC: float
    gain_at_this_cap_K_per_kPa: float
    mean_gain_K_per_kPa: float
    caps: tuple[CapBoils, ...]
    assumed_units: Texts


class FreezeAnswer(Remarked):
    """Freeze point of a mix; `mix_pct` is of concentrate."""

    glycol: Glycol
    mix_pct: Percent
    freeze_point_degC: float


class VehicleRow(Answer):
    """A typical vehicle.

    Parameters
    ----------
    where : its values come from
    own_facts : number of values of its own
    """

    name: str
    title: str
    where: str
    own_facts: Count


class VehiclesAnswer(Answer):
    """The typical vehicles that a sheet can start from."""

    vehicles: tuple[VehicleRow, ...]


class ExplainAnswer(Answer):
    """Where a quantity comes from: equations with their sources, assumptions, files to read."""

    name: str
    means: str
    equations: tuple[str, ...]
    sources: tuple[str, ...]
    assumptions: Texts
    files: tuple[str, ...]


class SheetAnswer(Answer):
    """A starting file: where it was written, if it was, and its text."""

    like: str
    file: str | None
    text: Text


def core_answer(found: CoreRating) -> CoreAnswer:
    """Return the rating of a core."""
    return CoreAnswer.model_validate(
        {
            "name": found.name,
            "heat_kW": kW(found.heat),
            "coolant_out_degC": degC(found.T_coolant_out),
            "air_out_degC": degC(found.T_air_out),
            "air_pressure_drop_Pa": rounded(found.air_pressure_drop),
            "coolant_pressure_drop_kPa": kPa(found.coolant_pressure_drop),
            "conductance_W_per_K": rounded(found.conductance),
            "effectiveness_pct": pct(found.effectiveness),
            "air_share_of_resistance_pct": pct(found.air_share_of_resistance),
            "depth_mm": mm(found.depth),
            "tube_reynolds": round(found.tube_reynolds, 1),
            "regime": found.regime,
            "remarks": found.remarks,
            "assumed_units": found.assumed_units,
        }
    )


def boil_answer(found: Boiling) -> BoilAnswer:
    """Return a boiling point and its table of caps."""
    return BoilAnswer.model_validate(
        {
            "glycol": found.glycol,
            "mix_pct": pct(found.concentrate),
            "cap_kPa": kPa(found.cap),
            "altitude_m": rounded(found.altitude),
            "boiling_point_degC": degC(found.boiling_point),
            "open_boiling_point_degC": degC(found.open_boiling_point),
            "gain_at_this_cap_K_per_kPa": rounded(KILO * found.slope),
            "mean_gain_K_per_kPa": rounded(KILO * found.mean_slope),
            "caps": tuple(
                CapBoils(
                    cap_kPa=kPa(row.pressure),
                    boiling_point_degC=degC(row.boiling_point),
                    gain_K_per_kPa=None if row.slope is None else rounded(KILO * row.slope),
                )
                for row in found.rows
            ),
            "assumed_units": found.assumed_units,
        }
    )


def freeze_answer(found: Freezing) -> FreezeAnswer:
    """Return a freeze point."""
    return FreezeAnswer.model_validate(
        {
            "glycol": found.glycol,
            "mix_pct": pct(found.concentrate),
            "freeze_point_degC": degC(found.freeze_point),
            "remarks": found.remarks,
            "assumed_units": found.assumed_units,
        }
    )


def vehicles_answer(rows: tuple[TypicalRow, ...]) -> VehiclesAnswer:
    """Return the list of typical vehicles."""
    return VehiclesAnswer(
        vehicles=tuple(
            VehicleRow(name=row.name, title=row.title, where=row.where, own_facts=row.own_facts) for row in rows
        )
    )


def explain_answer(found: Explanation) -> ExplainAnswer:
    """Return an explanation."""
    return ExplainAnswer(
        name=found.name,
        means=found.means,
        equations=found.equations,
        sources=found.sources,
        assumptions=found.assumptions,
        files=found.files,
    )
