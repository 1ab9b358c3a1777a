"""Print how many measured figures lie inside the 80 % bands of the model as it is, by source and by regime.

`uv run poe coverage [SOURCE ...]`; `--draws 128`; `--each` prints every figure.
"""

import argparse

import numpy as np
from calibrating.answers import answers
from calibrating.counting import counted, table
from calibrating.evidence import sources


def main() -> None:
    asked = argparse.ArgumentParser(description=__doc__)
    asked.add_argument("names", nargs="*")
    asked.add_argument("--draws", type=int, default=128)
    asked.add_argument("--each", action="store_true")
    words = asked.parse_args()
    rows = []
    for source in sources(names=tuple(words.names)):
        shown = answers(source, words.draws)
        rows += counted(source, shown)
        if words.each:
            for row in rows[-len(source.figures) :]:
                print(row.line())
    print(table(rows))


if __name__ == "__main__":
    np.seterr(all="ignore")
    main()
