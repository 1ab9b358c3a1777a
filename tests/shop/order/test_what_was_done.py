"""A closed job tells what was ordered and at what price, what was ticked, and what the gauge showed after it."""

from pathlib import Path

import pytest

from toptank.shop.order import after_work, ticks
from toptank.shop.order.what_was_done import what_was_done
from toptank.shop.record import job_verbs, own_prices, plan_taken


def test_the_story_of_a_job_is_told_once_it_was_done(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from toptank.catalogue.remedies.all_remedies import REMEDIES

    monkeypatch.setenv("TOPTANK_STORE", str(tmp_path))
    number = job_verbs.open_example().job
    fresh = job_verbs.record(number)
    assert what_was_done(job_verbs.job_of_record(fresh), fresh) == ()

    plan_taken.take(number, ["replace_fan_clutch"])
    ticks.tick(number, "Replace the fan clutch.", True)
    ticks.tick(number, "Road test: fill in the table below.", True)
    ticks.tick(number, "Road test: fill in the table below.", False)
    duty = job_verbs.stored_job(number).duties[0].name
    after_work.note_after(number, duty, "230", system="us")
    after_work.note_after(number, duty, "208", system="us")
    record = job_verbs.record(number)
    ordered, done, *seen = what_was_done(job_verbs.job_of_record(record), record)
    price = own_prices.read().cost([one for one in REMEDIES if one.id == "replace_fan_clutch"])
    assert ordered.startswith("Ordered: Replace the fan clutch.")
    assert f"${price:,.0f}" in ordered
    assert done == "Done: Replace the fan clutch."
    assert seen == [f"After the work, {duty}: the gauge showed 208 °F."], "the last reading counts"
