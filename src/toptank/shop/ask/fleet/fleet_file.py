"""The vehicles of a fleet as a file: JSON Lines with all that is known, CSV and Parquet with a column a figure."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING, Any

import polars as pl

from toptank.shop.answers.fleet import FleetAnswer, FleetVehicleAnswer, eased
from toptank.shop.files.atomic_write import check_place, write_whole
from toptank.units.refusal import Refusal

if TYPE_CHECKING:
    from pathlib import Path

    from toptank.units.conversion import System

KINDS = (".csv", ".parquet", ".jsonl")


def check_fleet_file(out: Path, *, replace: bool) -> None:
    """Refuse an output that cannot be written, before any work is done."""
    if out.suffix.lower() not in KINDS:
        raise Refusal(field="out", value=str(out), limit=f"must end in {', '.join(KINDS)}", fix="name the file so")
    check_place(out, replace=replace)


def write_fleet(answer: FleetAnswer, out: Path, system: System, *, replace: bool) -> None:
    """Write the vehicles, the surest first, then what was left out; whole or not at all."""
    kind = out.suffix.lower()
    if kind == ".jsonl":
        lines = [one.json_text(system) for one in (*answer.vehicles, *answer.left_out)]
        write_whole(out, "".join(f"{line}\n" for line in lines).encode("utf-8"), replace=replace)
        return
    rows = [_row(one, system) for one in answer.vehicles]
    rows += [{"id": one.id, "file": one.file, "line": one.line, "left_out": _why(one)} for one in answer.left_out]
    table = pl.DataFrame(rows, schema=_SCHEMA)
    content = io.BytesIO()
    if kind == ".csv":
        table.write_csv(content)
    else:
        table.write_parquet(content, compression="zstd", statistics=False)
    write_whole(out, content.getvalue(), replace=replace)


_SCHEMA: dict[str, Any] = {
    "id": pl.String, "title": pl.String, "file": pl.String, "line": pl.Int64, "like": pl.String, "known": pl.Int64,
    "rests_on": pl.String, "limit_degC": pl.Float64, "holds_pct": pl.Float64, "chance_to_boil_pct": pl.Float64,
    "hottest_place": pl.String, "gauge_p10_degC": pl.Float64, "gauge_p50_degC": pl.Float64,
    "gauge_p90_degC": pl.Float64, "bears_p10_degC": pl.Float64, "bears_p50_degC": pl.Float64,
    "bears_p90_degC": pl.Float64, "leave_until": pl.String, "leave_from": pl.String, "what_eases_it": pl.String,
    "work": pl.String, "work_cost": pl.Float64, "work_holds_pct": pl.Float64, "left_out": pl.String,
}  # fmt: skip


def _row(one: FleetVehicleAnswer, system: System) -> dict[str, Any]:
    record: dict[str, Any] = one.record(system)
    row = {key: record[key] for key in _SCHEMA if key in record and key not in ("work",)}
    for name in ("gauge", "bears"):
        row |= {f"{name}_{end}_degC": figure for end, figure in record[f"{name}_degC"].items()}
    row["what_eases_it"] = eased(one)
    if record["work"] is not None:
        work = record["work"]
        row |= {"work": work["work"], "work_cost": work["cost"], "work_holds_pct": work["holds_pct"]}
    return row


def _why(one: Any) -> str:
    return f"{one.field} = {one.value}: {one.limit}; {one.fix}"
