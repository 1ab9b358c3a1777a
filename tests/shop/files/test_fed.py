"""Readers of what comes from outside read or refuse, in one sentence: what fuzzing once found stays found."""

from pathlib import Path

import pytest
import readers  # a script, found by its folder

FED = Path(__file__).parent / "fed"


@pytest.mark.parametrize("name", readers.READERS)
def test_every_reader_takes_its_seeds_and_every_beginning_of_them(name: str) -> None:
    reader = readers.READERS[name]
    for seed in reader.seeds:
        reader.read(seed)
        for end in range(0, len(seed), max(len(seed) // 40, 1)):
            reader.read(seed[:end])


@pytest.mark.parametrize("file", sorted(FED.iterdir()), ids=lambda file: file.name)
def test_what_fuzzing_found_is_read_or_refused(file: Path) -> None:
    readers.READERS[file.name.partition("-")[0]].read(file.read_bytes())
