"""Whether what `log` says comes true: vehicles with known causes, each on a logged drive, weighed by its log alone.

Vehicles are drawn from the example's sheet with causes as they occur and driven along a road with a climb and a stop,
each on its own day; the log is off by what the model itself says that it misses. Read back, the truth should rank
anywhere in the answer alike, and a cause should be there as often as stated. Printed, never a test: it takes minutes:

    python benchmarks/honest_log.py 128
"""

import sys
import time as clock
from itertools import pairwise

import numpy as np
from scipy import stats

from toptank.knowledge.sheet import duty
from toptank.shop.ask.diagnose import question_of
from toptank.shop.ask.service import demo_job
from toptank.studies.diagnose.ensemble import taken
from toptank.studies.diagnose.evidence import Evidence
from toptank.studies.diagnose.posterior import Question
from toptank.studies.diagnose.trial.log_trial import LogTrial, check_road, log_trial
from toptank.studies.diagnose.trial.truths import truths
from toptank.system.population import solve

SEED = 83_009
BANDS = (0.0, 0.02, 0.05, 0.1, 0.2, 0.4, 1.0)
"""Bands of stated probability [1]."""


def ranks(trial: LogTrial, question: Question, seed: int) -> dict[str, float]:
    """Return the rank of the truth for what a repair and a forecast rest on [1]."""
    possible = trial.says.weighed.possible
    found = {
        "heat to the coolant": trial.rank(
            np.asarray(possible.sound.doubts.coolant_heat), float(trial.truth.sound.doubts.coolant_heat[0]), seed
        ),
        "heat transfer to the air": trial.rank(
            np.asarray(possible.sound.doubts.air_heat_transfer),
            float(trial.truth.sound.doubts.air_heat_transfer[0]),
            seed,
        ),
        "number of causes": trial.rank(
            possible.present.sum(axis=1).astype(float), float(trial.truth.present.sum()), seed
        ),
    }
    for sheet in question.duties:
        day = duty(sheet)
        gauges = np.asarray(solve(possible.vehicle, day).T_engine_out)
        found[f"coolant at {sheet.name!r}"] = trial.rank(
            gauges, float(solve(trial.truth.vehicle, day).T_engine_out[0]), seed
        )
    return found


def show(trials: list[LogTrial], ranked: dict[str, list[float]], seconds: float) -> None:
    """Print how it stands."""
    worth = np.array([trial.says.weighed.effective_sample_size for trial in trials])
    print(
        f"\n{len(trials)} vehicles, {seconds / len(trials):.1f} s each; draws' worth "
        f"{np.percentile(worth, (10, 50, 90)).round()}"
    )
    print(
        f"readings' worth {np.mean([t.says.worth for t in trials]):.1f}; swings taken as a finding in "
        f"{sum(t.says.swung for t in trials)}, openings in {sum(t.says.opened is not None for t in trials)}"
    )
    for name, values in ranked.items():
        tenths = np.histogram(values, 10, (0.0, 1.0))[0]
        inside = np.mean((np.array(values) > 0.1) & (np.array(values) < 0.9))
        p = stats.kstest(values, "uniform").pvalue
        print(f"  rank of {name:32}: tenths {tenths}, in the band of 8 in 10 {inside:.0%}, uniform p {p:.3f}")
    stated = np.concatenate([trial.says.stated for trial in trials])
    held = np.concatenate([trial.held() for trial in trials])
    for low, high in pairwise(BANDS):
        inside = (stated >= low) & (stated < high)
        scatter = max(float(np.sqrt(np.sum(stated[inside] * (1.0 - stated[inside])))), 1e-9)
        expected, there = float(stated[inside].sum()), float(held[inside].sum())
        print(
            f"  stated {low:.0%} to {high:.0%}: {inside.sum()} times, {expected:.1f} expected, {there:.0f} there "
            f"({(there - expected) / scatter:+.1f} sd)"
        )
    gain = np.array([np.log(t.says.stated @ t.held()) - np.log(t.says.weighed.before @ t.held()) for t in trials])
    print(f"  the log is worth {gain.mean():+.2f} +- {gain.std() / np.sqrt(len(gain)):.2f} in log score", flush=True)


def main() -> None:
    """Simulate and print."""
    n = int(sys.argv[1]) if len(sys.argv) > 1 else 128
    job, rng = demo_job(), np.random.default_rng(SEED)
    asked = question_of(job)
    question = Question(sheet=asked.sheet, duties=asked.duties, evidence=Evidence(), shares=asked.shares)
    road = check_road(duty(job.duties[0]))
    fleet = truths(question, n, SEED, rng)
    trials: list[LogTrial] = []
    ranked: dict[str, list[float]] = {}
    began = clock.perf_counter()
    for number in range(n):
        trial = log_trial(question, taken(fleet, np.array([number])), road, number)
        trials.append(trial)
        for name, rank in ranks(trial, question, number).items():
            ranked.setdefault(name, []).append(rank)
        if (number + 1) % 16 == 0 or number + 1 == n:
            show(trials, ranked, clock.perf_counter() - began)


if __name__ == "__main__":
    main()
