"""The band of the gauge on one line, with the limit and boiling: drawn anew with every turn of a dial."""

from __future__ import annotations

from typing import TYPE_CHECKING

from toptank.units.dimension import TEMPERATURE
from toptank.units.display import show

if TYPE_CHECKING:
    from toptank.shop.door import WhatIf
    from toptank.units.conversion import System

COOL = 338.15
"""Where the line begins [K]: no engine that runs as it should is cooler."""

BEYOND = 10.0
"""How far beyond boiling it goes [K]."""

WIDTH, HEIGHT = 1000.0, 56.0


def live_band(answer: WhatIf, system: System) -> str:
    """Return the line as SVG that stretches to any width; its words stand beside it on the page."""
    end = answer.boiling_point.p50 + BEYOND

    def at(T: float) -> float:
        return WIDTH * min(max((T - COOL) / (end - COOL), 0.0), 1.0)

    low, middle, high = (at(T) for T in answer.gauge)
    was_low, _, was_high = (at(T) for T in answer.gauge_before)
    limit, boils = at(answer.limit), at(answer.boiling_point.p50)
    over = " over" if answer.gauge.p50 > answer.limit else ""
    body = (
        f'<line x1="0" y1="44" x2="{WIDTH:g}" y2="44" class="rule"/>',
        f'<rect x="{was_low:.1f}" y="46" width="{max(was_high - was_low, 4.0):.1f}" height="7" class="shade"/>'
        if answer.changed
        else "",
        f'<rect x="{low:.1f}" y="10" width="{max(high - low, 4.0):.1f}" height="30" class="band{over}"/>',
        f'<line x1="{middle:.1f}" y1="5" x2="{middle:.1f}" y2="44" class="middle"/>',
        f'<line x1="{limit:.1f}" y1="0" x2="{limit:.1f}" y2="56" class="limit"/>',
        *(
            f'<line x1="{boils + shift:.1f}" y1="0" x2="{boils + shift:.1f}" y2="56" class="boil"/>'
            for shift in (-7, 7)
        ),
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH:g} {HEIGHT:g}" preserveAspectRatio="none" '
        f'class="drawn line" role="img" aria-label="{says(answer, system)}">{"".join(body)}</svg>'
    )


def says(answer: WhatIf, system: System) -> str:
    """Say the band in a sentence."""
    low, middle, high = (show(T, TEMPERATURE, system) for T in answer.gauge)
    if answer.boils > 0.5:
        return f"boils in {_of_hundred(answer.boils)}."
    words = f"gauge {low.split()[0]} to {high}, middle {middle.split()[0]}"
    words += f"; over your limit in {_of_hundred(answer.over_limit)}"
    return words + (f", boils in {_of_hundred(answer.boils)}." if answer.boils > 0.005 else ".")


def _of_hundred(share: float) -> str:
    hundred = round(100.0 * share)
    if hundred == 0:
        return "fewer than 1 of 100" if share > 0.0 else "none of 100"
    return f"{hundred} of 100"


def marks_at(answer: WhatIf) -> tuple[float, float]:
    """Places of the limit and of boiling along the line [%]."""
    end = answer.boiling_point.p50 + BEYOND

    def at(T: float) -> float:
        return 100.0 * min(max((T - COOL) / (end - COOL), 0.0), 1.0)

    return at(answer.limit), at(answer.boiling_point.p50)


def ends(answer: WhatIf, system: System) -> tuple[str, str]:
    """Figures at both ends of the line."""
    return show(COOL, TEMPERATURE, system), show(answer.boiling_point.p50 + BEYOND, TEMPERATURE, system)
