"""Reading people's files: what is missing is filled in, what cannot be is refused."""

from collections.abc import Callable
from pathlib import Path

import pytest

from toptank.knowledge.sheet import Provenance
from toptank.shop.files.toml_file import LARGEST, read_document
from toptank.shop.job.job_file import LIMIT, job_of, read_job
from toptank.units.refusal import Refusal

SHORT = 'format = "toptank-job-1"\n[vehicle]\nlike = "roadster-1960s-four"\n[[duty]]\nname = "lane"\n'


def test_the_shortest_job_is_filled_in_and_marked_as_assumed(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_text(SHORT, encoding="utf-8")
    job = read_job(file)
    assert (job.system, job.limit, job.invented, job.evidence.readings) == ("us", LIMIT, False, ())
    assert {fact.how for fact in job.sheet.facts.values()} == {Provenance.ASSUMED}
    assert job.sheet.like == "roadster-1960s-four"


@pytest.mark.parametrize("spoilt", [lambda text: "\ufeff" + text, lambda text: text.replace("\n", "\r\n")])
def test_an_editor_of_another_system_does_no_harm(tmp_path: Path, spoilt: Callable[[str], str]) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(spoilt(SHORT).encode("utf-8"))
    assert [duty.name for duty in read_job(file).duties] == ["lane"]


def test_a_plain_value_counts_as_measured_and_a_table_says_how() -> None:
    written = {"value": "15 psi", "how": "plate"}
    job = job_of(
        {
            "format": "toptank-job-1",
            "vehicle": {"like": "roadster-1960s-four"},
            "core": {"face_width": "20 in"},
            "cap": {"pressure": written},
            "duty": [{"name": "lane"}],
        }
    )
    assert job.sheet.facts["core.face_width"].how == Provenance.MEASURED
    assert job.sheet.facts["core.face_width"].value == pytest.approx(0.508)
    assert job.sheet.facts["cap.pressure"].how == Provenance.PLATE


def test_a_bare_number_takes_the_unit_of_the_file_and_is_told() -> None:
    def job(units: str) -> tuple[float, tuple[str, ...]]:
        read = job_of(
            {
                "format": "toptank-job-1",
                "units": units,
                "vehicle": {"like": "roadster-1960s-four"},
                "duty": [{"name": "lane", "ambient": 30}],
            }
        )
        return read.duties[0].facts["ambient"].value, read.assumed_units

    celsius, told = job("metric")
    assert celsius == pytest.approx(303.15)
    assert told == ("duty 'lane'.ambient = 30: taken as °C",)
    assert job("us")[0] == pytest.approx(272.04, abs=0.01)


def test_an_unusual_measured_value_is_accepted_with_a_remark() -> None:
    job = job_of(
        {
            "format": "toptank-job-1",
            "vehicle": {"like": "roadster-1960s-four"},
            "core": {"rows": 7},
            "duty": [{"name": "lane", "ambient": "80 F"}],
        }
    )
    assert len(job.remarks) == 1
    assert "core.rows" in str(job.remarks[0])


def test_reading_a_document_does_not_change_it() -> None:
    document: dict[str, object] = {
        "format": "toptank-job-1",
        "vehicle": {"like": "roadster-1960s-four"},
        "job": {"title": "a"},
        "duty": [{"name": "lane"}],
    }
    assert job_of(document) == job_of(document)


def test_a_file_of_the_largest_size_is_read_and_one_byte_more_is_not(tmp_path: Path) -> None:
    file = tmp_path / "job.toml"
    file.write_bytes(SHORT.encode() + b"#" * (LARGEST - len(SHORT)))
    assert "format" in read_document(file)
    file.write_bytes(SHORT.encode() + b"#" * (LARGEST - len(SHORT) + 1))
    with pytest.raises(Refusal, match="256 KiB"):
        read_document(file)
