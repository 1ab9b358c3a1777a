"""A job: the complaint, what is known of the vehicle, the duties it is asked about and what was seen at them."""

from dataclasses import dataclass

from toptank.knowledge.sheet import DutySheet, Sheet
from toptank.units.conversion import System

WORDS = ("fine", "warm", "hot", "boiled")
"""What a driver says where no figure was read."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Reading:
    """What was seen at a duty.

    Parameters
    ----------
    duty : name of the duty
    gauge : what the gauge showed [K], if a figure was read
    words : what the driver said, one of `WORDS`, if he did
    note : anything else, in his own words
    """

    duty: str
    gauge: float | None
    words: str | None
    note: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Job:
    """One vehicle in the bay.

    Parameters
    ----------
    title : the vehicle in a few words
    complaint : the driver's own words
    invented : the figures are made up (the built-in example)
    system : unit system of bare numbers in its file
    limit : coolant temperature that the customer wants to stay under [K]
    sheet : what is known of the vehicle
    duties : what it is asked about
    readings : what was seen
    remarks : values accepted though unusual
    assumed_units : bare numbers and the unit they were taken in
    """

    title: str
    complaint: str
    invented: bool
    system: System
    limit: float
    sheet: Sheet
    duties: tuple[DutySheet, ...]
    readings: tuple[Reading, ...]
    remarks: tuple[str, ...]
    assumed_units: tuple[str, ...]
