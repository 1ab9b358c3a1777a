"""What the verbs of logged drives answer: plain records."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from toptank.knowledge.drives.logged import LoggedDrive
    from toptank.knowledge.drives.stretches import Rate, Stretch, Swings
    from toptank.shop.job.job import Job
    from toptank.shop.log.log_file import LogFile
    from toptank.studies.verify.verdict import Verdict
    from toptank.units.sentence import Text


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """One cause without and with the log [1]."""

    cause: str
    before: float
    after: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Shown:
    """What a log shows by itself.

    Parameters
    ----------
    stretches : stretches that had settled
    rise, fall : fastest change over a minute, or None
    swings : something that comes and goes, or None
    opening : where a warm-up shows the thermostat open [K], or None
    """

    stretches: tuple[Stretch, ...]
    rise: Rate | None
    fall: Rate | None
    swings: Swings | None
    opening: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """A log as evidence.

    Parameters
    ----------
    job : whose log it is
    file : the log as read
    shown : what it shows by itself
    drive : the drive that it tells of
    worth : independent readings that it is worth [1]
    moved : causes without and with it, the likeliest first
    unknown : probability that it is none of the causes looked for [1]
    remarks : what was taken for granted, and how rough the answer is
    """

    job: Job
    file: LogFile
    shown: Shown
    drive: LoggedDrive
    worth: float
    moved: tuple[Moved, ...]
    unknown: float
    remarks: tuple[Text, ...]
    assumed_units: tuple[str, ...]
    drawn: int
    draws_worth: float
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Verified:
    """A check drive with its verdict.

    Parameters
    ----------
    job : whose repair it is
    done : work that was done
    file : the log as read; None for a simulated one
    drive : the drive that it tells of
    verdict : the answer
    cooled : the vehicle has air conditioning
    invented : the drive was simulated
    """

    job: Job
    done: tuple[str, ...]
    file: LogFile | None
    drive: LoggedDrive
    verdict: Verdict
    cooled: bool
    invented: bool
    remarks: tuple[Text, ...]
    assumed_units: tuple[str, ...]
    draws: int
    seed: int
