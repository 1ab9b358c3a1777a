"""What is known of the trouble: readings at duties, findings of checks, parts changed, how it began."""

from dataclasses import dataclass
from typing import TypeAlias

from toptank.catalogue.causes.cause import ONSETS
from toptank.catalogue.work import WORK

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

__all__ = [
    "EFFECTS",
    "NEEDLE",
    "ONSETS",
    "PLACES",
    "TOLD",
    "WORDS",
    "WORK",
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
    """What a check (id) showed: an outcome (id), or a figure in SI. `decisive`: it saw the defect itself."""

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
    """Work that was done, one of `WORK`, what it did, one of `EFFECTS`, and a note on it in anybody's words."""

    part: str
    effect: str
    note: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class History:
    """What came before.

    Parameters
    ----------
    onset : how it began, one of `ONSETS`, or None
    after_work : of `WORK`, what was done just before it began
    doubtful : of `WORK`, what gave trouble before
    renewed : of `WORK`, what is new
    distance : driven by the vehicle [m], or None
    """

    onset: str | None = None
    after_work: tuple[str, ...] = ()
    doubtful: tuple[str, ...] = ()
    renewed: tuple[str, ...] = ()
    distance: float | None = None


Piece: TypeAlias = Reading | Finding | Changed | History | Told
"""One piece of evidence."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Evidence:
    """All that is known of the trouble."""

    readings: tuple[Reading, ...] = ()
    findings: tuple[Finding, ...] = ()
    changes: tuple[Changed, ...] = ()
    symptoms: tuple[Told, ...] = ()
    history: History = History()

    @property
    def pieces(self) -> tuple[Piece, ...]:
        """Every piece of it, in the order of the likelihoods; the history is one piece, where anything is known.

        What was not told is weighed last, and is no piece.
        """
        history = (self.history,) if self.history != History() else ()
        return (*self.readings, *self.findings, *self.changes, *history, *self.symptoms)
