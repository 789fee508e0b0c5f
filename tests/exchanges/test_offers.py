"""Offers: each of them, once it is taken, gives a plan that fits."""

from datetime import date

from partners.exchanges.offers import taken
from partners.exchanges.plan import OfferKind, plan
from tests.exchanges.planning import make_class, make_wish, weekly


def offered(made):
    return {offer.kind: offer for offer in made.offers}


def test_a_plan_that_fits_has_no_offers():
    assert plan(make_wish(60), [make_class(1)]).offers == ()


def test_classes_that_can_take_what_another_cannot():
    made = plan(make_wish(120), [make_class(1, meetings=weekly()[:1], lesson_minutes=20), make_class(2), make_class(3)])
    fewer = offered(made)[OfferKind.FEWER]
    assert made.short_by == 20
    assert [(change.key, change.before, change.after) for change in fewer.cannot] == [(1, 40, 20)]
    assert [(change.key, change.before, change.after) for change in fewer.take_over] == [(2, 40, 50), (3, 40, 50)]
    assert fewer.by_hand == {1: 20}


def test_a_class_that_cannot_at_all_is_left_out():
    made = plan(make_wish(120), [make_class(1, meetings=[]), make_class(2), make_class(3)])
    assert offered(made)[OfferKind.FEWER].by_hand == {1: 0}


def test_the_earliest_last_day_for_work_that_fits():
    made = plan(make_wish(250), [make_class(1, meetings=weekly(weeks=10))])
    later = offered(made)[OfferKind.LATER]
    assert (later.work_until, later.at_least) == (date(2026, 11, 16), 250)


def test_no_later_day_is_offered_where_the_lesson_limit_is_what_hinders():
    made = plan(make_wish(250), [make_class(1, lessons_left=2)])
    assert OfferKind.LATER not in offered(made)


def test_the_most_that_fits_where_there_is_no_room_for_all():
    made = plan(make_wish(500), [make_class(1), make_class(2, meetings=weekly()[:1])])
    smaller = offered(made)[OfferKind.SMALLER]
    assert (smaller.at_least, smaller.by_hand) == (240, {1: 200, 2: 40})
    assert OfferKind.FEWER not in offered(made)


def test_nothing_smaller_is_offered_where_nothing_fits():
    made = plan(make_wish(50), [make_class(1, meetings=[])])
    assert (made.short_by, made.offers) == (50, ())


def test_every_offer_fits_once_it_is_taken():
    late = weekly(date(2026, 11, 2))
    classes = [make_class(1, meetings=late), make_class(2), make_class(3, 11, lessons_left=4)]
    wish = make_wish(300, minimum=2)
    made = plan(wish, classes)
    assert set(offered(made)) == set(OfferKind)
    for offer in made.offers:
        assert plan(*taken(offer, wish, classes)).fits
