"""What is known of the trouble: readings at duties, findings of checks, parts changed, how it began."""

from dataclasses import dataclass

from toptank.catalogue.causes.cause import ONSETS

WORDS = ("fine", "warm", "hot", "boiled")
"""What a driver says where no figure was read."""

NEEDLE = ("low", "half", "three quarters", "red")
"""Where the needle of a gauge without figures stood."""

PLACES = ("gauge", "second", "transmission")
"""What was read: the vehicle's gauge, another instrument in the coolant, the fluid of the transmission."""

TOLD = ("said", "denied")
"""What a driver did with a symptom; what he passes over is not written down."""

EFFECTS = ("none", "helped", "cured", "worse")
"""What a changed part did."""

PARTS = (
    "radiator", "larger radiator", "radiator cleaned", "radiator rodded", "thermostat", "thermostat removed",
    "water pump", "cap",
    "fan clutch", "fan", "electric fan", "fan control", "shroud", "belt", "hoses", "sender", "gauge", "coolant",
    "flush", "head gasket", "engine rebuilt", "ignition timing", "carburettor", "transmission cooler", "condenser",
    "grille", "air filter", "brakes", "exhaust", "heater", "sealer",
)  # fmt: skip
"""Parts that are changed and work that is done against running hot, or just before it."""

__all__ = [
    "EFFECTS",
    "NEEDLE",
    "ONSETS",
    "PARTS",
    "PLACES",
    "TOLD",
    "WORDS",
    "Changed",
    "Evidence",
    "Finding",
    "History",
    "Reading",
    "Told",
]


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was seen at a duty.

    Parameters
    ----------
    duty : name of the duty
    low, high : the temperature lay between these [K]; None where one side is open, equal for one figure
    words : what the driver said, one of `WORDS`
    needle : where the needle stood, one of `NEEDLE`
    place : what was read, one of `PLACES`
    note : anything else, in his own words
    """

    duty: str
    low: float | None = None
    high: float | None = None
    words: str | None = None
    needle: str | None = None
    place: str = "gauge"
    note: str = ""

    @property
    def figure(self) -> float | None:
        """The middle of what was read [K], where both sides are known."""
        return None if self.low is None or self.high is None else 0.5 * (self.low + self.high)


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """What a check showed: one of its outcomes, or a figure in SI. `decisive`: it saw the defect itself."""

    check: str
    outcome: str | None = None
    figure: float | None = None
    decisive: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Told:
    """A symptom that the driver told of, or denied: its id in the catalogue of symptoms."""

    symptom: str
    denied: bool = False
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Changed:
    """A part that was changed, or work done, and what it did: one of `EFFECTS`."""

    part: str
    effect: str


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What came before.

    Parameters
    ----------
    onset : how it began, one of `ONSETS`, or None
    after_work : parts of `PARTS` that were worked on just before it began
    doubtful : parts that gave trouble before
    renewed : parts that are new
    distance : driven by the vehicle [m], or None
    """

    onset: str | None = None
    after_work: tuple[str, ...] = ()
    doubtful: tuple[str, ...] = ()
    renewed: tuple[str, ...] = ()
    distance: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """All that is known of the trouble."""

    readings: tuple[Reading, ...] = ()
    findings: tuple[Finding, ...] = ()
    changes: tuple[Changed, ...] = ()
    symptoms: tuple[Told, ...] = ()
    history: History = History()
