"""How many figures lie inside their bands, and how far off the middle is."""

from dataclasses import dataclass

import numpy as np

from calibrating.evidence import REGIMES, Figure, Floats, Source

BAND = (10.0, 90.0)
"""Percentiles of the 80 % band."""

ENDLESS = 1e5
"""From here on a band has no end: some vehicles do not show the figure at all, a fan that never cycles."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One figure beside its band."""

    source: str
    drive: str
    figure: Figure
    low: float
    middle: float
    high: float

    @property
    def inside(self) -> bool:
        """Whether what was measured lies inside; a band without an end says too little to hold anything."""
        return self.low <= self.figure.value <= self.high < ENDLESS

    @property
    def miss(self) -> float:
        """Middle less measured; of times and shares as a share of what was measured."""
        off = self.middle - self.figure.value
        return off / abs(self.figure.value) if self.figure.by_share else off

    def line(self) -> str:
        """One line of text."""
        of = " ".join(f"{word:g}" if isinstance(word, float | int) else str(word) for word in self.figure.of.values())
        mark = "  " if self.inside else "! "
        return (
            f"{mark}{self.source:26.26} {self.drive:34.34} {self.figure.ask} {of}: measured {self.figure.value:g}, "
            f"{self.low:.3g} .. {self.middle:.3g} .. {self.high:.3g}"
        )


def counted(source: Source, shown: Floats, *, more: Floats | None = None, seed: int = 1) -> list[Row]:
    """Rows of a source from what possible vehicles show (draw, figure).

    A forecast of a reading carries the error of the instrument, and `more` (figure,), a standard deviation of what
    the right model may miss. A figure that a draw does not show at all (a fan that never cycles) counts as beyond;
    where that leaves a band without an end, nothing lies inside.
    """
    rng = np.random.default_rng(seed)
    rows: list[Row] = []
    for place, (figure, drive) in enumerate(zip(source.figures, source.drive_of, strict=True)):
        scatter = np.hypot(figure.error, 0.0 if more is None else more[place])
        values = shown[:, place] + scatter * rng.standard_normal(len(shown))
        low, middle, high = np.percentile(np.where(np.isfinite(values), values, 10.0 * ENDLESS), (10.0, 50.0, 90.0))
        rows.append(
            Row(source=source.name, drive=drive, figure=figure, low=float(low), middle=float(middle), high=float(high))
        )
    return rows


def table(rows: list[Row]) -> str:
    """Coverage and errors by source and by regime, as text."""
    lines = [f"{'source':28}" + "".join(f"{regime:>18}" for regime in REGIMES) + f"{'all':>18}"]
    names = list(dict.fromkeys(row.source for row in rows))
    for name in [*names, ""]:
        mine = [row for row in rows if not name or row.source == name]
        cells = [_cell([row for row in mine if row.figure.regime == regime]) for regime in REGIMES]
        lines.append(f"{name or 'all':28}" + "".join(f"{cell:>18}" for cell in [*cells, _cell(mine)]))
    for regime in REGIMES:
        misses = [abs(row.miss) for row in rows if row.figure.regime == regime and not row.figure.by_share]
        widths = [row.high - row.low for row in rows if row.figure.regime == regime and not row.figure.by_share]
        if misses:
            lines.append(f"{regime}: median miss {np.median(misses):.1f} K, median band {np.median(widths):.1f} K")
    times = [abs(row.miss) for row in rows if row.figure.ask == "time to"]
    if times:
        lines.append(f"times to a temperature: {100 * np.median(times):.0f} % off in the middle")
    shares = [abs(row.miss) for row in rows if row.figure.regime in ("air", "engine")]
    if shares:
        lines.append(f"effects and shares: {100 * np.median(shares):.0f} % off in the middle")
    return "\n".join(lines)


def _cell(rows: list[Row]) -> str:
    if not rows:
        return "-"
    kelvin = [abs(row.miss) for row in rows if not row.figure.by_share]
    off = f" {np.median(kelvin):.1f} K" if kelvin else ""
    return f"{sum(row.inside for row in rows)} of {len(rows)}{off}"
