"""docs/calibration.md and its pictures, from the results of a calibration alone."""

import textwrap
from collections.abc import Callable
from pathlib import Path
from typing import Any

import numpy as np

from calibrating.counting import ENDLESS
from calibrating.evidence import REGIMES
from calibrating.pictures import left_out_picture

Found = dict[str, Any]
Rows = list[dict[str, Any]]

BEGIN, END = "<!-- measured by others: written by `uv run poe calibrate --page` -->", "<!-- end -->"

ROAD = ("warm-up", "hot idle", "moving", "climb")

HEADER = """\
# Calibration: what measurements say of the constants that no paper fixes

This page is written by `tools/calibrate.py` from `calibration/results.json`; do not edit it. `uv run poe calibrate`
samples anew and writes both, `uv run poe calibrate --page` this page alone.

**How.** Every file of `calibration/evidence/` holds what one source measured, as figures with their errors: no series,
drives as legs with mean values. The real forward model (sheet of the nearest typical vehicle scaled by what is known,
possible vehicles, `drive` or `steady`) answers the same questions. A constant is a factor on what typical sheets
assume. Its middle over all vehicles and its spread between them are sampled, together with what remains unexplained in
each regime, by NUTS (NumPyro) over all sources at once. Figures are emulated by quadratics fitted to runs of the real
model; what those do not tell, other unknowns of the vehicle and the emulator's own error on held-out runs, enters as a
covariance. No middle of a factor leaves its physical range; single vehicles may, within the hard limits of the field.
**What is printed as left out is the real model, not the emulator**: calibrated on all other sources, then asked about a
source it has not seen. Two things it has been told all the same: at which temperatures that vehicle's thermostat and
fan are set (read off the same log where no stamp is known; a shop reads the stamp), and the middles of typical sheets,
for which the six logged vehicles were looked at before this calibration.

*Common practice* (`told_sound_vehicles`: what a sound vehicle of each kind reads, 8 °F) is weak evidence for kinds
that no log speaks of. It is read in the calibration, and never counted as measured. What is forecast is drawn as the
product draws it: tied so that a sound vehicle keeps within what its kind reads (decisions/made-to-hold.md).
"""

EXPECTED = """
Three tests of `tests/validation/test_idle_logs2020.py` ask the middle vehicle for the cold idles of petrol_small_2014,
nothing fitted, and are expected to fail (strictly, so that one that passes is seen). Its coolant jumps 5 K ahead of
ours within the first 50 s and stays 7 to 10 K ahead: along the warm-up, in the time to 80 °C, and so where the
thermostat is to open. Its fuel is worked out from manifold pressure, to 10 %; no other log shows the jump, and nothing
was moved for it.
"""


def write_page(found: Found, docs: Path) -> None:
    """Write docs/calibration.md and docs/calibration/*.svg."""
    (docs / "calibration.md").write_text(page(found), encoding="utf-8")
    folder = docs / "calibration"
    folder.mkdir(exist_ok=True)
    for old in folder.glob("*.svg"):
        old.unlink()
    for name in _left_out_names(found):
        rows = [row for row in found["left_out"] if _source(row) == name and row["regime"] in ROAD]
        if rows:
            left_out_picture(rows, folder / f"{name}.svg")


def page(found: Found) -> str:
    """The page as text."""
    parts = [HEADER, _headline(found), _by_regime(found), _by_source(found), _constants(found), _remains(found)]
    return "\n".join([*parts, _unexplained(found), _pictures(found), _evidence(found)])


def headline(found: Found) -> str:
    """One sentence of what holds, for the front page too."""
    rows = found["left_out"]
    kelvin = [abs(row["middle"] - row["value"]) for row in rows if row["regime"] in ROAD and not row["share"]]
    return (
        f"{_inside(rows)} of {len(rows)} figures measured by others lie inside the 80 % band of a model that has not "
        f"seen their vehicle ({100 * _inside(rows) / len(rows):.0f} %; {_by_vehicle(rows)} sources, each counting the "
        f"same); the median miss of a temperature is {np.median(kelvin):.1f} K."
    )


def with_headline(front: str, found: Found) -> str:
    """The front page with that sentence between its two marks."""
    begin, end = front.index(BEGIN) + len(BEGIN), front.index(END)
    return front[:begin] + "\n" + textwrap.fill(headline(found), 120) + "\n" + front[end:]


def _headline(found: Found) -> str:
    told = [row for row in found["inside"] if row["source"].startswith("told")]
    return (
        f"**Left out, one source at a time: {headline(found)}**\n\n"
        f"Of {len(told)} figures of common practice {_inside(told)} lie inside: no proof, as they were calibrated on.\n"
    )


def _by_regime(found: Found) -> str:
    lines = [
        "## By regime, left out\n",
        "*Each the same*: the mean over the sources; one diesel's warm-ups are more than half of all figures.\n",
        "*Side*: ours less measured, mean of temperatures, median of shares.\n",
        "| regime | figures | inside the 80 % band | sources, each the same | median miss | side | median width |",
        "|---|---|---|---|---|---|---|",
    ]
    for regime in (*REGIMES, "times to a temperature"):
        rows = _of_regime(found["left_out"], regime)
        if rows:
            lines.append(
                f"| {regime} | {len(rows)} | {_share(rows)} | {_by_vehicle(rows)} | {_miss(rows)} | {_side(rows)} "
                f"| {_width(rows)} |"
            )
    return "\n".join(lines) + "\n" + _warm_up_by_temperature(found)


def _side(rows: Rows) -> str:
    """How far ours lies to one side in the mean: mean of temperatures [K], median of shares [%]; no endless band."""
    kelvin = [row["middle"] - row["value"] for row in rows if not row["share"] and np.isfinite(row["middle"])]
    shares = [row["middle"] / row["value"] - 1.0 for row in rows if row["share"] and np.isfinite(row["middle"])]
    parts = [f"{np.mean(kelvin):+.1f} K"] if kelvin else []
    return " / ".join([*parts, *([f"{100.0 * np.median(shares):+.0f} %"] if shares else [])])


WARMTHS = ((-40.0, 50.0), (50.0, 65.0), (65.0, 150.0))
"""Measured temperatures along a warm-up that are told apart [degC]."""


def _warm_up_by_temperature(found: Found) -> str:
    """A miss that lies on one side where a band is wide enough to hold it, for each source."""
    lines = [
        "\nAlong warm-ups the side by how warm it was, each source for itself; a wide band can hold a miss that always "
        "goes the same way:\n",
        "| source | under 50 °C | 50 to 65 °C | over 65 °C |",
        "|---|---|---|---|",
    ]
    for name in _left_out_names(found):
        rows = [
            row
            for row in found["left_out"]
            if _source(row) == name and row["regime"] == "warm-up" and row["ask"] != "time to" and not row["share"]
        ]
        told = [_side([row for row in rows if low <= row["value"] < high]) for low, high in WARMTHS]
        if rows:
            lines.append(f"| {name} | {' | '.join(one or '–' for one in told)} |")
    return "\n".join(lines) + "\n"


def _of_regime(rows: Rows, regime: str) -> Rows:
    if regime == "times to a temperature":
        return [row for row in rows if row["ask"] == "time to"]
    return [row for row in rows if row["regime"] == regime and row["ask"] != "time to"]


def _by_source(found: Found) -> str:
    lines = [
        "## By source\n",
        "Left out: calibrated on all others. All in: calibrated with it too.\n",
        "| source | figures | left out, inside | median miss | all in, inside |",
        "|---|---|---|---|---|",
    ]
    for name in _left_out_names(found):
        out = [row for row in found["left_out"] if _source(row) == name]
        held = [row for row in found["inside"] if _source(row) == name]
        lines.append(f"| {name} | {len(out)} | {_share(out)} | {_miss(out)} | {_share(held)} |")
    return "\n".join(lines) + "\n"


def _constants(found: Found) -> str:
    lines = [
        "## Constants: prior beside posterior\n",
        "Factors on what typical sheets assume. *Middle*: of all vehicles, with what is left of its doubt. *Between*: "
        "from one vehicle to the next. *Narrowed*: doubt of the middle, after over before.\n",
        "| constant | prior: middle, between | posterior: middle, between | narrowed | range | prior from |",
        "|---|---|---|---|---|---|",
    ]
    lines += [
        f"| `{one['path']}` | 1 ± {one['prior_population']:.2f}, {one['prior_between']:.2f} "
        f"| {one['factor']:.2f} ± {one['population']:.2f}, {one['between']:.2f} "
        f"| {one['population'] / one['prior_population']:.2f} | {one['lowest']:g} to {one['highest']:g} "
        f"| {one['source']} |"
        for one in found["constants"]
    ]
    sampling = found["sampling"]
    lines.append(
        f"\nWorst r-hat {sampling['r_hat']:.3f}, least effective number of draws {sampling['effective']}. Emulators "
        f"leave {min(found['emulators'].values()):.2f} to {max(found['emulators'].values()):.2f} of the scatter of the "
        "figures on runs held out: mostly what else is unknown of the vehicle; all of it is counted as doubt."
    )
    return "\n".join(lines) + "\n"


def _remains(found: Found) -> str:
    units = {"fan cycle": "of a time", "effects": "of the conductance", "engine": "of the fuel, or of its amount"}
    lines = [
        "## What remains\n",
        "What the right model of the right vehicle still misses, one standard deviation; every band of a forecast, a",
        "drive or a repair, and the error of every reading, holds it. A fit bends a vehicle's own constants to its",
        "figures; what it leaves is too little for the next vehicle. So every regime gets what its left-out figures",
        "ask for beyond their bands (a drive counts once, a source with the root of its drives; of a left-out source,",
        "from the others).\n",
        "| regime | left by the fit | remains |",
        "|---|---|---|",
    ]
    for kind, sd in found["remains"].items():
        fit = found["left_by_fit"][kind]
        share = f"| {kind} | {100 * fit:.0f} % | {100 * sd:.0f} % {units.get(kind, '')} |"
        lines.append(share if kind in units else f"| {kind} | {fit:.1f} K | {sd:.1f} K |")
    return "\n".join(lines) + "\n"


def _unexplained(found: Found) -> str:
    lines = ["## What is not explained\n"]
    lines.append("Figures of a left-out source that lie further off than the band is wide:\n")
    known = [row for row in found["left_out"] if row["high"] < ENDLESS]
    endless = len(found["left_out"]) - len(known)
    if endless:
        lines.insert(
            1, f"{endless} bands have no end, as some vehicles never show the figure; they count as outside.\n"
        )
    far = [row for row in known if abs(row["value"] - row["middle"]) > row["high"] - row["low"]]
    lines += [_far(row) for row in far]
    if not far:
        lines.append("- none")
    below = [name for name in _left_out_names(found) if _ratio(found, name) < 0.5]
    lines.append("\nSources of which less than half lies inside: " + (", ".join(below) or "none") + ".")
    lines.append(EXPECTED.rstrip())
    return "\n".join(lines) + "\n"


def _far(row: dict[str, Any]) -> str:
    asked = " ".join(f"{value:g}" if isinstance(value, float | int) else value for value in row["of"].values())
    return (
        f"- {row['source']}, {row['drive']}: {row['ask']} {asked}: measured {row['value']:g}, band "
        f"{row['low']:.3g} to {row['high']:.3g}"
    )


def _ratio(found: Found, name: str) -> float:
    rows = [row for row in found["left_out"] if _source(row) == name]
    return _inside(rows) / len(rows)


def _pictures(found: Found) -> str:
    lines = ["## Left-out forecasts\n", "Bar: the 80 % band; tick: its middle; dot: what was measured.\n"]
    drawn = {_source(row) for row in found["left_out"] if row["regime"] in ROAD}
    lines += [f"![{name}](calibration/{name}.svg)\n" for name in _left_out_names(found) if name in drawn]
    return "\n".join(lines)


def _evidence(found: Found) -> str:
    lines = ["## Evidence\n", "| source | what | where from | trust |", "|---|---|---|---|"]
    seen: set[str] = set()
    for one in found["sources"]:
        name = one["name"].split("/")[0]
        if name not in seen:
            seen.add(name)
            lines.append(f"| {name} `{found['evidence'][name]}` | {one['title']} | {one['where']} | {one['trust']} |")
    return "\n".join(lines) + "\n"


def _left_out_names(found: Found) -> list[str]:
    return list(dict.fromkeys(_source(row) for row in found["left_out"]))


def _inside(rows: Rows) -> int:
    """How many lie inside; a band without an end holds nothing."""
    return sum(row["low"] <= row["value"] <= row["high"] < ENDLESS for row in rows)


def _by_vehicle(rows: Rows) -> str:
    """Mean over the sources of the share that lies inside, each source counting the same."""
    sources = dict.fromkeys(_source(row) for row in rows)
    shares = [_inside(mine) / len(mine) for name in sources if (mine := [row for row in rows if _source(row) == name])]
    return f"{100 * np.mean(shares):.0f} % of {len(shares)}"


def _source(row: dict[str, Any]) -> str:
    return row["source"].split("/")[0]


def _share(rows: Rows) -> str:
    return f"{_inside(rows)} of {len(rows)} ({100 * _inside(rows) / len(rows):.0f} %)" if rows else "-"


def _miss(rows: Rows) -> str:
    return _told(rows, lambda row: abs(row["middle"] - row["value"]))


def _width(rows: Rows) -> str:
    """Widths of the bands that end: that of a fan which may never cycle does not."""
    return _told([row for row in rows if row["high"] < ENDLESS], lambda row: row["high"] - row["low"])


def _told(rows: Rows, size: Callable[[dict[str, Any]], float]) -> str:
    """Median of a size: of temperatures in kelvin, of lengths of time and shares as a share of what was measured."""
    kelvin = [size(row) for row in rows if not row["share"]]
    shares = [size(row) / abs(row["value"]) for row in rows if row["share"]]
    words = [f"{np.median(kelvin):.1f} K"] if kelvin else []
    return " / ".join([*words, *([f"{100 * np.median(shares):.0f} %"] if shares else [])])
