"""Write docs/atlas.md: for each typical vehicle what holds at 90, 100 and 110 degF on its hill, and what that costs.

`python tools/write_atlas.py`: minutes. The figures are those of `toptank fleet` with nothing measured.
"""

from pathlib import Path
from tempfile import TemporaryDirectory

from toptank.knowledge.typical import typical, typical_names
from toptank.shop.answers.fleet import FleetVehicleAnswer, eased
from toptank.shop.answers.wording import money
from toptank.shop.ask.fleet.fleet import fleet
from toptank.units.sentence import said

PAGE = Path(__file__).parents[1] / "docs" / "atlas.md"
DAYS = (90, 100, 110)
DRAWS = 128
HEAD = """# Atlas

Each typical vehicle on its worst day, nothing measured, A/C on where it has one: a long climb of 5 %, the flat, the
stop, at 90, 100 and 110 °F. The chance to hold, and the cheapest repair (one or two pieces of work, at the built-in,
invented prices) after which it holds 9 times in 10. Made by `toptank fleet` ([how](fleet.md)) from {draws} simulations each;
`tools/write_atlas.py` writes it anew. A vehicle whose own parts were measured has its own figures: the wide unknowns of
"some pickup of the 1970s" keep most chances away from 100 %.

"""


def main() -> None:
    """Ask and write."""
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
        HEAD.format(draws=DRAWS),
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
