"""Files that a job can start from: like a typical vehicle, filled or bare, and the built-in example."""

from __future__ import annotations

import tomllib
from importlib import resources
from typing import TYPE_CHECKING

from toptank.knowledge.sheet_text import BY_HAND, quoted, render, render_duty
from toptank.knowledge.typical import typical
from toptank.shop.job.job_file import FORMAT, job_of
from toptank.units.dialect import spoken

if TYPE_CHECKING:
    from toptank.shop.job.job import Job
    from toptank.units.conversion import System


def demo_job() -> Job:
    """The built-in example: an invented orchard minibus."""

    return job_of(tomllib.loads(demo_text()))


def demo_text() -> str:
    """The built-in example as its file is written."""
    return resources.files("toptank.shop.job").joinpath("demo.toml").read_text(encoding="utf-8")


def new_sheet(like: str, *, system: System) -> str:
    """A filled, commented starting file like a typical vehicle."""
    one = typical(like)
    head = [
        f'format = "{FORMAT}"',
        f'units = "{system}"  # what a bare number means: us, metric or uk',
        "",
        "[job]",
        f'title = "{spoken(one.title, system)}"  # change it to this vehicle',
        'complaint = ""  # the driver\'s own words',
        f'limit = "{"225 F" if system == "us" else "107 C"}"  # the customer wants to stay under this',
        "",
        "[vehicle]",
        f'like = "{one.name}"  # fills in whatever is deleted below',
        "",
        "# What was seen: a figure of the gauge, or words = fine, warm, hot or boiled.",
        "# [[reading]]",
        '# duty = "usual"',
        f'# gauge = "{"195 F" if system == "us" else "90 C"}"',
        "",
    ]
    parts, usual = render(one.sheet, system, within=BY_HAND), render_duty(one.usual, system, within=BY_HAND)
    return "\n".join([*head, parts, usual])


def bare_sheet(like: str, *, title: str, complaint: str, system: System) -> str:
    """A starting file that says no more than is known: everything else is taken from the typical vehicle."""
    one = typical(like)
    return "\n".join(
        (
            f'format = "{FORMAT}"',
            f'units = "{system}"',
            "",
            "[job]",
            f"title = {quoted(title.strip() or spoken(one.title, system))}",
            f"complaint = {quoted(complaint.strip())}",
            f'limit = "{"225 F" if system == "us" else "107 C"}"',
            "",
            "[vehicle]",
            f'like = "{one.name}"',
            "",
            "[[duty]]",
            'name = "where it runs hot"',
            "",
        )
    )
