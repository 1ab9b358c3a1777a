"""What the questions are answered with, each imported when it is asked for: a boiling point waits for no compiler."""

# What it imports is what it gives:
# pyright: reportUnusedImport=false

from typing import TYPE_CHECKING

from toptank.units.late import late_names

if TYPE_CHECKING:
    from toptank.shop.answers.checks_and_causes import causes_answer, checks_answer
    from toptank.shop.answers.choice import choice_answer, prices_answer
    from toptank.shop.answers.diagnosis import diagnosis_answer
    from toptank.shop.answers.evaluation import evaluation_answer
    from toptank.shop.answers.fit import fit_answer
    from toptank.shop.answers.fluids.coolant import bleed_answer, cap_answer, water_answer
    from toptank.shop.answers.fluids.mix import mix_answer
    from toptank.shop.answers.forecast import forecast_answer
    from toptank.shop.answers.log import log_answer
    from toptank.shop.answers.verdict import verdict_answer
    from toptank.shop.answers.what_if import what_if_answer
    from toptank.shop.ask import boiling, diagnose, drive, explain, fit, service, verify, what_if
    from toptank.shop.ask.choice import choose
    from toptank.shop.ask.coolant import coolant, mix
    from toptank.shop.ask.fleet import fleet
    from toptank.shop.ask.logs import log

__getattr__, __dir__ = late_names(__file__, of="what the shop is asked")
