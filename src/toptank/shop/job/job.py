"""A job: the complaint, what is known of the vehicle, the duties it is asked about and what was seen at them."""

from dataclasses import dataclass

from toptank.catalogue.remedies.plan import Plan
from toptank.knowledge.sheet import DutySheet, Sheet
from toptank.knowledge.stop_rise import rise_allowed
from toptank.shop.job.evidence_file import Confirmed
from toptank.shop.job.wanted_limit import wanted_limit
from toptank.shop.job.write_up import WriteUp
from toptank.shop.log.log_mapping import LogMapping
from toptank.studies.choose.fit.measures import FitSheet
from toptank.studies.diagnose.evidence import Evidence
from toptank.units.conversion import System
from toptank.units.sentence import Text


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
    limit_said : whether he named it; otherwise it is the usual one, an assumption
    sheet : what is known of the vehicle
    duties : what it is asked about
    worst_day : duties of the customer's worst day; empty if he named none
    fit : measures of the bay, and radiators on offer
    evidence : what was seen at the duties, what checks showed, what was changed, how it began
    log : what the columns of its logs mean
    confirmed : what it was, once it is known; diagnosis never sees it
    write_up : who came with what
    number : of a stored job; None for one that is a file
    plan_taken : the plan that was taken of a stored job: ids of its remedies; None: the recommended one counts
    remarks : values accepted though unusual
    assumed_units : bare numbers and the unit they were taken in
    """

    title: str
    complaint: str
    invented: bool
    system: System
    limit: float
    limit_said: bool
    sheet: Sheet
    duties: tuple[DutySheet, ...]
    worst_day: tuple[DutySheet, ...]
    fit: FitSheet
    evidence: Evidence
    log: LogMapping
    confirmed: Confirmed | None
    remarks: tuple[Text, ...]
    assumed_units: tuple[str, ...]
    write_up: WriteUp = WriteUp()
    number: int | None = None
    plan_taken: Plan | None = None

    @property
    def judged_by(self) -> float:
        """What the coolant must stay under [K]: the customer's limit, or clearly below what he complained of."""
        opens = self.sheet.facts["thermostat.starts_opening"].value
        rises = {sheet.name: rise_allowed(sheet) for sheet in self.duties}
        return wanted_limit(self.limit, self.evidence.readings, opens, rises)
