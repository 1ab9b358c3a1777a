"""What later newcomers did not find or stumbled over, each with what must be so instead."""

import dataclasses
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from toptank.knowledge.sheet import Fact, Provenance
from toptank.shop.answers.answers import Chosen, Diagnosed
from toptank.shop.ask import fit as fit_verbs
from toptank.shop.ask import service
from toptank.shop.edit import edit
from toptank.shop.edit.change_words import change_words
from toptank.shop.edit.figure_form import PLATE, proposed_figures
from toptank.shop.order import writing
from toptank.shop.order.setting.web_page import web_page
from toptank.shop.record import job_verbs
from toptank.studies.choose.fit.measures import fit_sheet
from toptank.studies.diagnose.evidence import Finding

ALUMINIUM = "aluminium_radiator_2_row"


@pytest.fixture
def _own_store(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path / "jobs.sqlite"))


def test_coolant_that_was_low_sends_the_bench_to_look_for_the_leak(
    demo_diagnosed: Diagnosed, demo_chosen: Chosen
) -> None:
    """Whatever the plan is: a system that is filled and not searched is low again."""
    low = Finding(check="level_cold", outcome="low")

    def made(findings: tuple[Finding, ...]) -> str:
        job = demo_chosen.job
        job = dataclasses.replace(job, evidence=dataclasses.replace(job.evidence, findings=findings))
        chosen = dataclasses.replace(demo_chosen, job=job)
        return " ".join(
            one.words
            for one in writing.order(job, plan="replace_fan_clutch", diagnosed=demo_diagnosed, chosen=chosen).steps
        )

    assert "find out where it went" in made((low,))
    assert "find out where it went" not in made(())


def test_a_radiator_that_was_made_for_the_vehicle_asks_for_no_measure_but_a_tape_goes_before() -> None:
    job = service.demo_job()
    offer = job.fit.offers[0]
    made_for = Fact(value=1.0, how=Provenance.PLATE, spread=0.0, origin="job file")
    plain = dataclasses.replace(offer, name="copy", facts={"direct_fit": made_for}, remedy="")
    empty = fit_sheet({}, offers=(plain,))
    (found,) = fit_verbs.fit_job(dataclasses.replace(job, fit=empty)).fits
    assert found.to_measure() == ()
    assert found.verdict().value == "clears"
    taped = dataclasses.replace(offer, facts={**offer.facts, "direct_fit": made_for})
    (found,) = fit_verbs.fit_job(dataclasses.replace(job, fit=dataclasses.replace(job.fit, offers=(taped,)))).fits
    assert found.verdict().value == "rubs"


@pytest.mark.usefixtures("_own_store")
def test_a_job_is_opened_from_words_with_the_plate_in_its_field(say: Callable[..., Any]) -> None:
    words = "Boils at idle, the electric fan never comes on. Plate KLM 482."
    told = say("job", "new", "--like", "wagon-1990s-v6-air", "--says", words, "--customer", "A. Grower")
    assert "toptank job driver 1 fan_never_runs" in told.out
    assert "license plate: KLM 482" in told.out
    job = job_verbs.stored_job(1)
    assert (job.complaint, job.write_up.customer, job.write_up.registration) == (words, "A. Grower", "")
    edit.confirm_figure(1, next(one for one in proposed_figures(job) if one.quote == "Plate KLM 482"))
    assert job_verbs.stored_job(1).write_up.registration == "KLM 482"
    say("job", "new", "--like", "wagon-1990s-v6-air", "--plate", "ZZ 9")
    assert job_verbs.stored_job(2).write_up.registration == "ZZ 9"


@pytest.mark.parametrize(
    ("words", "plate"),
    [
        ("Reg. AB12 CDE, boils", "AB12 CDE"), ("license plate: 7XYZ123", "7XYZ123"), ("Tag no. 482-KLM", "482-KLM"),
        ("a regular boiler since 1994", ""), ("the plate on the cap says 15 psi", ""), ("license plate lamp out", ""),
    ],
)  # fmt: skip
def test_a_plate_is_read_where_the_words_name_one(words: str, plate: str) -> None:
    found = PLATE.search(words)
    assert (found["plate"] if found else "") == plate


@pytest.mark.usefixtures("_own_store")
def test_a_list_says_what_a_closed_job_turned_out_to_be(say: Callable[..., Any]) -> None:
    number = job_verbs.open_example().job
    assert job_verbs.listed()[0].found == ()
    job_verbs.close(number, ["fan_clutch_slips", "tubes_scaled"], how="seen")
    (row,) = job_verbs.listed(search="orchard")
    assert row.found == ("fan_clutch_slips", "tubes_scaled")
    assert "closed: fan clutch" in say("job", "list", "--search", "orchard").out
    assert change_words("closed: fan_clutch_slips", "us") == "closed: fan clutch slipping"
    job_verbs.reopen(number)
    assert job_verbs.listed()[0].found == ()


def test_a_log_that_lacks_two_things_names_both_at_once(tmp_path: Path, say: Callable[..., Any]) -> None:
    log = tmp_path / "drive.csv"
    log.write_text("clock,gauge (°F),speed (mph)\n14:00,190,50\n14:10,205,50\n14:20,207,50\n", encoding="utf-8")
    refused = say("verify", "demo", log)
    assert refused.code == 2
    assert "how warm the air was" in refused.err
    assert "neither height nor grade" in refused.err
    assert "--ambient" in refused.err
    assert "--grade" in refused.err


def test_a_mixture_is_answered_in_the_volumes_that_it_was_asked_in(say: Callable[..., Any]) -> None:
    litres, quarts = (
        say("mix", "--capacity", text, "--now", "30 %", "--want", "50 %").out for text in ("12 L", "16 qt")
    )
    assert " L" in litres
    assert "qt" not in litres
    assert "qt" in quarts
    assert " L" not in quarts


def test_the_page_that_is_sent_brings_the_type_of_the_paper(demo_diagnosed: Diagnosed, demo_chosen: Chosen) -> None:
    made = writing.order(demo_chosen.job, plan=ALUMINIUM, diagnosed=demo_diagnosed, chosen=demo_chosen)
    assert web_page(made, "letter").count("@font-face") == 3
