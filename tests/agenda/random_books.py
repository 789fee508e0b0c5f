"""Books with rows of every kind that can be due, open and settled, of two programs."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date, time, timedelta
from typing import Any

import pytest
from django.db import transaction
from hypothesis import strategies as st

from partners.directory.models import Partner
from partners.exchanges.models import Trade, TradeClass
from partners.gifts.models import Gift, Thanks
from partners.helpers.models import Helper, Kit
from partners.helpers.session_facts import short_due
from partners.helpers.session_models import Session, Turn
from partners.program.models import Program
from partners.promises.models import Promise
from partners.school.approval_models import Approval
from partners.school.models import School, SchoolClass
from partners.visits.models import Ask, FollowUp
from tests import people

DAY = people.TUESDAY
# Each takes a second and more, most of it the row-by-row answer that is compared with.
some_books = pytest.mark.parametrize("books", [4, pytest.param(60, marks=pytest.mark.nightly)], ids=["few", "many"])
days = st.integers(-25, 25).map(lambda n: DAY + timedelta(days=n))
maybe_day = st.none() | days
long_ago = st.integers(-800, 20).map(lambda n: DAY + timedelta(days=n))
# Two of three rows are of the first program; of three places in each, the third is no school.
whose = st.sampled_from([0, 0, 1])
place = st.integers(0, 2)

BOOKS = st.fixed_dictionaries(
    {
        "partners": st.lists(
            st.tuples(st.none() | long_ago, st.booleans(), st.none() | long_ago), min_size=1, max_size=5
        ),
        "follow_ups": st.lists(st.tuples(whose, place, days, maybe_day), max_size=7),
        "asks": st.lists(st.tuples(whose, place, days, st.sampled_from(["look", "follow", "yes", "no"])), max_size=7),
        "promises": st.lists(st.tuples(whose, place, days, maybe_day, st.booleans(), st.booleans()), max_size=9),
        "thanks": st.lists(st.tuples(whose, place, days, maybe_day), max_size=7),
        "gifts": st.lists(
            st.tuples(
                whose, place, st.sampled_from(["accept", "return", "hand_in", "goods"]), days, maybe_day
            ),
            max_size=9,
        ),
        "trades": st.lists(
            st.tuples(
                whose, place, days, st.booleans(), maybe_day, maybe_day, maybe_day, maybe_day,
                st.tuples(st.sampled_from(["make", "plain", "give"]), st.booleans(), days, maybe_day),
                st.tuples(st.integers(0, 1), maybe_day, maybe_day),
            ),
            max_size=5,
        ),
        "sessions": st.lists(
            st.tuples(
                whose, place, days, maybe_day, maybe_day,
                st.tuples(st.integers(1, 2), st.booleans(), st.booleans(), maybe_day),
                maybe_day, st.tuples(maybe_day, st.booleans(), maybe_day, maybe_day),
            ),
            max_size=5,
        ),
        "approvals": st.lists(st.tuples(whose, st.integers(0, 1), maybe_day, st.booleans()), max_size=5),
    }
)  # fmt: skip


@contextmanager
def taken_back() -> Iterator[None]:
    """What is written inside is gone afterwards, so that every book begins empty."""
    with transaction.atomic():
        point = transaction.savepoint()
        yield
        transaction.savepoint_rollback(point)


def write(told: dict[str, Any]) -> list[Program]:
    """Both programs with their rows; every row stands in one of them."""
    programs = [people.make_program(name) for name in ("One", "Two")]
    schools = [[people.make_school(one, name) for name in ("Millrace", "North Ridge")] for one in programs]
    partners = [
        Partner(program=one, name=f"P{n}", last_heard_on=heard, never_ask=never, rest_until=rest)
        for one in programs
        for n, (heard, never, rest) in enumerate(told["partners"])
    ]
    Partner.objects.bulk_create(partners)
    first = [partners[0], partners[len(told["partners"])]]

    def at(whose: int, place: int) -> dict[str, Any]:
        school: School | None = [*schools[whose], None][place]
        return {"program": programs[whose], "partner": first[whose], "school": school}

    write_asks(told, at)
    write_helpers(told, at)
    write_trades(told, at, schools)
    rows: list[list[Any]] = [
        [FollowUp(**at(w, p), what="x", due=due, base=due, done_on=done) for w, p, due, done in told["follow_ups"]],
        [
            Promise(**at(w, p), what="x", due=due, made_on=due, settled_on=done, settled_how="came" if done else "",
                    side="us" if ours else "them", collect=collect)
            for w, p, due, done, ours, collect in told["promises"]
        ],
        [
            Thanks(**at(w, p), reason="promise", base=due, due=due, late_from=due, done_on=done)
            for w, p, due, done in told["thanks"]
        ],
        [Gift(**at(w, p), **gift(kind, due, done)) for w, p, kind, due, done in told["gifts"]],
        [
            Approval(program=programs[w], school=schools[w][s], by="x", on=date(2020, 1, 1), until=until, ask_on=until,
                     renewed=again)
            for w, s, until, again in told["approvals"]
        ],
    ]  # fmt: skip
    for of_one_kind in rows:
        if of_one_kind:
            type(of_one_kind[0])._base_manager.bulk_create(of_one_kind)
    return programs


def write_trades(told: dict[str, Any], at: Any, schools: list[list[School]]) -> None:
    """A trade with one part, and a class of one of the schools, which are not always the trade's own."""
    rows = enumerate(told["trades"])
    for number, (w, p, day, approved, signed, shown, down, off, (part, ours, due, done), (s, start, started)) in rows:
        papers = {"papers_due": day, "approval_settled": approved, "memo_signed_on": signed, "called_off_on": off}
        show = {"display_from": day, "shown_on": shown, "display_until": day, "taken_down_on": down}
        trade = Trade.objects.create(**at(w, p), what="x", agreed_on=day, **papers, **show)
        side = "us" if part == "make" or (part == "plain" and ours) else "them"
        settled = {"settled_on": done, "settled_how": "came" if done else ""}
        said = {"what": "x", "due": due, "made_on": due, "side": side, "part": part}
        Promise.objects.create(**at(w, p), trade=trade, **said, **settled)
        own = {"program": trade.program, "school": schools[w][s]}
        one = SchoolClass.objects.create(**own, label=f"C{number}", grade=3, students=9)
        begins = {"start_on": start, "started_on": started}
        TradeClass.objects.create(program=trade.program, trade=trade, school_class=one, **begins)


def write_helpers(told: dict[str, Any], at: Any) -> None:
    """Sessions as the verbs leave them, each with one helper, who has a kit at home and a clearance."""
    for w, p, day, week, before, (needed, yes, came, thanked), off, (back, cleared, until, stopped) in told["sessions"]:
        place = at(w, p)
        del place["partner"]
        helper = Helper.objects.create(
            **place, name="x", name_key="x", cleared=cleared, cleared_until=until, stopped_on=stopped
        )
        Kit.objects.create(**place, helper=helper, what="x", out_on=date(2020, 1, 1), due=day, back_on=back)
        days = {"week_due": None if came else week, "day_due": None if came else before, "called_off_on": off}
        hours = {"starts": time(13), "ends": time(15), "place": "x", "needed": needed}
        session = Session(**place, day=day, counted_on=day if came else None, said_yes=int(yes), **days, **hours)
        session.short_due = short_due(session, int(yes))
        session.thanks_due = day if came and thanked is None else None
        session.save()
        reply, was_there = ("yes" if yes else "silent"), (True if came else None)
        told_of = {"reply": reply, "came": was_there, "thanked_on": thanked}
        Turn.objects.create(program=session.program, session=session, helper=helper, **told_of)


def write_asks(told: dict[str, Any], at: Any) -> None:
    """An ask that waits has somebody coming back to it, or a day to look after it."""
    for whose, place, due, state in told["asks"]:
        waits = state in ("look", "follow")
        answered = {"answer": "waiting"} if waits else {"answer": state, "answered_on": due}
        look = due if state == "look" else None
        ask = Ask.objects.create(**at(whose, place), what="x", asked_on=due, look_on=look, **answered)
        if state == "follow":
            FollowUp.objects.create(**at(whose, place), ask=ask, what="x", due=due, base=due)


def gift(kind: str, due: date, done: date | None) -> dict[str, Any]:
    values: dict[str, dict[str, Any]] = {
        "accept": {"form": "goods", "accept_due": due, "accepted_on": done},
        "return": {"form": "loan", "return_on": due, "returned_on": done},
        "hand_in": {"form": "money", "amount_cents": 500, "hand_in_due": due, "handed_in_on": done},
        "goods": {"form": "goods"},
    }
    return {"source": "partner", "day": due, **values[kind]}
