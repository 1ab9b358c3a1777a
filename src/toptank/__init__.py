"""Where the gauge of an engine-driven vehicle settles, why it runs hot, what to do about it: as Python.

`open_job`, `forecast`, `diagnose`, `choose`, `fit`, `drive`, `verify` and the rest are functions of
`toptank.shop.questions`; each gives one typed answer, whose figures stand in the units that their keys name.
"""

from importlib import import_module
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.shop.questions import (
        bleed,
        boil,
        cap,
        causes,
        checks,
        choose,
        core,
        diagnose,
        drive,
        evaluate,
        explain,
        fit,
        fleet,
        forecast,
        freeze,
        mix,
        open_job,
        prices,
        read_log,
        vehicles,
        verify,
        water,
        what_if,
    )
    from toptank.units.refusal import Refusal

_NAMES = {"Job": "shop.job.job", "Refusal": "units.refusal"}
__all__ = (
    "Job",
    "Refusal",
    "bleed",
    "boil",
    "cap",
    "causes",
    "checks",
    "choose",
    "core",
    "diagnose",
    "drive",
    "evaluate",
    "explain",
    "fit",
    "fleet",
    "forecast",
    "freeze",
    "mix",
    "open_job",
    "prices",
    "read_log",
    "vehicles",
    "verify",
    "water",
    "what_if",
)


def __getattr__(name: str) -> object:
    if name not in __all__:
        raise AttributeError(f"toptank has no {name!r}: {', '.join(__all__)}")
    return getattr(import_module(f"toptank.{_NAMES.get(name, 'shop.questions')}"), name)


def __dir__() -> list[str]:
    return list(__all__)
