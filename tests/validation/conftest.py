"""Every figure that somebody else published, beside ours: recorded, judged, printed on one page.

`published(...)` judges one figure. A run with TOPTANK_WRITE_DOCS=1 writes all of them to docs/validation.md; a run
without it fails where that page prints something else.
"""

import csv
import json
import os
import re
import tomllib
from collections.abc import Callable
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[2]
PAGE = ROOT / "docs" / "validation.md"
TABLES = Path(__file__).parent / "tables"
REGISTERS = ("src/toptank/equations/sources.toml", "src/toptank/media/sources.toml")
WRITING = os.environ.get("TOPTANK_WRITE_DOCS") == "1"
REMEDY = "run the validation tests with TOPTANK_WRITE_DOCS=1 (poe docs) and commit docs/validation.md"

MEASURED = (
    "car_reports1920", "car_reports1934", "car_reports1936", "doe_fact861", "engine_trials", "epa_testcar",
    "gupta2013", "idle_logs2020", "joel1996",
)  # fmt: skip
"""Sources of figures that somebody read off an instrument: engines, pumps, fans, boiling coolant, certified vehicles.

All other sources print what a formula, a library or a table of properties gives: to agree with them is arithmetic."""

RESULTS = ROOT / "calibration" / "results.json"

HEADER = """\
# What others published, and what toptank computes

This page is written by the tests (`poe docs`); do not edit it. Every line is one figure that somebody else measured,
computed or printed, the figure that our own code gives for the same inputs, and the difference that the tests allow,
with its reason. The difference is ours less the published figure.

Where a line says *evaluated independently* or names an open library, it shows that our arithmetic is that of the
published relation, not that the relation is that of the road; *from memory* marks a figure not seen in print. Measured
figures are those of trials: certified vehicles, heat balances, idle fuel, pumps, fans, boiling under a cap.
"""


@dataclass(frozen=True, slots=True)
class Row:
    """One published figure and ours."""

    source: str
    quantity: str
    where: str
    unit: str
    value: float
    computed: float
    within: float
    because: str
    test: str

    @property
    def head(self) -> str:
        """What the page prints of everything that was published: it must match to the letter."""
        unit = "" if self.unit == "1" else f" {self.unit}"
        return f"| {_cell(self.quantity)} | {_cell(self.where)} | {_number(self.value)}{unit} |"

    @property
    def tail(self) -> str:
        """Tolerance and reason as the page prints them."""
        return f"| {_number(self.within, 2)} | {_cell(self.because)} |"

    @property
    def line(self) -> str:
        """The whole line of the page."""
        difference = self.computed - self.value
        printed = "0" if abs(difference) < 0.005 * self.within else f"{difference:+.2g}"
        return f"{self.head} {_number(self.computed)} | {printed} {self.tail}"


def _number(value: float, digits: int = 5) -> str:
    return f"{value + 0.0:.{digits}g}"


def _cell(text: str) -> str:
    return " ".join(text.split()).replace("|", "/")


def _sources() -> dict[str, dict[str, Any]]:
    paths = [ROOT / register for register in REGISTERS]
    found: dict[str, dict[str, Any]] = {}
    for path in paths:
        if path.exists():
            found |= tomllib.loads(path.read_text(encoding="utf-8"))
    return found


SOURCES = _sources()
_rows: list[Row] = []


@pytest.fixture(scope="session")
def table() -> Callable[[str], list[dict[str, str]]]:
    """Return a reader of tests/validation/tables/; the first line of a table names its published source."""

    def read(name: str) -> list[dict[str, str]]:
        lines = (TABLES / name).read_text(encoding="utf-8").splitlines()
        assert lines[0].startswith("# Source: "), f"{name}: the first line names the source"
        return list(csv.DictReader(line for line in lines if not line.startswith("#")))

    return read


@pytest.fixture
def published(request: pytest.FixtureRequest) -> Any:
    """Return the judge of one published figure."""
    rows: list[Row] = []

    def judge(
        *,
        source: str,
        where: str,
        quantity: str,
        unit: str,
        value: float,
        within: float,
        because: str,
        computed: float,
    ) -> None:
        __tracebackhide__ = True
        assert source in SOURCES, f"{source}: not in sources.toml; add it there, with authors, year, title and where"
        assert within > 0.0, f"{quantity}: a tolerance is a positive number"
        assert len(because) >= 4, f"{quantity}: a tolerance has a reason"
        name = f"{request.path.name}::{getattr(request.node, 'originalname', request.node.name)}"
        row = Row(source, quantity, where, unit, float(value), float(computed), float(within), because, name)
        rows.append(row)
        assert abs(row.computed - row.value) <= row.within, (
            f"{quantity}: {source} ({where}) has {row.value:.6g} {unit}, ours is {row.computed:.6g}; "
            f"allowed {row.within:.3g} because {because}"
        )

    yield judge
    _rows.extend(rows)
    if not WRITING:
        stale = [row for row in rows if not _printed(row)]
        if stale:
            pytest.fail(
                f"docs/validation.md is stale: {stale[0].quantity} ({stale[0].source}); {REMEDY}", pytrace=False
            )


def _printed(row: Row) -> bool:
    """Tell whether the page prints this row, ours to a hundredth of what is allowed (libraries differ that much)."""
    page = PAGE.read_text(encoding="utf-8") if PAGE.exists() else ""
    pattern = re.compile(re.escape(row.head) + r" (\S+) \| \S+ " + re.escape(row.tail))
    slack = 0.01 * row.within + 1e-4 * abs(row.computed)
    return any(abs(float(ours) - row.computed) <= slack for ours in pattern.findall(page))


def _render(rows: list[Row]) -> str:
    excused = tomllib.loads((Path(__file__).parent / "not_validated.toml").read_text(encoding="utf-8"))
    out = [HEADER]
    shown = sorted({row.source for row in rows})
    out += _counts(rows)
    for key in shown:
        source = SOURCES[key]
        out.append(f"## {key}\n")
        out.append(f"{source['authors']} ({source['year']}): {source['title']}. {source['where']}.\n")
        note = [] if source["read"] else ["not read at the source"]
        note += [source["note"]] if source.get("note") else []
        out.append(f"Note: {'; '.join(note)}.\n" if note else "")
        own = [row for row in rows if row.source == key]
        tests = ", ".join(f"`{name}`" for name in sorted({row.test for row in own}))
        out.append(f"Tests: {tests}.\n")
        out.append("| quantity | where | published | ours | difference | allowed | because |")
        out.append("|---|---|---|---|---|---|---|")
        out += [row.line for row in own]
        out.append("")
    out.append("## Sources without a published figure of their own\n")
    out.append("| source | reason |")
    out.append("|---|---|")
    out += [f"| {key} | {_cell(reason)} |" for key, reason in sorted(excused.items())]
    return re.sub(r"\n{3,}", "\n\n", "\n".join(out)) + "\n"


def _counts(rows: list[Row]) -> list[str]:
    """How much of this is measured, and how much is arithmetic: two counts that are never added up."""
    measured = [row for row in rows if row.source in MEASURED]
    left_out = json.loads(RESULTS.read_text(encoding="utf-8"))["left_out"]
    inside = sum(row["low"] <= row["value"] <= row["high"] for row in left_out)
    return [
        f"**Measured by others**: {len(measured)} figures from {len({row.source for row in measured})} sources on this "
        f"page, {sum(abs(row.computed - row.value) <= row.within for row in measured)} of them within what they are "
        f"allowed, and {len(left_out)} figures of whole vehicles, engines and old road "
        f"tests in [calibration.md](calibration.md), of which {inside} lie inside the 80 % band of a model that has "
        "not seen their vehicle.\n",
        f"**Arithmetic checked**: {len(rows) - len(measured)} figures from "
        f"{len({row.source for row in rows} - set(MEASURED))} sources that print what a formula, a library or a table "
        "of properties gives.\n",
    ]


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Write the page: alone, or as the last of several workers, each of which leaves its rows for the others."""
    option = session.config.option
    partial = option.keyword or option.markexpr or any(".py" in argument for argument in session.config.args)
    if not WRITING or session.testsfailed or partial:
        return
    if not hasattr(session.config, "workerinput") and not _rows:
        return  # the process that only hands the tests out to the workers
    worker = getattr(session.config, "workerinput", {"workerid": "alone", "workercount": 1, "testrunuid": "alone"})
    folder = Path(session.config.rootpath) / ".pytest_cache" / "validation" / worker["testrunuid"]
    folder.mkdir(parents=True, exist_ok=True)
    part = folder / f"{worker['workerid']}.part"
    part.write_text(json.dumps([asdict(row) for row in _rows]), encoding="utf-8")
    part.replace(folder / f"{worker['workerid']}.json")
    left = sorted(folder.glob("*.json"))
    if len(left) == worker["workercount"]:
        rows = [Row(**row) for path in left for row in json.loads(path.read_text(encoding="utf-8"))]
        rows.sort(key=lambda row: (row.source, row.test.partition("::")[0], row.quantity, row.where, row.value))
        PAGE.write_text(_render(rows), encoding="utf-8")


@pytest.fixture(scope="session")
def large_old_car() -> Callable[..., Any]:
    """Return a maker of the cars of the reports of 1920 to 1940, which no report describes: a large six or eight.

    6.3 L, 0.29 m2 of dented core upright before a closed bonnet, a 19 in fan at 1.15 times the engine's speed without a
    shroud, plain water, no thermostat, 47 turns a minute for each mile an hour in top gear; ours by judgement.
    """
    import dataclasses

    from toptank.knowledge.sheet import vehicle
    from toptank.knowledge.typical import typical_sheet

    def make(**changes: dict[str, float]) -> Any:
        car = vehicle(typical_sheet("open-car-1930s-four"))
        wheel = 47.5 / 60.0 / 0.44704 * 2.0 * 3.141592653589793 * car.drivetrain.tyre_radius
        large: dict[str, dict[str, float]] = {
            "core": {"face_width": 0.54, "face_height": 0.537, "scale_thickness": 0.0},
            "fan": {"diameter": 0.4826, "belt_ratio": 1.15},
            "fill": {"concentrate": 0.0, "capacity": 0.022},
            "thermostat": {"smallest_opening": 1.0},
            "engine": {"displacement": 6.3e-3, "top_speed": 3200.0 / 60.0, "jacket_area": 15e-4},
            "water_pump": {"free_flow": 1.9 * car.water_pump.free_flow},
            "drivetrain": {"axle_ratio": wheel, "second_ratio": 1.5},
            "body": {"mass": 2300.0, "drag_area": 1.4},
        }
        for part in {**large, **changes}:
            values = {**large.get(part, {}), **changes.get(part, {})}
            car = dataclasses.replace(car, **{part: dataclasses.replace(getattr(car, part), **values)})
        return car

    return make
