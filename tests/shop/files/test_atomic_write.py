"""Writing without leaving a torso, and with the rights that any other file of that person has."""

import os
import stat
from pathlib import Path

import pytest

from toptank.shop.files.atomic_write import write_whole
from toptank.units.refusal import Refusal


def test_writing_is_all_or_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    file = tmp_path / "job.toml"
    write_whole(file, b"first", replace=False)

    def full(self: Path, target: Path) -> Path:
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(Path, "replace", full)
    with pytest.raises(Refusal, match="No space left"):
        write_whole(file, b"second", replace=True)
    assert file.read_bytes() == b"first"
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


def test_an_existing_file_is_kept_unless_it_may_be_replaced(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    write_whole(file, b"first", replace=False)
    with pytest.raises(Refusal, match="exists already"):
        write_whole(file, b"second", replace=False)
    write_whole(file, b"second", replace=True)
    assert file.read_bytes() == b"second"
    assert [path.name for path in tmp_path.iterdir()] == ["job.toml"]


@pytest.mark.skipif(os.name == "nt", reason="rights of this kind are a thing of POSIX")
@pytest.mark.parametrize("mask", [0o022, 0o027, 0o077])
def test_the_umask_sets_the_rights_of_a_new_file(tmp_path: Path, mask: int) -> None:
    before = os.umask(mask)
    try:
        write_whole(tmp_path / "job.toml", b"text", replace=False)
    finally:
        os.umask(before)
    assert stat.S_IMODE((tmp_path / "job.toml").stat().st_mode) == 0o666 & ~mask


def test_a_file_name_as_long_as_a_folder_takes_is_written(tmp_path: Path) -> None:
    file = tmp_path / ("j" * 250 + ".toml")
    write_whole(file, b"text", replace=False)
    assert file.read_bytes() == b"text"
