"""The plan by class in words: what is so of each class, what would help, what to look out for."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from typing import Any

from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.exchanges.models import TradeClass
from partners.exchanges.offers import Offer, OfferKind, ShareChange
from partners.exchanges.plan import Row, Why
from partners.ground.days import spelled

NAMED = 4
# Each state has a sign of its own shape, so that nothing depends on colour.
SIGNS = {"done": "✓", "working": "◐", "short": "▲", "late": "!", "waiting": "○", "apart": "–"}


def day_words(day: date) -> str:
    return spelled(day, "MONTH_DAY_FORMAT")


def why_words(why: Why | None, school_class: Any) -> str:
    """Why a class cannot make its share, as a heading over all of which that is so."""
    if why in (Why.NO_MEETING, Why.UNCOUNTED) and not school_class.meets_on:
        return _("Days of art not entered")
    return {
        Why.NOBODY: _("Nobody takes part"),
        Why.NO_MINUTES: _("Length of lessons not entered"),
        Why.NO_MEETING: _("No lesson left by then"),
        Why.LIMIT: _("Lessons for this year used up"),
        Why.TOO_FEW: _("Too few lessons left by then"),
        Why.UNCOUNTED: _("Lessons are over, and nothing was counted in them"),
        None: "",
    }[why]


def state_of(row: Row, stored: TradeClass, day: date) -> tuple[str, str]:
    """A kind of state, and the words for it."""
    if not row.share:
        return "apart", _("makes none")
    if not row.left:
        return "done", _("all done")
    if row.why is Why.NO_MINUTES:
        return "short", _("length of lessons not entered")
    if row.short_by:
        words = ngettext("%(count)s does not fit", "%(count)s do not fit", row.short_by)
        return "short", words % {"count": f"{row.short_by:,}"}
    if stored.started_on is not None or row.done or row.spoiled:
        return "working", _("%(done)d of %(share)d done") % {"done": row.done, "share": row.share}
    if stored.start_on is not None and stored.start_on < day:
        return "late", _("should have begun on %(day)s") % {"day": day_words(stored.start_on)}
    return "waiting", _("not begun")


def few(named: Sequence[str]) -> str:
    """The first of them, and how many more."""
    shown = list(named[:NAMED])
    if len(named) > NAMED:
        more = len(named) - NAMED
        shown.append(ngettext("%(count)d more class", "%(count)d more classes", more) % {"count": more})
    return str(get_text_list(shown, _("and")))


def listed(changes: Sequence[ShareChange], words: Any) -> str:
    return few([words(change) for change in changes])


def fewer_words(change: ShareChange) -> str:
    facts = {"label": change.label, "before": change.before, "after": change.after}
    if not change.after:
        return _("%(label)s makes none instead of %(before)d") % facts
    return _("%(label)s makes %(after)d instead of %(before)d") % facts


def more_words(change: ShareChange) -> str:
    return _("%(label)s %(more)d more") % {"label": change.label, "more": change.after - change.before}


def offer_words(offer: Offer, due: date, partner: Any) -> dict[str, str]:
    """Heading, sentence and button of an offer."""
    changes_promise = _("This changes what was promised: talk to %(partner)s first. The memo becomes a new version.")
    if offer.kind is OfferKind.FEWER:
        sentence = listed(offer.cannot, fewer_words)
        if offer.take_over:
            sentence = _("%(less)s; instead %(more)s.") % {
                "less": sentence,
                "more": listed(offer.take_over, more_words),
            }
        return {
            "kind": offer.kind,
            "heading": _("Fewer classes, or less for some"),
            "sentence": f"{sentence} {_('The promise stays.')}",
            "button": _("Let the others take it over"),
        }
    told = changes_promise % {"partner": partner}
    if offer.kind is OfferKind.LATER:
        day = day_words(due)
        return {
            "kind": offer.kind,
            "heading": _("A later day"),
            "sentence": _("By %(day)s all of it can be there. %(told)s") % {"day": day, "told": told},
            "button": _("Promise it for %(day)s") % {"day": day},
        }
    return {
        "kind": offer.kind,
        "heading": _("A smaller number"),
        "sentence": _("%(count)s can be there on the day. %(told)s") % {"count": f"{offer.at_least:,}", "told": told},
        "button": _("Promise %(count)s") % {"count": f"{offer.at_least:,}"},
    }


def moved_words(moved: Sequence[Any]) -> str:
    """Which other classes make more or fewer now."""
    if not moved:
        return _("No other class changes.")
    named = few([f"{one.label} {one.before} → {one.after}" for one in moved])
    return _("So that the sum stays right: %(classes)s.") % {"classes": named}
