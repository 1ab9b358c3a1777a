"""Whether the plan's core goes in, in a few lines for the bench: the answer, what rubs or is tight, what to measure."""

from collections.abc import Sequence

from toptank.jobs import fit_verbs
from toptank.jobs.job import Job
from toptank.jobs.order.wording import sentence
from toptank.studies.choose.fit_item import Verdict
from toptank.studies.choose.remedy import Remedy
from toptank.units.conversion import System

LINES = 3
"""Questions of fit, and measures, that are told."""

IN_ONE_LINE = {
    Verdict.CLEARS: "Fit: everything clears on paper; lay it in before it is bought all the same.",
    Verdict.TIGHT: "Fit: tight; measure again before it is bought.",
    Verdict.RUBS: "Fit: does not go in as it is.",
    Verdict.NOT_KNOWN: "Fit: not settled, some of it was never measured.",
}


def fit_lines(job: Job, remedies: Sequence[Remedy], system: System) -> tuple[str, ...]:
    """Return the lines; none where the plan has no core of its own."""
    core = next((remedy for remedy in remedies if remedy.group == "core"), None)
    if core is None:
        return ()
    answer = fit_verbs.fit_job(job, name=core.name).fits[0]
    lines = [IN_ONE_LINE[answer.verdict()]]
    for item in (*answer.of(Verdict.RUBS), *answer.of(Verdict.TIGHT))[:LINES]:
        verdict, more = fit_verbs.words(item, system)
        lines.append(": ".join(filter(None, (sentence(item.name), verdict))) + (f". {more}." if more else "."))
    # On paper the name of the field in the job file says nothing: what it means is enough.
    measures = [words.partition(": ")[2] or words for words in fit_verbs.to_measure(answer)]
    if measures:
        left = len(measures) - LINES
        rest = f"; and {left} more, see `toptank fit`" if left > 0 else ""
        lines.append(f"Measure first: {'; '.join(measures[:LINES])}{rest}.")
    return tuple(lines)
