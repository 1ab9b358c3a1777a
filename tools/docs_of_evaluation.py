"""Evaluate the told cases, and write README's block of figures and docs/evaluation.json.

`python tools/docs_of_evaluation.py` (`uv run poe evaluation`) runs `toptank evaluate examples/cases`, seed 1, which
takes about ten minutes of one core; a test compares the block with the figures, and the figures with cases made anew.
"""

import json
import sys
from pathlib import Path
from typing import Any

from toptank.interfaces.cli.tables.diagnose_table import percent
from toptank.shop.answers.evaluation import evaluation_answer
from toptank.shop.ask.diagnose import evaluate

ROOT = Path(__file__).parents[1]
CASES = ROOT / "examples" / "cases"
FIGURES = ROOT / "docs" / "evaluation.json"
README = ROOT / "README.md"
BEGINS = "<!-- figures of the evaluation: written by `uv run poe evaluation` -->\n"
ENDS = "<!-- end of the evaluation -->"
WIDTH = 36

SUMS = (
    ("first place", "top_1_pct"),
    ("among the first three", "top_3_pct"),
    ("among the likely", "in_likely_pct"),
    ("a chart of the trade: first place", "top_1_of_chart_pct"),
    ("its first three", "top_3_of_chart_pct"),
    ("gauge and something else, if neither", "excuse_pct"),
    ("log score", "log_score_nat"),
    ("log score of the shares alone", "log_score_of_prior_nat"),
    ("log score of the chart", "log_score_of_chart_nat"),
)


def block(answer: dict[str, Any]) -> str:
    """Return README's block for an answer of `evaluate --json`."""
    alone = answer["complaint_alone"]
    lines = [f"{'':{WIDTH}} {'all that was told':>18} {'complaint alone':>16}"]
    for name, key in SUMS:
        told, less = (_figure(key, one[key]) for one in (answer, alone))
        lines.append(f"{name:{WIDTH}} {told:>18} {less:>16}")
    lines.append("")
    lines.append(f"{'repairs said to be needed':{WIDTH}} {'number, said, so':>18} {'number, said, so':>16}")
    for told, less in zip(answer["calibration"], alone["calibration"], strict=True):
        band = f"{told['from_pct']:.0f} to {told['to_pct']:.0f} %"
        lines.append(f"{band:{WIDTH}} {_band(told):>18} {_band(less):>16}")
    lines.append("")
    lines.append(f"{'family: closed jobs, first place':{WIDTH}}")
    for told, less in zip(answer["families"], alone["families"], strict=True):
        name = f"{told['family']}: {told['cases']}"
        lines.append(f"{name:{WIDTH}} {_figure('', told['top_1_pct']):>18} {_figure('', less['top_1_pct']):>16}")
    told = answer["reworded"]
    lines += [
        "",
        f"Of {told['readings']} readings told otherwise within what was said, {told['within_15_points_pct']:.0f} % "
        "move the leading cause by 15 points at most.",
        "Simulated checks until the right repair stands first and likely:",
        f"{answer['check_chosen_minutes']:.0f} minutes as chosen here, found in {answer['found_as_chosen_pct']:.0f} %; "
        f"{answer['check_usual_order_minutes']:.0f} in the usual order, found in "
        f"{answer['found_in_usual_order_pct']:.0f} %.",
    ]
    return BEGINS + "\n```text\n" + "\n".join(line.rstrip() for line in lines) + "\n```\n\n" + ENDS


def _figure(key: str, value: float) -> str:
    return f"{value:.2f}" if key.endswith("_nat") else percent(value / 100.0)


def _band(band: dict[str, Any]) -> str:
    return f"{band['repairs']}, {band['stated_pct']:.0f} %, {band['found_pct']:.0f} %"


def main() -> None:
    """Evaluate, and write both."""
    found = evaluate(CASES, progress=lambda done, of: print(f"{done} of {of}", file=sys.stderr))
    answer = json.loads(evaluation_answer(found).model_dump_json())
    FIGURES.write_text(json.dumps(answer, indent=1, ensure_ascii=False) + "\n", encoding="utf-8")
    write_block(answer)


def write_block(answer: dict[str, Any]) -> None:
    """Put the block into README in place of the one that stands there."""
    text = README.read_text(encoding="utf-8")
    before, _, rest = text.partition(BEGINS)
    _, _, after = rest.partition(ENDS)
    README.write_text(before + block(answer) + after, encoding="utf-8")


if __name__ == "__main__":
    main()
