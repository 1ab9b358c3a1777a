"""Calibrate the constants that no paper fixes on all the evidence, and forecast every vehicle from all the others.

`uv run poe calibrate` writes src/toptank/knowledge/calibrated.toml, calibration/results.json and docs/calibration.md.
It takes a quarter of an hour on two cores at rest. `--quick` with few runs and draws, for a look; `--page` writes the
page and its pictures from the results alone.
"""

import argparse
import dataclasses
import json
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import numpy as np
from calibrating.answers import answers
from calibrating.constants import constants
from calibrating.counting import Row, counted, table
from calibrating.emulator import Emulator, emulate
from calibrating.evidence import Source, sources
from calibrating.page import with_headline, write_page
from calibrating.population import Posterior, sampled
from calibrating.remaining import with_left_out
from calibrating.results import calibration_text, learnt_of, results_of, results_text

from toptank.knowledge.calibrated import Calibration

ROOT = Path(__file__).parents[1]
PLACE = ROOT / "src" / "toptank" / "knowledge" / "calibrated.toml"
RESULTS = ROOT / "calibration" / "results.json"

SEED = 11


def main() -> None:
    words = argparse.ArgumentParser(description=__doc__)
    words.add_argument("--quick", action="store_true")
    words.add_argument("--page", action="store_true")
    asked = words.parse_args()
    if not asked.page:
        calibrate(quick=asked.quick)
    found = json.loads(RESULTS.read_text(encoding="utf-8"))
    write_page(found, ROOT / "docs")
    front = ROOT / "README.md"
    front.write_text(with_headline(front.read_text(encoding="utf-8"), found), encoding="utf-8")


def calibrate(*, quick: bool) -> None:
    """Emulate, sample, leave out one after the other, write."""
    np.seterr(all="ignore")
    begun = time.monotonic()
    runs, kept = (128, 100) if quick else (256, 300)
    wanted, evidence = constants(), sources()

    def told(text: str) -> None:
        print(f"{time.monotonic() - begun:6.0f} s  {text}", flush=True)

    emulators = tuple(_emulated(source, runs, told) for source in evidence)
    whole = sampled(emulators, wanted, warmup=kept, kept=kept, seed=SEED)
    told(f"sampled: worst r-hat {whole.worst_r_hat:.3f}, least effective number {whole.least_effective:.0f}")
    without = _without_each(evidence, emulators, whole, kept, told)
    first = _left_out(evidence, without, ())
    told("each left out, with what the fit leaves:\n" + table(first))
    left_out = _left_out(evidence, without, first)
    told("each left out:\n" + table(left_out))
    learnt = learnt_of(whole, wanted, evidence)
    learnt = dataclasses.replace(learnt, remains=with_left_out(dict(learnt.remains), first))
    PLACE.write_text(calibration_text(learnt, whole, wanted), encoding="utf-8")
    inside = [row for source in evidence for row in counted(source, answers(source, 128, learnt=learnt))]
    told("fitted to all:\n" + table(inside))
    found = results_of(whole, learnt, wanted, evidence, emulators, inside, left_out)
    RESULTS.write_text(results_text(found), encoding="utf-8")


def _emulated(source: Source, runs: int, told: Callable[[str], None]) -> Emulator:
    found = emulate(source, constants(), runs, SEED)
    told(f"{source.name}: {len(found.places)} figures emulated, {found.error:.2f} of their scatter left")
    return found


def _without_each(
    evidence: tuple[Source, ...],
    emulators: tuple[Emulator, ...],
    whole: Posterior,
    kept: int,
    told: Callable[[str], None],
) -> dict[str, Calibration]:
    """The calibration without each file of evidence, by its name; common practice is no evidence to be forecast."""
    found: dict[str, Calibration] = {}
    for name in dict.fromkeys(_file(source) for source in evidence if not source.told):
        without = sampled(
            emulators, constants(), without=name, warmup=kept // 2, kept=kept // 2, seed=SEED, start=whole
        )
        found[name] = learnt_of(without, constants(), evidence)
        told(f"without {name}: r-hat {without.worst_r_hat:.3f}")
    return found


def _left_out(evidence: tuple[Source, ...], without: dict[str, Calibration], first: Sequence[Row]) -> list[Row]:
    """Every file of evidence forecast from all the others, what remains taken from the others' `first` rows too."""
    rows: list[Row] = []
    for name, learnt in without.items():
        remains = with_left_out(dict(learnt.remains), first, without=name)
        learnt = dataclasses.replace(learnt, remains=remains)
        for source in evidence:
            if _file(source) == name:
                rows += counted(source, answers(source, 128, learnt=learnt))
    return rows


def _file(source: Source) -> str:
    return source.name.split("/")[0]


if __name__ == "__main__":
    main()
