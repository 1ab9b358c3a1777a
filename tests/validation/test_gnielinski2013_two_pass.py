"""gnielinski2013: what a second pass gains on the same face, beside a trial computation by another program.

The table is computed with the same published relations, so it shows our arithmetic and the behaviour that follows from
them: a large gain only where the second pass lifts the tubes out of laminar flow. Nobody's measurement was found.
"""

import dataclasses
from collections.abc import Callable
from math import radians
from typing import Any

from toptank.knowledge.sheet import declared_sheet, overlay
from toptank.shop.ask.core_bench import rate

Table = Callable[[str], list[dict[str, str]]]

GPM = 6.30902e-5
LAMINAR, TURBULENT = 2300.0, 4000.0
# The fictional core of the trial: 0.66 x 0.43 m, downflow, copper and brass, 14 louvered fins an inch, clean, smooth.
TRIAL = {
    "core.face_width": 0.66, "core.face_height": 0.43, "core.arrangement": 0.0, "core.tube_width": 0.0159,
    "core.tube_thickness": 0.0024, "core.tube_wall": 0.00013, "core.tube_pitch": 0.0111, "core.row_pitch": 0.0178,
    "core.fin_density": 14.0 / 0.0254, "core.fin_thickness": 0.000076, "core.fin_kind": 0.0,
    "core.louver_pitch": 0.0011, "core.louver_angle": radians(25.0), "core.louver_share": 0.85, "core.material": 0.0,
    "core.scale_thickness": 0.0, "core.blocked_tubes": 0.0, "core.blocked_face": 0.0, "core.loose_fins": 0.0,
    "fill.concentrate": 0.5, "fill.glycol": 0.0, "doubts.tube_enhancement": 1.0,
}  # fmt: skip


def _heat(*, rows: float, gpm: float, passes: float) -> float:
    sheet, given = declared_sheet(), TRIAL | {"core.rows": rows, "core.passes": passes}
    facts = {path: dataclasses.replace(sheet.facts[path], value=value) for path, value in given.items()}
    return rate(overlay(sheet, facts), flow=gpm * GPM, T_coolant_in=374.85, T_air_in=305.35, V_face=4.0).heat


def _gain(rows: float, gpm: float) -> float:
    return 100.0 * (_heat(rows=rows, gpm=gpm, passes=2.0) / _heat(rows=rows, gpm=gpm, passes=1.0) - 1.0)


def test_a_second_pass_gains_what_the_trial_computation_gains(published: Any, table: Table) -> None:
    for row in table("gnielinski2013_two_pass.csv"):
        rows, gpm = float(row["rows"]), float(row["gpm"])
        between = any(LAMINAR < float(row[column]) < TURBULENT for column in ("Re_1pass", "Re_2pass"))
        # within: the trial took the coolant at one temperature, we at its mean, which is 4 % of the Reynolds number;
        # between laminar and turbulent 4 % of it are 13 % of the film and 3.5 points of heat, elsewhere a point
        within, because = (
            (4.0, "4 % of Re, which here are 13 % of the film") if between else (1.5, "4 % of Re: a point")
        )
        published(
            source="gnielinski2013", where="two half cores in series, evaluated independently", unit="%",
            quantity=f"gain of a second pass, {row['rows']} rows, {row['gpm']} gpm", value=float(row["gain_pct"]),
            within=within, because=because, computed=_gain(rows, gpm),
        )  # fmt: skip


def test_only_leaving_laminar_flow_makes_a_second_pass_worth_while(table: Table) -> None:
    """The same table read as behaviour: above 15 % where the tubes leave laminar flow, below 10 % everywhere else."""
    for row in table("gnielinski2013_two_pass.csv"):
        gain = _gain(float(row["rows"]), float(row["gpm"]))
        # the laminar film, Nu 8.4, is doubled on the way to 31.3 at Re 2300 + 8.4 / 22.9 x 1700 = 2900
        lifted = float(row["Re_1pass"]) < 2900.0 < float(row["Re_2pass"])
        assert gain > 0.0
        assert (gain > 15.0) == lifted
        assert (gain < 10.0) != lifted
