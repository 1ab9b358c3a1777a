"""What a drive was loaded with: no log says it, the mechanic does."""

import dataclasses
from pathlib import Path

import numpy as np

from toptank.shop.ask import service
from toptank.shop.ask.logs.log_drive import logged_drive
from toptank.shop.log.log_file import read_log
from toptank.shop.log.log_mapping import NO_MAPPING


def test_a_drive_is_loaded_as_the_condition_that_is_named(tmp_path: Path) -> None:
    """A trailer that was on is on in the forecast too: no log says it."""
    rows = [f"{t},88,22" for t in range(600)]
    path = tmp_path / "drive.csv"
    path.write_text("time (s),coolant (°C),speed (m/s)\n" + "\n".join(rows) + "\n", encoding="utf-8")
    file = read_log(path, NO_MAPPING)
    job = service.demo_job()
    first, *others = job.duties
    trailer = dataclasses.replace(first.facts["trailer_mass"], value=2000.0)
    towing = dataclasses.replace(others[0], name="towing", facts={**others[0].facts, "trailer_mass": trailer})
    job = dataclasses.replace(job, duties=(first, towing))
    alone, _, _ = logged_drive(file, job, ambient="90 F", grade="0 %", system="us")
    pulled, notes, _ = logged_drive(file, job, ambient="90 F", grade="0 %", load="towing", system="us")
    assert float(np.asarray(pulled.profile.duty.trailer_mass).max()) == 2000.0
    assert float(np.asarray(alone.profile.duty.trailer_mass).max()) == first.facts["trailer_mass"].value
    assert any("'towing', trailer included" in str(note) for note in notes)
