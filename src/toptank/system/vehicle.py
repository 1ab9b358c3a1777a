"""A whole vehicle: every part that bears on where the temperatures settle."""

from dataclasses import dataclass, field

from toptank.parts.body import Body
from toptank.parts.cap import Cap
from toptank.parts.condenser import Condenser
from toptank.parts.core import Core
from toptank.parts.drivetrain import Drivetrain
from toptank.parts.engine import Engine
from toptank.parts.fan import Fan
from toptank.parts.fan_clutch import FanClutch
from toptank.parts.fill import Fill
from toptank.parts.gauge import Gauge
from toptank.parts.grille import Grille
from toptank.parts.heater import Heater
from toptank.parts.hoses import Hoses
from toptank.parts.shroud import Shroud
from toptank.parts.thermostat import Thermostat
from toptank.parts.transmission_cooler import TransmissionCooler
from toptank.parts.water_pump import WaterPump
from toptank.system.model_uncertainty import ModelUncertainty
from toptank.system.numerics.jax_library import jax


@dataclass(frozen=True, slots=True, kw_only=True)
class Vehicle:
    """Parts and doubts. Every field may be a number or an array of draws."""

    core: Core = field(default_factory=Core)
    fan: Fan = field(default_factory=Fan)
    fan_clutch: FanClutch = field(default_factory=FanClutch)
    shroud: Shroud = field(default_factory=Shroud)
    grille: Grille = field(default_factory=Grille)
    condenser: Condenser = field(default_factory=Condenser)
    water_pump: WaterPump = field(default_factory=WaterPump)
    thermostat: Thermostat = field(default_factory=Thermostat)
    hoses: Hoses = field(default_factory=Hoses)
    cap: Cap = field(default_factory=Cap)
    fill: Fill = field(default_factory=Fill)
    gauge: Gauge = field(default_factory=Gauge)
    heater: Heater = field(default_factory=Heater)
    transmission_cooler: TransmissionCooler = field(default_factory=TransmissionCooler)
    engine: Engine = field(default_factory=Engine)
    drivetrain: Drivetrain = field(default_factory=Drivetrain)
    body: Body = field(default_factory=Body)
    doubts: ModelUncertainty = field(default_factory=ModelUncertainty)


# Parts know nothing of JAX; here, where they are first put into a solver, they become trees of arrays.
_TREES = (
    Core, Fan, FanClutch, Shroud, Grille, Condenser, WaterPump, Thermostat, Hoses, Cap, Fill, Gauge, Heater,
    TransmissionCooler, Engine, Drivetrain, Body, ModelUncertainty, Vehicle,
)  # fmt: skip
for _tree in _TREES:
    jax.tree_util.register_dataclass(_tree)
