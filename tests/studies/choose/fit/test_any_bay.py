"""Whatever a tape may find within the limits of the measures: an answer, words for it, and a drawing."""

from typing import Any
from xml.etree import ElementTree

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from toptank.catalogue.remedies.all_remedies import REMEDIES
from toptank.knowledge.sheet import Fact, Provenance, declared_sheet
from toptank.studies.choose.fit.candidate import as_it_stands, of_offer, of_remedy
from toptank.studies.choose.fit.drawing import drawing
from toptank.studies.choose.fit.fit import fit
from toptank.studies.choose.fit.item import Item, Verdict
from toptank.studies.choose.fit.measures import Offer, bay_fields, fit_sheet, offer_fields
from toptank.studies.choose.fit.words import answer_words
from toptank.units.declaration import Declaration
from toptank.units.dimension import CHOICE, COUNT, YES_NO


def _fact(declaration: Declaration) -> st.SearchStrategy[Fact]:
    low, high = declaration.hard
    whole = declaration.dimension in (CHOICE, COUNT, YES_NO)
    values = st.integers(int(low), int(high)).map(float) if whole else st.floats(low, high)
    spreads = st.just(0.0) if whole else st.floats(0.0, declaration.spread)
    return st.builds(Fact, value=values, how=st.sampled_from(Provenance), spread=spreads, origin=st.just("job file"))


def _facts(fields: Any) -> st.SearchStrategy[dict[str, Fact]]:
    return st.fixed_dictionaries({}, optional={key: _fact(field) for key, field in fields.items()})


@settings(suppress_health_check=[HealthCheck.too_slow, HealthCheck.large_base_example])
@given(bay=_facts(bay_fields()), brought=_facts(offer_fields()), remedy=st.sampled_from(REMEDIES))
def test_every_bay_gets_an_answer_and_a_drawing(bay: Any, brought: Any, remedy: Any) -> None:
    sheet, place = declared_sheet(), fit_sheet(bay)
    offer = Offer(name="radiator", parts="", price="", facts=brought)
    for candidate in (as_it_stands(sheet, place), of_offer(offer, sheet, place), of_remedy(remedy, sheet, place)):
        answer = fit(sheet, place, candidate)
        for item in answer.items:
            _holds_together(item)
        ElementTree.fromstring(drawing(answer, "Any bay", "us"))


def _holds_together(item: Item) -> None:
    said = answer_words(item, "us")
    assert "{" not in said
    assert "nan" not in said
    if item.verdict == Verdict.RUBS:
        assert item.fix
    else:
        assert not item.fix
    if item.margin is not None and item.verdict != Verdict.TIGHT:
        assert (item.margin >= 0.0) == (item.verdict == Verdict.CLEARS)
    if item.verdict == Verdict.NOT_KNOWN:
        assert item.margin is None
        assert item.measure or item.note
