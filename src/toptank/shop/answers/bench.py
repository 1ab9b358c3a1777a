"""The answers that need no job: `core`, `boil`, `freeze`, `vehicles`, `explain`, `sheet new`."""

from __future__ import annotations

from typing import Literal

from toptank.shop.answers.answer import Amount, Answer, Count, Glycol, Percent, Remarked, Text, Texts


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
