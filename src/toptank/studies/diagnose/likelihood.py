"""How likely each piece of evidence is on each possible vehicle: one line of logarithms a piece."""

from collections.abc import Sequence

import numpy as np

from toptank.catalogue.causes.all_causes import CAUSES
from toptank.catalogue.causes.cause import ONSETS, Cause
from toptank.catalogue.checks.check import Check, checks
from toptank.catalogue.checks.measure import MEASURES
from toptank.studies.diagnose.cause_sets import Flags, Floats
from toptank.studies.diagnose.ensemble import Ensemble
from toptank.studies.diagnose.evidence import WORDS, Changed, Evidence, Finding, History, Reading
from toptank.studies.diagnose.heard import MISTAKEN, MODEL_ERROR, SEEN_SPAN, reading_likelihood, with_outliers
from toptank.studies.diagnose.symptom_likelihood import told_lines
from toptank.system.balance import Balance

SEEN_WRONG, FALSELY_SEEN = 0.001, 0.03
"""The same where somebody saw the defect itself, and the share of a check's false alarms that is left; judgement."""

PLAINLY = 0.3
"""Rate from which a check shows a cause plainly enough that its outcome is why a part was changed [1]; judgement."""

SLIGHT = 0.4
"""Share of a check's hit rate that the slightest severity has [1]; judgement."""


def shown(evidence: Evidence, possible: Ensemble) -> Floats:
    """What the instruments that were read would show, as if nothing boiled; a row a vehicle, a column an instrument."""
    readings = [_unboiled(reading.place, possible.passages[reading.duty].end) for reading in evidence.readings]
    read = [figures(checks()[finding.check], possible) for finding in _figures(evidence)]
    return np.array([*readings, *read]).reshape(len(readings) + len(read), possible.n).T


def errors(evidence: Evidence) -> Floats:
    """Usual error of each of these instruments."""
    read = _figures(evidence)
    of_figures = [figure_error(checks()[finding.check], np.asarray(finding.figure, float)) for finding in read]
    return np.array([*(MODEL_ERROR for _ in evidence.readings), *of_figures], float)


def _figures(evidence: Evidence) -> list[Finding]:
    return [finding for finding in evidence.findings if finding.figure is not None]


def _unboiled(place: str, balance: Balance) -> Floats:
    at = {"transmission": balance.T_transmission, "second": balance.T_engine_out}
    return np.asarray(at.get(place, balance.T_gauge), float)


def outcome_chances(check: Check, causes: Sequence[Cause], severity: Floats, *, decisive: bool = False) -> Floats:
    """Chance of each outcome [1], a row a vehicle: every cause that is present has its own try at showing itself.

    What sees the defect itself raises few false alarms.
    """
    shown = [(column, _rates(check, cause)) for column, cause in enumerate(causes)]
    showing = [column for column, own in shown if own is not None]  # the others show nothing
    rates = np.array([own for _, own in shown if own is not None]).reshape(len(showing), len(check.abnormal))
    severity = severity[:, showing]
    graded = np.where(severity > 0.0, SLIGHT + (1.0 - SLIGHT) * severity, 0.0)
    shows = graded[:, :, None] * rates[None]
    false = np.asarray(check.false_alarm) * (FALSELY_SEEN if decisive else 1.0)
    sound = (1.0 - false.sum()) * np.prod(1.0 - shows.sum(axis=2), axis=1)
    share = false + shows.sum(axis=1)
    abnormal = (1.0 - sound)[:, None] * share / np.maximum(share.sum(axis=1, keepdims=True), 1e-12)
    return np.concatenate([abnormal, sound[:, None]], axis=1)


def _rates(check: Check, cause: Cause) -> tuple[float, ...] | None:
    """How often a cause shows each abnormal outcome [1]; a kind of a wider cause shows what that does."""
    return check.shown_by.get(cause.id, check.shown_by.get(cause.kind_of))


def figures(check: Check, possible: Ensemble) -> Floats:
    """What an instrument would read on every possible vehicle, in SI."""
    if check.field:
        section, _, key = check.field.partition(".")
        return np.broadcast_to(getattr(getattr(possible.vehicle, section), key), (possible.n,))
    figure = MEASURES[check.measure].of(possible.vehicle, possible.idle_balances, possible.outside.ambient)
    return np.broadcast_to(figure, (possible.n,))


def figure_error(check: Check, figure: Floats) -> Floats:
    """Standard deviation of the reading of a figure, in SI."""
    return np.maximum(np.abs(figure), 1e-9) * check.error if check.relative else np.full_like(figure, check.error)


def outcome_likelihood(finding: Finding, causes: Sequence[Cause], severity: Floats) -> Floats:
    """Likelihood of the outcome of one check [1], on every possible vehicle."""
    check = checks()[finding.check]
    chances = outcome_chances(check, causes, severity, decisive=finding.decisive)
    place = check.outcomes.index(finding.outcome or check.outcomes[-1])
    return with_outliers(chances[:, place], 1.0 / len(check.outcomes), SEEN_WRONG if finding.decisive else MISTAKEN)


def finding_likelihood(finding: Finding, causes: Sequence[Cause], possible: Ensemble) -> Floats:
    """Likelihood of what one check showed, on every possible vehicle; of a figure its density over its error [1]."""
    if finding.figure is None:
        return outcome_likelihood(finding, causes, possible.severity)
    check = checks()[finding.check]
    figure = figures(check, possible)
    error = figure_error(check, figure)
    z = (finding.figure - figure) / error
    height = figure_error(check, np.asarray(finding.figure, float)) / error  # of a density, the wider the lower
    return with_outliers(height * np.exp(-0.5 * z * z), 0.05, SEEN_WRONG if finding.decisive else MISTAKEN)


NEW_BUT_BAD = {"cap": 0.25, "fan_clutch": 0.18, "thermostat": 0.15}
"""Share of new parts that do not do what they should: bad, wrong or out of tolerance [1]; the three are told of in
common practice, the figures are judgement."""

USUALLY_BAD = 0.10

ONE_OF_SEVERAL = {"none": 0.22, "helped": 0.58, "cured": 0.15, "worse": 0.05}
NOT_AT_FAULT = {"none": 0.835, "helped": 0.10, "cured": 0.015, "worse": 0.05}
"""What a changed part does where more than it was wrong, and where it was not wrong [1]; judgement: who puts one of two
faults right mostly sees it run cooler."""

FOUND = 1.25
"""Power of the likelihood of what a check found wrong [1]; judgement.

The rates of the list are those of any look at any vehicle; who writes down that something is wrong mostly looked twice.
Of the told cases each asks, when it is left out, for 2, the most that was tried. At 1.5 a single look in a pan is taken
for certain, and nobody would confirm it before a thermostat is bought."""

ACTED_UPON = {"none": 0.15, "worse": 0.15, "helped": 0.5, "cured": 1.0}
"""Power of the likelihood of a finding whose part was changed, by what that did [1]; judgement.

What was found and put right is not what is wrong still: it is left as far as the new part is bad, the check was made
after the work, or the work was half done."""


def change_likelihood(changed: Changed, causes: Sequence[Cause], present: Flags) -> Floats:
    """Likelihood that a changed part did what it did, on every possible vehicle.

    Work for which the coolant is drained is refilled and bled afterwards: half the time that puts low coolant right.
    """
    mends = np.array([changed.part in cause.mended_by for cause in causes])
    by_the_way = np.array([changed.part in cause.mended_by_the_way for cause in causes])
    return 0.5 * (_did(changed, present, mends) + _did(changed, present, mends | by_the_way))


def _did(changed: Changed, present: Flags, mends: Flags) -> Floats:
    """The same where it is known which causes the change mends."""
    mended = (present & mends).any(axis=1)
    left = (present & ~mends).any(axis=1)
    bad = NEW_BUT_BAD.get(changed.part, USUALLY_BAD)
    all_of_it = {"none": bad, "helped": 0.2, "cured": 0.76 - bad, "worse": 0.04}
    chances = np.array([case[changed.effect] for case in (all_of_it, ONE_OF_SEVERAL, NOT_AT_FAULT)])
    return chances[np.where(mended, np.where(left, 1, 0), 2)]


def counts(finding: Finding, changes: Sequence[Changed]) -> float:
    """Power with which the likelihood of a finding counts [1]: more where something was found, less once put right.

    It was acted upon where one part that was changed puts right every cause that the check shows by this outcome.
    """
    check = checks()[finding.check]
    if finding.outcome not in check.abnormal:
        return 1.0
    place = check.abnormal.index(str(finding.outcome))
    shows = [cause for cause in CAUSES if (rates := _rates(check, cause)) is not None and rates[place] >= PLAINLY]
    done = [one.effect for one in changes if shows and all(one.part in cause.mended_by for cause in shows)]
    left = min((ACTED_UPON[effect] for effect in done), default=1.0)
    return left * (1.0 if finding.decisive else FOUND)


SUSPECTED, WORKED_ON, RENEWED = 4.0, 3.0, 0.35
"""How much likelier a cause is where its part gave trouble before, was worked on just before, is new [1]; judgement."""

USUAL_DISTANCE = 160e6
"""Distance at which a part that wears is as likely as its share says [m]; judgement."""


def history_likelihood(history: History, causes: Sequence[Cause], present: Flags) -> Floats:
    """Likelihood of how it began and of what was worked on before, on every possible vehicle."""
    touched = np.array([bool(set(cause.begun_by) & set(history.after_work)) for cause in causes])
    begun = (present & touched).any(axis=1)
    factors: list[Floats] = [np.where(begun & bool(history.after_work), WORKED_ON, 1.0)]
    for parts, factor in ((history.doubtful, SUSPECTED), (history.renewed, RENEWED)):
        meant = np.array([bool(set(cause.mended_by) & set(parts)) for cause in causes])
        factors.append(np.where((present & meant).any(axis=1), factor, 1.0))
    if history.onset is not None:
        after_work = np.where(touched, 0.5, [0.12 if cause.begun_by else 0.03 for cause in causes])
        onsets = np.array([cause.onset for cause in causes]) * (1.0 - after_work[:, None])
        table = np.concatenate([onsets, after_work[:, None]], axis=1)
        of_causes = (present @ table) / np.maximum(present.sum(axis=1, keepdims=True), 1)
        sound: Floats = np.array([0.2, 0.2, 0.55, 0.05])
        place = ONSETS.index(history.onset)
        factors.append(_either(np.asarray(present.any(axis=1), bool), of_causes[:, place], sound[place]))
    if history.distance is not None:
        wear = min(max((history.distance / USUAL_DISTANCE) ** 0.5, 0.6), 1.7)
        worn = (present & np.array([cause.wears for cause in causes])).any(axis=1)
        factors.append(np.where(worn, wear, 1.0))
    return np.prod(factors, axis=0)


def _either(condition: Flags, then: Floats, otherwise: float) -> Floats:
    return np.array(np.where(condition, then, otherwise), float)


def likelihoods_without_model(evidence: Evidence, causes: Sequence[Cause], severity: Floats) -> Floats:
    """Logarithms of the likelihood of what needs no balance: outcomes of checks, changes, history; a row a piece."""
    present = severity > 0.0
    seen = [finding for finding in evidence.findings if finding.figure is None]
    lines = [
        *(outcome_likelihood(one, causes, severity) ** counts(one, evidence.changes) for one in seen),
        *(change_likelihood(changed, causes, present) for changed in evidence.changes),
    ]
    if evidence.history != History():
        lines.append(history_likelihood(evidence.history, causes, present))
    return np.concatenate([_logarithms(lines, len(severity)), told_lines(evidence, causes, present)])


def reading_likelihoods(readings: Sequence[Reading], possible: Ensemble) -> Floats:
    """Logarithms of the likelihood of readings, a row a reading."""
    return _logarithms([reading_likelihood(reading, possible) for reading in readings], possible.n)


def likelihoods(evidence: Evidence, causes: Sequence[Cause], possible: Ensemble) -> Floats:
    """Logarithms of the likelihood of every piece of evidence, a row a piece in the order of `labels`."""
    lines = [
        *(reading_likelihood(reading, possible) for reading in evidence.readings),
        *(finding_likelihood(one, causes, possible) ** counts(one, evidence.changes) for one in evidence.findings),
        *(change_likelihood(changed, causes, possible.present) for changed in evidence.changes),
    ]
    if evidence.history != History():
        lines.append(history_likelihood(evidence.history, causes, possible.present))
    return np.concatenate([_logarithms(lines, possible.n), told_lines(evidence, causes, possible.present)])


def _logarithms(lines: Sequence[Floats], n: int) -> Floats:
    return np.log(np.maximum(np.array(lines).reshape(len(lines), n), 1e-300))


OTHERWISE = 0.2
"""Share of a quite different trouble's readings that may lie anywhere [1]; judgement."""


def outlier_likelihoods(evidence: Evidence) -> Floats:
    """Likelihood of each piece if something quite different were wrong [1]; 0 for what is not a reading.

    A fifth of what it would be if any reading were as likely as another: most vehicles still behave.
    """
    readings: list[float] = []
    for reading in evidence.readings:
        if reading.low is not None or reading.high is not None:
            low, high = (edge if edge is not None else np.inf for edge in (reading.low, reading.high))
            width = max(high - low, 1.0) if np.isfinite(high - low) else SEEN_SPAN
            readings.append(min(width, 0.5 * SEEN_SPAN) / SEEN_SPAN)
        else:
            readings.append(1.0 / len(WORDS))
    others = len(evidence.findings) + len(evidence.changes) + (evidence.history != History())
    others += len(evidence.symptoms) + bool(evidence.symptoms)
    return OTHERWISE * np.array([*readings, *[0.0] * others])
