"""A grant in words: how it stands, what is left, and what does not fit together."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date

from django.utils.formats import date_format
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.funding.grant_limits import not_in_lines
from partners.funding.grant_models import Grant, GrantState
from partners.funding.grant_sums import LineSum
from partners.ground.money import format_cents


def until(day: date, today: date) -> str:
    """ "by March 3, 2027, 12 days left", with its name where the day has gone by."""
    named = {"day": date_format(day, "DATE_FORMAT")}
    left = (day - today).days
    if left < 0:
        late = ngettext("%(n)d day ago", "%(n)d days ago", -left) % {"n": -left}
        return _("by %(day)s, which was %(late)s") % {**named, "late": late}
    if left == 0:
        return _("by today")
    return ngettext("by %(day)s, %(n)d day left", "by %(day)s, %(n)d days left", left) % {**named, "n": left}


def standing(grant: Grant, today: date, *, with_reason: bool) -> str:
    """How it stands, in one or two sentences; `with_reason` also why they refused it."""
    said = {
        GrantState.PLANNED: _planned,
        GrantState.ASKED: _asked,
        GrantState.REFUSED: _refused,
        GrantState.AWARDED: _awarded,
    }[GrantState(grant.state)](grant, today)
    return f"{said} {grant.refusal_reason}".strip() if with_reason and grant.state == GrantState.REFUSED else said


def _planned(grant: Grant, today: date) -> str:
    if grant.apply_by is None:
        return _("Being written; no day to apply by is set.")
    return _("Being written. Apply %(until)s.") % {"until": until(grant.apply_by, today)}


def _asked(grant: Grant, today: date) -> str:
    facts = {"amount": _money(grant.asked_cents), "day": _day(grant.asked_on)}
    said = _("We asked for %(amount)s on %(day)s.") % facts
    if grant.answer_by is None:
        return said
    return said + " " + _("An answer is expected %(until)s.") % {"until": until(grant.answer_by, today)}


def _refused(grant: Grant, today: date) -> str:
    return _("They said no on %(day)s.") % {"day": _day(grant.answered_on)}


def _awarded(grant: Grant, today: date) -> str:
    left = grant.left_cents
    facts = {"amount": _money(grant.awarded_cents), "left": _money(abs(left))}
    if left < 0:
        said = _("%(left)s more than the %(amount)s of the award is spent.") % facts
    elif left == 0:
        said = _("All of the %(amount)s is spent.") % facts
    elif grant.rest_back_on is not None:
        part = _("%(left)s of the %(amount)s") if grant.spent_cents else _("All of the %(amount)s")
        named = {"part": part % facts, "day": _day(grant.rest_back_on)}
        said = _("%(part)s went back to them on %(day)s.") % named
    elif grant.leftover_settled:
        said = _("%(left)s of the %(amount)s stays unspent.") % facts
    else:
        some = left != grant.awarded_cents
        part = _("%(left)s of the %(amount)s") if some else _("All of the %(amount)s")
        if grant.spend_by is None:
            said = _("%(part)s is still to spend; no last day is written down.") % {"part": part % facts}
        else:
            said = _("%(part)s is still to spend %(until)s.")
            said = said % {"part": part % facts, "until": until(grant.spend_by, today)}
    return " ".join([said, *_ends(grant, today)])


def _ends(grant: Grant, today: date) -> list[str]:
    """What is still to be handed in, the next first."""
    open_days = [
        (grant.claim_by if grant.claimed_on is None else None, _("Claim it %(until)s.")),
        (grant.report_due if grant.reported_on is None else None, _("The report is due %(until)s.")),
    ]
    return [words % {"until": until(day, today)} for day, words in open_days if day is not None]


def doubts(grant: Grant, sums: Sequence[LineSum]) -> list[str]:
    """What does not fit together and should be looked at; one sentence each."""
    found = []
    whole = grant.awarded_cents if grant.state == GrantState.AWARDED else grant.asked_cents
    planned = [one.planned for one in sums]
    if whole is not None and not_in_lines(whole, planned):
        words = award_sum_words if grant.state == GrantState.AWARDED else sum_words
        found.append(words(whole, sum(planned)))
    for one in sums:
        if one.is_over:
            facts = {"line": one.line.what, "over": format_cents(-one.left)}
            found.append(_("%(line)s: %(over)s more than planned is spent. Ask them to agree to a change.") % facts)
    if grant.claim_by and grant.spend_by and grant.claim_by < grant.spend_by:
        words_too_late = _("The last day to claim comes before the last day to spend: after it nothing can be claimed.")
        found.append(words_too_late)
    return found


def sum_words(asked: int, lines: int) -> str:
    """That lines and amount differ, and by how much; both in cents."""
    facts = {"lines": format_cents(lines), "asked": format_cents(asked), "rest": format_cents(abs(asked - lines))}
    if lines < asked:
        return _("The lines come to %(lines)s, and %(asked)s is asked for: %(rest)s stands in no line.") % facts
    return _("The lines come to %(lines)s, and only %(asked)s is asked for: %(rest)s too much in the lines.") % facts


def award_sum_words(awarded: int, lines: int) -> str:
    """The same for what was awarded: the lines as planned do not come to it."""
    facts = {"lines": format_cents(lines), "awarded": format_cents(awarded), "rest": format_cents(abs(awarded - lines))}
    if lines < awarded:
        return _("The lines come to %(lines)s, and %(awarded)s is awarded: %(rest)s stands in no line.") % facts
    words = _("The lines come to %(lines)s, and %(awarded)s is awarded: bring them down by %(rest)s, as they approved.")
    return words % facts


def _money(cents: int | None) -> str:
    return format_cents(cents or 0)


def _day(day: date | None) -> str:
    return date_format(day, "DATE_FORMAT") if day else ""
