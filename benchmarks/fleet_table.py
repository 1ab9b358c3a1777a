"""A generated table of a fleet, invented: typical vehicles, each with some facts measured and a hill of its own."""

import csv
import sys
from pathlib import Path

import numpy as np

from toptank.knowledge.typical import typical, typical_names

HEADS = (
    "id", "like", "core.rows", "core.blocked_tubes", "core.blocked_face", "cap.pressure [psi]",
    "shroud.tip_clearance [in]", "body.mass [lb]", "grade [%]", "speed [mph]", "air_conditioning",
)  # fmt: skip


def rows(n: int, seed: int = 1) -> list[list[str]]:
    """So many vehicles that drive; some facts are left empty, as in every depot."""
    rng = np.random.default_rng(seed)
    moving = [name for name in typical_names() if typical(name).usual.facts["speed"].value > 5.0]
    found: list[list[str]] = []
    for number in range(n):
        name = moving[int(rng.integers(len(moving)))]
        sheet = typical(name).sheet.facts
        mass = sheet["body.mass"].value * 2.20462 * rng.uniform(0.9, 1.25)
        cells = [
            f"vehicle-{number:07d}",
            name,
            str(int(np.clip(sheet["core.rows"].value + rng.integers(-1, 2), 1, 5))),
            f"{rng.uniform(0, 20):.0f} %",
            f"{rng.uniform(0, 25):.0f} %",
            f"{rng.choice([4, 7, 13, 15]):.0f}",
            f"{rng.uniform(0.4, 2.0):.2f}",
            f"{mass:.0f}",
            f"{rng.uniform(4, 8):.1f}",
            f"{rng.uniform(30, 50):.0f}",
            "yes" if name.endswith("-air") and rng.random() < 0.6 else "no",
        ]
        known = rng.random(len(cells)) < 0.7
        found.append([cell if place in (0, 1) or known[place] else "" for place, cell in enumerate(cells)])
    return found


def write(path: Path, n: int, seed: int = 1) -> None:
    with path.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file)
        writer.writerow(HEADS)
        writer.writerows(rows(n, seed))


if __name__ == "__main__":
    write(Path(sys.argv[2]), int(sys.argv[1]))
