"""A radiator on offer costs what its seller asks: the sum on the order is the one that is paid."""

import dataclasses

import pytest

from toptank.shop.ask.choice.offered_prices import as_offered, price_of
from toptank.shop.job.price_book import built_in
from toptank.studies.choose.fit.measures import FitSheet, Offer

CORE = "aluminium_radiator_2_row"


def _offer(price: str, remedy: str) -> Offer:
    return Offer(name="catalogue", parts="", price=price, facts={}, remedy=remedy)


@pytest.mark.parametrize(
    ("written", "price"), [("$620", 620.0), ("1,240.50 plus freight", 1240.5), ("ask", None), ("", None)]
)
def test_a_price_is_read_as_it_is_written(written: str, price: float | None) -> None:
    assert price_of(written) == price


def test_the_price_of_an_offer_goes_before_the_book_and_the_dearest_of_several_counts() -> None:
    from toptank.catalogue.remedies.all_remedies import REMEDIES

    book = built_in()
    remedy = next(one for one in REMEDIES if one.group == "core" and CORE in one.parts)
    fit = FitSheet(facts={}, offers=(_offer("$620", remedy.id), _offer("$580", remedy.id), _offer("", remedy.id)))
    offered = as_offered(book, fit)
    assert offered.cost([remedy]) - book.cost([remedy]) == pytest.approx(620.0 - book.parts[CORE])
    assert CORE in offered.own, "an offered price is nobody's invention"
    assert as_offered(book, dataclasses.replace(fit, offers=())) is book
