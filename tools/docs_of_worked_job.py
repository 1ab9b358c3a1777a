"""Write docs/worked-job.md: the built-in example from complaint to record, as the commands print it; README's demo.

`python tools/docs_of_worked_job.py` runs every command; that takes a minute or two, so `poe docs` leaves it alone. A
test compares what is quick to run anew.
"""

import os
import re
import subprocess
import sys
from collections.abc import Sequence
from importlib import resources
from importlib.metadata import version
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import NamedTuple

import typer

from toptank.interfaces.cli.main import app
from toptank.system.balance import EQUATIONS_VERSION

ROOT = Path(__file__).parents[1]
PAGE, README = ROOT / "docs" / "worked-job.md", ROOT / "README.md"
MADE = "<!-- Made by tools/docs_of_worked_job.py, which runs every command below. -->"
WIDTH, NARROW = "110", "80"
BLOCK = re.compile(r"(<!-- figures of the diagnosis: .*? -->\n\n```text\n).*?(\n```)", re.DOTALL)
"""README's screen of the demo, between what stands before and after it."""

HEAD = """\
# A worked job

@MADE@

From the complaint to the record, on the built-in example: an invented orchard minibus. `job.toml` is a copy of
[the built-in example](../src/toptank/shop/job/demo.toml); every block is what the command prints 110 columns wide,
toptank @VERSION@, equations @EQUATIONS@. Prices are those of the invented [price book](prices.md).

> Never open a hot system: let it cool until you can rest a hand on the radiator. Coolant is poisonous to people and
> animals. Electric fans can start at any time. Where service manual, local codes or licensed
> practice differ, follow them.
"""

CHECKED = """
[[check]]
name = "spin_fan"
outcome = "turns_freely"
note = "hot, six turns"
"""
"""What the first check showed; invented. It is written into the job file before it is saved."""


class Step(NamedTuple):
    """A step of the job: its heading, what it is for, the command; what the job file gains before."""

    title: str
    told: str
    words: tuple[str, ...]
    gains: str = ""


STEPS = (
    Step(
        "The complaint is written down",
        "The job file holds the driver's words, what tape and plates say, three readings and two things seen. The\n"
        "record keeps it as the first revision; nothing in it is ever overwritten.",
        ("job", "new", "job.toml"),
    ),
    Step(
        "What may be wrong",
        "What it most likely is and why, and the check to do first.",
        ("diagnose", "job.toml"),
    ),
    Step(
        "The check is made and kept",
        f"It takes a minute. What it showed (invented) goes into the job file:\n\n```toml{CHECKED}```",
        ("job", "save", "1", "job.toml", "--based-on", "1"),
        gains=CHECKED,
    ),
    Step(
        "What may be wrong now",
        "The same question; `--full` prints every cause and every check.",
        ("diagnose", "job.toml"),
    ),
    Step(
        "What holds on the worst day",
        "The customer named no worst day, so one is offered. Each plan goes through the vehicles that the evidence\n"
        "leaves: a plan that only repairs what is not broken gains nothing.",
        ("choose", "job.toml"),
    ),
    Step(
        "Whether it goes in",
        "The radiator on offer against the bay: what clears, what rubs and what it needs, what to measure first.",
        ("fit", "job.toml"),
    ),
    Step(
        "What goes into it",
        "The block is flushed until it runs clear, so water is in it, and a quarter of that does not drain. Half and\n"
        "half is wanted in 20 qt.",
        ("mix", "--capacity", "20 qt", "--now", "0 %", "--want", "50 %", "--drainable", "75 %"),
    ),
    Step(
        "The work order",
        "A shop copy, with parts, steps, quantities and the readings to expect on the road test, and a\n"
        "page for the customer in plain words.",
        ("order", "job.toml", "--pdf", "order.pdf"),
    ),
    Step(
        "The road test is noted",
        "What was read goes beside the job (invented).",
        ("job", "note", "1", "ridge climb at 93 F, air conditioning off: 198 F on the gauge, steady"),
    ),
    Step(
        "The job is closed",
        "With what it was, once that is known; later diagnoses can learn from it (`--learn-from`).",
        ("job", "close", "1", "--cause", "fan_clutch_slips", "--how", "turned freely when hot; a new one drags"),
    ),
    Step("What was kept", "Every revision, with what it was made for.", ("job", "history", "1")),
    Step(
        "The record goes with the vehicle",
        "One file that any other shop can import, with notes and revision.",
        ("job", "export", "1", "--out", "minibus.toml"),
    ),
)


def page() -> str:
    """Return the page, with every command run now."""
    known = typer.main.get_command(app)
    commands = getattr(known, "commands", {})
    with TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "job.toml").write_text(example(), encoding="utf-8")
        there = [step for step in STEPS if step.words[0] in commands]
        chapters = [chapter(number, step, taken(step, folder)) for number, step in enumerate(there, start=1)]
    head = HEAD.replace("@MADE@", MADE).replace("@VERSION@", version("toptank"))
    return "\n".join([head.replace("@EQUATIONS@", EQUATIONS_VERSION), *chapters])


def example() -> str:
    """Return the text of the built-in example."""
    return resources.files("toptank.shop.job").joinpath("demo.toml").read_text(encoding="utf-8")


def taken(step: Step, folder: Path) -> str:
    """Take a step in a folder; return what its command prints."""
    if step.gains:
        with (folder / "job.toml").open("a", encoding="utf-8") as file:
            file.write(step.gains)
    return said(step.words, folder)


def chapter(number: int, step: Step, answer: str) -> str:
    """Return one step: what it is for, the command, what it prints."""
    return f"## {number} {step.title}\n\n{step.told}\n\n```text\n$ {line(step.words)}\n{answer}\n```\n"


def line(words: Sequence[str]) -> str:
    """Write a command as it is typed."""
    return " ".join(["toptank", *(f'"{word}"' if " " in word else word for word in words)])


def demo() -> str:
    """Return the demo's screen as README shows it: the folder, another on each run, is called FOLDER."""
    with TemporaryDirectory() as folder:
        shown = said(("demo",), Path(folder), NARROW)
    return re.sub(r"(plans\.svg\s+in)\s+.+?\n(?=All of it)", r"\1 FOLDER\n", shown, flags=re.DOTALL)


def with_demo(text: str) -> str:
    """Return README's text with the demo's screen of now."""
    screen = demo()
    return BLOCK.sub(lambda found: found[1] + screen + found[2], text)


def said(words: Sequence[str], folder: Path, columns: str = WIDTH) -> str:
    """Run a command in a folder that has a job file and a record of its own; return what it prints."""
    own = {
        "COLUMNS": columns,
        "TOPTANK_STORE": str(folder / "record.sqlite"),
        "TERM": "dumb",
        "PYTHONIOENCODING": "utf-8",
    }
    run = subprocess.run(
        [sys.executable, "-m", "toptank.interfaces.cli.main", *words],
        cwd=folder,
        env={**os.environ, **own},
        capture_output=True,
        encoding="utf-8",
        check=False,
    )
    if run.returncode != 0:
        raise RuntimeError(f"{line(words)}: {run.stderr}")
    return "\n".join(row.rstrip() for row in run.stdout.strip("\n").splitlines())


if __name__ == "__main__":
    PAGE.write_text(page(), encoding="utf-8")
    README.write_text(with_demo(README.read_text(encoding="utf-8")), encoding="utf-8")
    print(f"written: docs/{PAGE.name}, the demo in {README.name}")
