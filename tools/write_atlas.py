"""Write docs/atlas.md: for each typical vehicle what holds at 90, 100 and 110 degF on its hill, and what that costs.

`uv run poe atlas`: minutes, so not with the other pages. The figures are those of `toptank fleet`, nothing measured.
"""

import hashlib
import sys
from pathlib import Path
from tempfile import TemporaryDirectory

from toptank.knowledge.typical import typical, typical_names
from toptank.shop.answers.fleet import FleetVehicleAnswer, eased
from toptank.shop.answers.words.wording import money
from toptank.shop.ask.fleet.fleet import fleet
from toptank.system.balance import EQUATIONS_VERSION
from toptank.units.sentence import said

ROOT = Path(__file__).parents[1]
SOURCE, PAGE = ROOT / "src" / "toptank", ROOT / "docs" / "atlas.md"
DAYS = (90, 100, 110)
DRAWS = 128
HEAD = """# Atlas

Each typical vehicle on its worst day, nothing measured, A/C on where it has one: a long climb of 5 %, the flat, the
stop, at 90, 100 and 110 °F. The chance to hold, and the cheapest repair (one or two pieces of work, at the built-in,
invented prices) after which it holds 9 times in 10. Made by `toptank fleet` ([how](fleet.md)) from {draws} simulations
each, of equations {equations}, sources `{sources}`; `uv run poe atlas` writes it anew where they have changed since. A
vehicle whose own parts were measured has its own figures: the wide unknowns of "some pickup of the 1970s" keep most
chances away from 100 %.

"""

RESTS_ON = (
    "equations",
    "media",
    "parts",
    "system",
    "knowledge",
    "catalogue",
    "studies/fleet",
    "studies/choose",
    "shop",
)
"""What the figures may depend on, under src/toptank."""


def sources() -> str:
    """Name of all that the figures may depend on: another letter in it, another name."""
    digest = hashlib.sha256()
    for part in RESTS_ON:
        for path in sorted((SOURCE / part).rglob("*")):
            if path.suffix in (".py", ".toml", ".npz", ".json"):
                digest.update(path.relative_to(SOURCE).as_posix().encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()[:12]


def main() -> None:
    """Ask and write, where what is written is older than what it rests on."""
    made_of = sources()
    if PAGE.exists() and f"`{made_of}`" in PAGE.read_text(encoding="utf-8") and "--anew" not in sys.argv[1:]:
        print("docs/atlas.md is of these sources already")
        return
    with TemporaryDirectory() as folder:
        table = Path(folder) / "atlas.csv"
        table.write_text(
            "\n".join(("id,like", *(f"{name},{name}" for name in typical_names()))) + "\n", encoding="utf-8"
        )
        answers = {}
        for day in DAYS:
            found = fleet(table, day=f"{day} F", plans=True, draws=DRAWS)
            answers[day] = {one.id: one for one in found.vehicles}
            print(day, len(found.vehicles), flush=True)
    lines = [
        HEAD.format(draws=DRAWS, equations=EQUATIONS_VERSION, sources=made_of),
        "| vehicle | " + " | ".join(f"at {day} °F" for day in DAYS) + " |",
        "|---|" + "---|" * len(DAYS),
    ]
    lines += [
        f"| {typical(name).title} (`{name}`) | " + " | ".join(_cell(answers[day][name]) for day in DAYS) + " |"
        for name in typical_names()
    ]
    PAGE.write_text("\n".join(lines).replace("\n\n\n", "\n\n") + "\n", encoding="utf-8")


def _cell(one: FleetVehicleAnswer) -> str:
    """Chance to hold, where it is hottest, what makes it hold."""
    told = f"{one.holds_pct:.0f} %, hottest: {said(one.hottest_place, 'us')}"
    if one.work is not None:
        return f"{told}; {money(one.work.cost, one.work.currency)}: {said(one.work.work, 'us')}"
    return told if one.holds_pct >= 90.0 else f"{told}; no such repair{f'; {eased(one)}' if eased(one) else ''}"


if __name__ == "__main__":
    main()
