"""Which checks can still be made: those whose part is fitted, and facts of the sheet that a bay can measure."""

from collections.abc import Iterator

import numpy as np
from scipy.special import ndtr

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.checks.check import MEASURED, Check, checks
from toptank.knowledge.sheet import Provenance, Sheet, declaration_of, spread_known
from toptank.studies.diagnose.cause_sets import Floats
from toptank.studies.diagnose.ensemble import Ensemble
from toptank.studies.diagnose.likelihood import figure_error, figures, outcome_chances
from toptank.system.vehicle import Vehicle
from toptank.units.dimension import CHOICE, YES_NO

FACT = "fact"
FACT_MINUTES = 5.0
"""Minutes to measure a fact of the sheet with tape, count or caliper [min]; judgement."""

SEEN_BY_CHECKS = (
    "fill.air", "core.scale_thickness", "core.loose_fins", "water_pump.wear", "water_pump.belt_slip", "fan.belt_slip",
    "fan.strength", "hoses.collapse", "grille.leakage", "shroud.gap_share", "shroud.recirculation",
    "fan_clutch.engages", "fan_clutch.engaged_ratio", "fan_clutch.released_ratio", "thermostat.largest_opening",
    "thermostat.smallest_opening", "gauge.error", "fan.supply",
)  # fmt: skip
"""Fields that a named check looks at already."""


def open_checks(sheet: Sheet, possible: Ensemble, done: set[str]) -> Iterator[tuple[Check, Floats, Floats | None]]:
    """Every check not made yet, with the chance of each outcome on every vehicle and the edges of its figures."""
    for check in [*checks().values(), *_facts(sheet)]:
        if check.id in done or not applies(check, possible.vehicle):
            continue
        if check.dimension is None:
            yield check, outcome_chances(check, CAUSES, possible.severity), None
            continue
        figure = np.asarray(figures(check, possible), float)
        error = figure_error(check, figure)
        if not np.all(np.isfinite(figure)) or float(figure.std()) < 0.5 * float(error.mean()):
            continue
        edges = np.quantile(figure, [1.0 / 3.0, 2.0 / 3.0])
        if edges[1] - edges[0] <= 1e-9 * abs(edges[1]):
            edges = edges[:1]
        below = ndtr((edges[None, :] - figure[:, None]) / error[:, None])
        bounds = np.concatenate([np.zeros((possible.n, 1)), below, np.ones((possible.n, 1))], axis=1)
        yield check, np.diff(bounds, axis=1), edges


def applies(check: Check, vehicle: Vehicle) -> bool:
    """Whether most simulations of the vehicle have what the check is made on."""
    return fitted_on(check.only_on, vehicle)


def fitted_on(part: str, vehicle: Vehicle) -> bool:
    """Whether most simulations of the vehicle have a part, in the words of checks; nothing is on all."""
    fitted = {
        "": 1.0,
        "viscous_clutch": vehicle.fan.clutched(),
        "electric_fan": vehicle.fan.electric(),
        "belt_driven_fan": 1.0 - vehicle.fan.electric(),
        "automatic": vehicle.drivetrain.kind,
        "air_conditioning": vehicle.condenser.present,
        "shroud": vehicle.shroud.present,
        "petrol_engine": vehicle.engine.fuel < 0.5,
    }[part]
    return float(np.mean(np.asarray(fitted, float))) > 0.5


def _facts(sheet: Sheet) -> Iterator[Check]:
    """Facts of the sheet that are only assumed and could be measured in the bay, as checks."""
    for path, fact in sheet.facts.items():
        declaration = declaration_of(path)
        own = path in SEEN_BY_CHECKS or any(check.field == path for check in checks().values())
        if fact.how != Provenance.ASSUMED or fact.spread <= 0.0 or own or not declaration.measurable():
            continue
        if declaration.dimension in (CHOICE, YES_NO):
            continue
        error = spread_known(declaration, Provenance.MEASURED)
        yield Check(
            id=f"{MEASURED}{path}",
            group=FACT,
            minutes=FACT_MINUTES,
            hazards=("fact",),
            source="judgement",
            shown_by={},
            field=path,
            dimension=declaration.dimension,
            error=max(error, 1e-12),
            relative=declaration.relative,
        )
