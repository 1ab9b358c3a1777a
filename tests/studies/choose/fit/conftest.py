"""A bay in which all was measured, and a radiator that goes in: both invented, to be spoilt a measure at a time."""

from collections.abc import Mapping

import pytest

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import Fact, Provenance, Sheet, declared_sheet, overlay
from toptank.studies.choose.fit.candidate import of_offer, of_plan, of_remedy
from toptank.studies.choose.fit.fit import Fit, fit
from toptank.studies.choose.fit.item import Item
from toptank.studies.choose.fit.measures import FitSheet, Offer, fit_sheet

INCH = 0.0254
SPREAD = 0.0004

# Inches. Room everywhere: the radiator below clears in every respect.
BAY: Mapping[str, float] = {
    "core_depth_now": 2.0,
    "support_depth": 3.0,
    "saddle_width": 3.5,
    "saddle_rubber": 0.25,
    "width_between": 28.0,
    "height_between": 21.0,
    "shroud_to_core": 0.5,
    "shroud_depth": 2.75,
    "blade_depth": 2.5,
    "blade_in_shroud": 1.25,
    "blade_to_engine": 1.5,
    "engine_fore_aft": 0.5,
    "engine_up_down": 0.25,
    "pulley_nose_to_core": 3.0,
    "hood_height": 24.0,
    "top_hose_height": 19.0,
    "top_hose_diameter": 1.5,
    "bottom_hose_height": 2.0,
    "bottom_hose_diameter": 1.75,
    "cap_reach": 0.75,
}
RADIATOR: Mapping[str, float] = {
    "core_depth": 2.0,
    "tank_width": 2.5,
    "overall_width": 27.0,
    "overall_height": 20.0,
    "cap_height": 21.5,
    "top_port_height": 19.0,
    "top_port_diameter": 1.5,
    "bottom_port_height": 2.0,
    "bottom_port_diameter": 1.75,
    "neck_depth": 0.75,
}
# Codes: saddles; shroud on the support; ports right above and left below; large cams; closed cap; 5/16 flare.
BAY_CODES: Mapping[str, float] = {
    "mount": 0.0,
    "shroud_mount": 1.0,
    "top_hose_side": 1.0,
    "bottom_hose_side": 0.0,
    "cap_cam": 1.0,
    "cap_kind": 0.0,
    "cap_upper_gasket": 1.0,
    "cap_vacuum_valve": 1.0,
    "cooler_thread": 2.0,
    "weight_limit": 30.0,
    "alternator_current": 160.0,
    "other_current": 20.0,
}
RADIATOR_CODES: Mapping[str, float] = {
    "passes": 1.0,
    "top_port_side": 1.0,
    "bottom_port_side": 0.0,
    "neck_cam": 1.0,
    "cooler_fittings": 1.0,
    "cooler_thread": 2.0,
    "weight": 18.0,
}
VEHICLE: Mapping[str, float] = {
    "shroud.fan_to_core": 2.0 * INCH,
    "shroud.tip_clearance": 1.25 * INCH,
    "cap.system": 1.0,
    "transmission_cooler.place": 1.0,
}


def found(value: float, spread: float = SPREAD) -> Fact:
    return Fact(value=value, how=Provenance.MEASURED, spread=spread, origin="job file")


def _facts(
    lengths: Mapping[str, float], codes: Mapping[str, float], changed: Mapping[str, float | None]
) -> dict[str, Fact]:
    """Facts from lengths [in] and codes, some changed, and those without a value left out."""
    whole: dict[str, float | None] = {**lengths, **codes, **changed}
    return {
        key: found(value, 0.0) if key in codes else found(value * INCH)
        for key, value in whole.items()
        if value is not None
    }


class Bench:
    """The bay, the vehicle and the radiator: `fits` answers with some measures changed (lengths in inches)."""

    def bay(self, **changed: float | None) -> FitSheet:
        return fit_sheet(_facts(BAY, BAY_CODES, changed))

    def sheet(self, changed: Mapping[str, float] | None = None) -> Sheet:
        facts = {**VEHICLE, **(changed or {})}
        return overlay(declared_sheet(), {path: found(value, 0.0) for path, value in facts.items()})

    def offer(self, **changed: float | None) -> Offer:
        return Offer(name="radiator", parts="", price="", facts=_facts(RADIATOR, RADIATOR_CODES, changed))

    def fits(
        self,
        bay: Mapping[str, float | None] | None = None,
        offer: Mapping[str, float | None] | None = None,
        sheet: Mapping[str, float] | None = None,
    ) -> Fit:
        place, vehicle = self.bay(**(bay or {})), self.sheet(sheet)
        return fit(vehicle, place, of_offer(self.offer(**(offer or {})), vehicle, place))

    def remedy(
        self, name: str, bay: Mapping[str, float | None] | None = None, sheet: Mapping[str, float] | None = None
    ) -> Fit:
        place, vehicle = self.bay(**(bay or {})), self.sheet(sheet)
        chosen = next(remedy for remedy in REMEDIES if remedy.id == name)
        return fit(vehicle, place, of_remedy(chosen, vehicle, place))

    def plan(self, *names: str, bay: Mapping[str, float | None] | None = None) -> Fit:
        place, vehicle = self.bay(**(bay or {})), self.sheet()
        chosen = [remedy for name in names for remedy in REMEDIES if remedy.id == name]
        return fit(vehicle, place, of_plan(chosen, vehicle, place))

    def item(self, answer: Fit, name: str) -> Item:
        return next(item for item in answer.items if item.name == name)


@pytest.fixture
def bench() -> Bench:
    """Return the bench."""
    return Bench()
