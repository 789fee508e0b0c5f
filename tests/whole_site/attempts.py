"""For every address that takes a form, something that can be typed into it."""

from __future__ import annotations

from partners.agenda.class_views import mark_of
from partners.letters.models import LetterState
from partners.program.models import Program
from tests import people
from tests.whole_site import (
    attempts_approvals,
    attempts_batches,
    attempts_buying,
    attempts_days,
    attempts_files,
    attempts_grants,
    attempts_handover,
    attempts_papers,
    attempts_post,
    attempts_share,
    attempts_words,
)
from tests.whole_site.attempt import Attempt, set_to

# The number of the rows in `make_book` that the forms name.
OWN = 5_000_001
# They change who is signed in, or where one looks, or ask first; nothing in any program's book.
NO_CHANGE = {
    "program:join", "program:sign-in", "program:sign-out", "program:password", "program:program-choose",
    "school:set-up", "program:device-others", "program:device-sign-out", "story:forget-named",
}  # fmt: skip
# They do what nobody can take back.
FOR_GOOD = {"funding:attachment-destroy", "story:forget-contact", "story:forget-helper", "story:forget-partner"}
LATER = "2027-02-02"


def nobody_met_there(program: Program) -> None:
    program.visits.update(contact=None)


def nothing_about_it(program: Program) -> None:
    for kind in (
        "asks",
        "promises",
        "offers",
        "gift_lines",
        "letters",
        "outing_stops",
        "purchase_lines",
        "grant_lines",
    ):
        getattr(program, kind).update(need=None)


def in_no_trade(program: Program) -> None:
    program.trade_tallies.all().delete()
    program.trade_classes.all().delete()
    program.project_classes.all().delete()
    program.lost_lessons.update(school_class=None)


def parts_open(program: Program) -> None:
    """The part that the address names is what we make, and is not delivered yet."""
    program.promises.exclude(pk=OWN).delete()
    program.deliveries.filter(promise=OWN).update(quantity=None)
    program.promises.filter(pk=OWN).update(part="make", side="us", collect=False, quantity=9, delivered=0)


def plain_left(program: Program) -> None:
    """What was made is handed over, and some of what they supplied for it is left."""
    program.promises.filter(part="give").update(part="plain", quantity=9, delivered=4)
    program.deliveries.filter(promise=OWN).update(quantity=4)
    program.promises.filter(part="make").update(settled_on=people.TUESDAY, settled_how="that_was_all")


def not_approved_yet(program: Program) -> None:
    program.trades.update(approval_settled=False, approval=None)


def begun(program: Program) -> None:
    program.trade_tallies.update(done=1)
    program.trade_classes.update(done=1, share=3)


def too_many_to_make(program: Program) -> None:
    program.promises.filter(part="make").update(quantity=5000, due="2027-02-26")
    program.classes.update(meets_on=[0, 1], minutes=40, students=24)


def lent(program: Program) -> None:
    program.gifts.update(form="loan", return_on=people.TUESDAY, accept_due=None)


def money(program: Program) -> None:
    program.gifts.update(
        form="money", amount_cents=2000, money_kind="check", hand_in_due=people.TUESDAY, receipt_number=""
    )


def to_look_at(program: Program) -> None:
    program.gifts.update(label_readable=False, fit_for_youngest=False, is_clean=False)
    program.gift_lines.update(risk="food")


def nobody_asked(program: Program) -> None:
    program.turns.all().delete()
    program.sessions.update(day=LATER)


def nobody_came_in_yet(program: Program) -> None:
    program.turns.all().delete()
    program.sessions.update(day=people.TUESDAY)


def came_unthanked(program: Program) -> None:
    program.turns.update(came=True, thanked_on=None)
    program.sessions.update(counted_on=people.TUESDAY)


def something_changed(program: Program) -> None:
    from partners.wish_list.actions import enough

    enough(desk=people.make_desk(program), need=program.needs.get())


def a_person(program: Program) -> None:
    program.partners.update(kind="person")


PARTNER = {"partner_pk": OWN, "partner": ""}
PASTED = "3-Elm\t3\t22"
ONE_LINE = {"line-0-description": "pots", "line-0-quantity": "5"}
FORGET = {"step": "ask", "sure": "yes"}
ATTEMPTS: dict[str, Attempt] = {
    "agenda:settle": Attempt({"act": "done"}, where={"slug": "gifts.thanks"}, page="agenda:review"),
    "agenda:settle-many": Attempt(
        {"do": "done", "line": [f"gifts-thanks-{OWN}", f"promises-theirs-{OWN}"]}, page="agenda:review"
    ),
    "asking:outing-new": Attempt({"day": LATER, "place": [OWN], "once": "a token"}, page=None),
    "directory:contact-edit": Attempt({"name": "Dana Whitlock", "phone": ""}),
    "directory:contact-left": Attempt(before=set_to("contacts", left_on=None), page="directory:partner-detail"),
    "directory:contact-new": Attempt({"name": "Pat Oduya"}),
    "directory:contact-remove": Attempt(before=nobody_met_there, page="directory:contact-edit"),
    "directory:partner-edit": Attempt({"name": "Riverbend Garden Center", "lead_weeks": "3"}),
    "directory:partner-never-ask": Attempt(page="directory:partner-rest"),
    "directory:partner-new": Attempt({"name": "Copper Kettle Diner"}),
    "directory:partner-rest": Attempt({"until": "2030-01-01"}),
    "directory:rest-end": Attempt(before=set_to("partners", rest_until="2028-01-01"), page="directory:partner-detail"),
    "exchanges:class-tally": Attempt({"tap": "5"}, page="exchanges:trade-progress"),
    "exchanges:part-close": Attempt(before=parts_open, where={"act": "that-was-all"}, page="exchanges:trade-detail"),
    "exchanges:part-deliver": Attempt({"quantity": "4"}, before=parts_open, page="exchanges:trade-detail"),
    "exchanges:trade-back": Attempt({"went_back": "2"}, before=plain_left, page="exchanges:trade-detail"),
    "exchanges:tally-take-back": Attempt(page="exchanges:trade-progress"),
    "exchanges:trade-approve": Attempt({"by": "Ms. Odell", "on": "2027-01-04"}, before=not_approved_yet),
    "exchanges:trade-call-off": Attempt(),
    "exchanges:trade-classes": Attempt(
        {f"class-{OWN}": "on", f"without-{OWN}": "2"}, before=set_to("classes", students=24)
    ),
    "exchanges:trade-offer": Attempt({"kind": "smaller"}, before=too_many_to_make, page="exchanges:trade-plan"),
    "exchanges:trade-replan": Attempt(before=begun, page="exchanges:trade-plan"),
    "exchanges:trade-share": Attempt({"share": "5"}, page="exchanges:trade-plan"),
    "exchanges:trade-edit": Attempt(
        {"what": "bags", "at_least": "12", "due": LATER, "plain_by": "none", "display_from": "", "display_until": ""}
    ),
    "exchanges:trade-new": Attempt(
        {**PARTNER, "what": "paper bags", "at_least": "50", "due": LATER, "plain_by": "them", "give-0-what": "seeds"}
    ),
    "gifts:gift-accepted": Attempt(page="gifts:gift-detail"),
    "gifts:gift-edit": Attempt({"purpose": "glazes for the fifth grade"}),
    "gifts:gift-handed-in": Attempt({"receipt_number": "12"}, before=money, page="gifts:gift-detail"),
    "gifts:gift-looked-at": Attempt({"is_clean": "on"}, before=to_look_at, page="gifts:gift-detail"),
    "gifts:gift-new": Attempt({"source": "families", "form": "goods", **ONE_LINE}),
    "gifts:gift-returned": Attempt(before=lent, page="gifts:gift-detail"),
    "gifts:gift-thanked": Attempt(page="gifts:gift-detail"),
    "helpers:card-edit": Attempt({"title": "Hanging at Millrace", "steps": "Lay it out.\nHang it."}),
    "helpers:card-new": Attempt({"job": "sorting", "title": "Sorting yarn", "steps": "Sort by color."}),
    "helpers:card-remove": Attempt(before=set_to("sessions", card=None), page="helpers:card-edit"),
    "helpers:show-edit": Attempt({"works": "80"}),
    "helpers:show-minutes": Attempt({"cutting_works": "40", "cutting_minutes": "55"}),
    "helpers:show-new": Attempt({"title": "Spring show", "opens_on": LATER, "works": "240"}),
    "helpers:show-remove": Attempt(before=set_to("sessions", show=None), page="helpers:show-edit"),
    "helpers:welcome-edit": Attempt({"room": "Room 14"}),
    "helpers:helper-called": Attempt(before=set_to("helpers", first_called_on=None), page="helpers:helper-to-call"),
    "helpers:helper-clearance": Attempt({"cleared": "on", "cleared_until": LATER, "cleared_by": "the office"}),
    "helpers:helper-edit": Attempt({"name": "Rosa Delgado", "phone": "", "email": ""}),
    "helpers:helper-new": Attempt({"name": "Ilse Brandt"}),
    "helpers:helper-start": Attempt(before=set_to("helpers", stopped_on="2027-01-04"), page="helpers:helper-detail"),
    "helpers:helper-stop": Attempt(page="helpers:helper-detail"),
    "helpers:kit-back": Attempt({"minutes": "30"}),
    "helpers:kit-new": Attempt({"what": "felt hearts", "out_on": "2027-01-11", "due": LATER}),
    "helpers:kit-thank": Attempt(before=set_to("kits", back_on="2027-01-11", thanked_on=None), page="helpers:kit-list"),
    "helpers:session-all-came": Attempt({"once": "a token"}, before=set_to("turns", reply="yes"), page=None),
    "helpers:session-ask": Attempt({"helper": OWN}, before=nobody_asked),
    "helpers:session-call-off": Attempt(page="helpers:session-detail"),
    "helpers:session-confirm": Attempt(
        {"which": "day"}, before=set_to("sessions", said_yes=1, day=LATER), page="helpers:session-detail"
    ),
    "helpers:session-count": Attempt(page="helpers:session-check-in"),
    "helpers:session-edit": Attempt({"place": "the art room"}),
    "helpers:session-fill": Attempt({f"ask-{OWN}": OWN}, before=nobody_asked),
    "helpers:session-new": Attempt(
        {"job": "sorting", "day": LATER, "starts": "13:00", "ends": "15:00", "place": "the gym"}
    ),
    "helpers:session-thank": Attempt(before=came_unthanked, page="helpers:session-detail"),
    "helpers:session-walk-in": Attempt({"helper": OWN, "once": "a token"}, before=nobody_came_in_yet, page=None),
    "helpers:slip-stacks": Attempt(),
    "helpers:slips-type": Attempt({"name": "Ana Ruiz", "days": "mw", "jobs": "ch"}),
    "helpers:turn-came": Attempt({"came": "yes"}, page="helpers:session-check-in"),
    "helpers:turn-leave-out": Attempt(page="helpers:session-detail"),
    "helpers:turn-reply": Attempt({"answer": "yes"}, page="helpers:session-detail"),
    "letters:letter-throw-away": Attempt(
        before=set_to("letters", state=LetterState.DRAFT, sheet=None), page="letters:letter-detail"
    ),
    "outreach:document-hand-over": Attempt(
        {"state": "handed_over"}, where={"slug": "leave-behind"}, page="outreach:document-prepare"
    ),
    "outreach:document-prepare": Attempt({"becomes": "planters for the front steps"}, where={"slug": "leave-behind"}),
    "program:own-name": Attempt({"signs_as": "Omar Whitfield", "phone": "(201) 555-0117"}),
    "program:member-edit": Attempt({"role": "guest", "opened": ["today"]}),
    "program:member-remove": Attempt(page="program:member-list"),
    "program:settings": Attempt({"thank_within": "6"}),
    "promises:offer-end": Attempt(before=set_to("offers", every="week"), page="promises:promise-detail"),
    "promises:offer-new": Attempt({**PARTNER, "what": "tubes", "first_on": LATER, "every": "week"}),
    "promises:promise-hand-over": Attempt(
        {"quantity": "3"}, before=set_to("promises", side="us"), page="promises:promise-detail"
    ),
    "promises:promise-move": Attempt({"due": LATER}, page="promises:promise-detail"),
    "promises:promise-new": Attempt({**PARTNER, "side": "them", "what": "wool", "due": LATER, "made_on": "2027-01-11"}),
    "promises:promise-settle": Attempt(where={"act": "never-came"}, page="promises:promise-detail"),
    "school:approval-new": Attempt({"by": "Ms. Odell", "what_for": "asking", "on": "2027-01-04", "until": ""}),
    "school:count-edit": Attempt({"classes": "12", "students": "270"}),
    "school:class-edit": Attempt({"label": "3-Birch", "grade": "3", "students": "24"}),
    "school:class-new": Attempt({"label": "3-Elm", "grade": "3", "students": "22"}),
    "school:class-paste": Attempt({"rows": PASTED, "looked_at": mark_of(PASTED)}),
    "school:classes-paste": Attempt({"rows": PASTED, "looked_at": mark_of(PASTED)}),
    "school:class-remove": Attempt(page="school:class-edit", before=in_no_trade),
    "school:day-new": Attempt({"kind": "closed", "title": "Snow", "first": "2027-01-19", "last": ""}),
    "school:day-remove": Attempt(page="school:school-detail"),
    "school:holidays": Attempt(),
    "school:lost-new": Attempt({"title": "State testing", "first": "2027-01-19", "last": ""}),
    "school:lost-remove": Attempt(page="school:school-detail"),
    "school:project-edit": Attempt({"what_it_became": "Forty planters stand on Main Street."}),
    "school:project-new": Attempt({"title": "Paper mobiles"}),
    "school:rule-new": Attempt({"from_cents": "500", "who": "the board"}),
    "school:rule-remove": Attempt(page="school:school-detail"),
    "school:school-edit": Attempt({"name": "Millrace Elementary", "weekdays": ["0", "1", "3"]}),
    "school:school-new": Attempt({"name": "North Ridge Elementary"}),
    "story:forget-contact": Attempt(FORGET),
    "story:forget-helper": Attempt(FORGET),
    "story:forget-partner": Attempt(FORGET, before=a_person),
    "story:undo": Attempt(before=something_changed, page="story:history"),
    "visits:visit-new": Attempt({**PARTNER, "happened": "yes", "what": "clay", "need": "", "day": "2027-01-12"}),
    "wish_list:cannot-use-edit": Attempt({"what": "glass jars", "why": "they break"}),
    "wish_list:cannot-use-remove": Attempt(page="wish_list:cannot-use-edit"),
    "wish_list:need-edit": Attempt({"what": "yarn", "needed_by": LATER}),
    "wish_list:need-enough": Attempt(page="wish_list:need-list"),
    "wish_list:need-new": Attempt({"what": "wool", "quantity": "12"}),
    "wish_list:need-open-again": Attempt(before=set_to("needs", state="enough"), page="wish_list:need-list"),
    "wish_list:need-remove": Attempt(before=nothing_about_it, page="wish_list:need-edit"),
    **attempts_approvals.ATTEMPTS,
    **attempts_days.ATTEMPTS,
    **attempts_grants.ATTEMPTS,
    **attempts_handover.ATTEMPTS,
    **attempts_buying.ATTEMPTS,
    **attempts_papers.ATTEMPTS,
    **attempts_files.ATTEMPTS,
    **attempts_post.ATTEMPTS,
    **attempts_words.ATTEMPTS,
    **attempts_batches.ATTEMPTS,
    **attempts_share.ATTEMPTS,
}
