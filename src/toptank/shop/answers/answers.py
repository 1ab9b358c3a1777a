"""What the verbs return: plain records in SI. Importing them does not bring in the model."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from toptank.knowledge.forecast import DutyForecast
    from toptank.knowledge.sheet import DutySheet
    from toptank.shop.job.job import Job
    from toptank.shop.job.price_book import PriceBook
    from toptank.studies.choose.decision import Decisive
    from toptank.studies.choose.worst_day_forecast import WorstDayForecast
    from toptank.studies.diagnose.diagnosis import Diagnosis
    from toptank.studies.diagnose.posterior import PosteriorSample
    from toptank.studies.diagnose.trial.check_policy import PolicyCost
    from toptank.studies.diagnose.trial.scoring import Score, Summary
    from toptank.units.sentence import Text


class Weighty(NamedTuple):
    """An assumption that widens a band: path, what it is, share of the variance [1], how to measure it, if at all."""

    path: str
    means: str
    share: float
    measure: str
    measurable: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Forecast:
    """The forecast of a job.

    Parameters
    ----------
    job : as read
    duties : one forecast a duty, in the order of the job
    widest : for each duty, the assumptions that widen the band of the top tank most
    untold : for each duty, why `widest` is empty; empty itself if it is not
    known : number of facts of vehicle and duties by how they were found
    remarks : what is to be said of the job and of the figures
    draws : number of vehicles drawn
    seed : of the draws
    """

    job: Job
    duties: tuple[DutyForecast, ...]
    widest: tuple[tuple[Weighty, ...], ...]
    untold: tuple[str, ...]
    known: dict[str, int]
    remarks: tuple[Text, ...]
    draws: int
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Diagnosed:
    """The diagnosis of a job, what to look at again, and the closed jobs that taught the shares of the causes.

    `weighed` are the simulations that it rests on, for whoever goes on with them.
    """

    job: Job
    diagnosis: Diagnosis
    weighed: PosteriorSample
    remarks: tuple[Text, ...]
    closed_jobs: int
    own_share: float
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class CaseScore:
    """One closed job: what it was, what came first, scores from all that was told and from the complaint alone.

    `moved` is by how much each rewording of a reading moves the leading cause of the complaint alone [1].
    """

    name: str
    title: str
    confirmed: tuple[str, ...]
    first: str
    told: Score
    complaint: Score
    moved: tuple[float, ...]
    walk: PolicyCost | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Evaluation:
    """A folder of closed jobs, diagnosed and compared; minutes of checks as chosen here and in the usual order.

    minutes and finds are None where no vehicle could be searched; left_out says which files could not be used and why;
    moved are those of all cases.
    """

    cases: tuple[CaseScore, ...]
    told: Summary
    complaint: Summary
    moved: tuple[float, ...]
    walk: PolicyCost | None
    left_out: tuple[str, ...]
    usual_order: tuple[str, ...]
    seed: int


class LeftIn(NamedTuple):
    """A fault that is likely and not mended: its repair, the chance that it is needed [1], what it costs later."""

    repair: str
    needed: float
    cost: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Chosen:
    """Remedies on the worst day: doing nothing, then what no other beats, and the plan that is recommended, if any.

    `first_check` (id) is the check that the diagnosis puts first, empty where it puts none; `decisive` says which plan
    each of its outcomes leads to, where the plan depends on it. `leaves_in` are the likely faults that the recommended
    plan leaves as they are. Where that plan asks the customer to go without something, `asking_nothing`
    is the same work without that. `does_not_fit` is the plan that would be recommended, if only it went in.
    `repair_alone` repairs what is most likely broken and upgrades nothing; None where no priced work does.

    `weighed` are the simulations that it rests on, for whoever goes on with them.
    """

    job: Job
    weighed: PosteriorSample
    worst_day: tuple[DutySheet, ...]
    outlooks: tuple[WorstDayForecast, ...]
    recommended: WorstDayForecast | None
    decisive: Decisive | None
    leaves_in: tuple[LeftIn, ...]
    asking_nothing: WorstDayForecast | None
    does_not_fit: WorstDayForecast | None
    repair_alone: WorstDayForecast | None
    remarks: tuple[Text, ...]
    book: PriceBook
    draws: int
    seed: int
    first_check: str = ""
