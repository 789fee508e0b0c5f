"""Who gets a mail about a session, and what it says."""

from __future__ import annotations

from collections.abc import Collection
from dataclasses import dataclass
from datetime import datetime, time
from zoneinfo import ZoneInfo

from django.db.models import Q

from outreach.feeds.mail import NoAddress, address, draft
from outreach.gathering.own_words import own_words
from outreach.gathering.session import school_of, welcome_of
from outreach.wording.counts import sentence
from outreach.wording.dates import with_weekday
from outreach.wording.helping import job_words, speaks_spanish
from outreach.wording.hours import when_words
from outreach.wording.offices_es import in_spanish
from outreach.wording.own_words import OwnWords
from outreach.wording.session_mail import CAME, SHORT, THANKS, missing_words, reach_words, voice
from partners.helpers.models import Helper
from partners.helpers.session_models import Reply, Session
from partners.program.desk import Desk

MOST_RECEIVERS = 100


@dataclass(frozen=True)
class SessionMail:
    """One draft: its receivers' addresses, and how many who should get it have none."""

    receivers: tuple[str, ...]
    without: int
    subject: str
    body: str


def session_mail(desk: Desk, session: Session, kind: str) -> SessionMail:
    """`kind` is one of `NAMES`. In both languages where both are spoken among the receivers."""
    helpers = {SHORT: wanted, CAME: came}.get(kind, said_yes)(desk, session)
    reached = [helper for helper in helpers if can_be_mailed(helper.email)][:MOST_RECEIVERS]
    languages = spoken(desk, [helper.language for helper in reached])
    own = own_words(desk)
    texts = [text_of(desk, session, kind, language, own) for language in languages]
    return SessionMail(
        receivers=tuple(helper.email for helper in reached),
        without=sum(not can_be_mailed(helper.email) for helper in helpers),
        subject=" / ".join(subject for subject, _body in texts),
        body="\n\n- - -\n\n".join(body for _subject, body in texts),
    )


def said_yes(desk: Desk, session: Session) -> list[Helper]:
    rows = desk.helpers.filter(turns__session=session, turns__reply=Reply.YES, forgotten_on=None)
    return list(rows.order_by("name_key", "pk"))


def came(desk: Desk, session: Session) -> list[Helper]:
    rows = desk.helpers.filter(turns__session=session, turns__came=True, forgotten_on=None)
    return list(rows.order_by("name_key", "pk"))


def wanted(desk: Desk, session: Session) -> list[Helper]:
    """Whoever may be asked and has not answered for this session: those asked already first, then all of the school."""
    answered = session.turns.exclude(reply=Reply.SILENT).values("helper")
    rows = desk.helpers.active().exclude(pk__in=answered)
    if session.school_id:
        rows = rows.filter(Q(school=session.school_id) | Q(school=None))
    asked = set(session.turns.values_list("helper_id", flat=True))
    return sorted(rows, key=lambda helper: (helper.pk not in asked, helper.name_key, helper.pk))


def can_be_mailed(email: str) -> bool:
    try:
        address(email)
    except NoAddress:
        return False
    return True


def spoken(desk: Desk, languages: Collection[str]) -> list[str]:
    """The program's language, and the other one where a receiver speaks it; only that where all do."""
    spanish = [speaks_spanish(language) for language in languages]
    own, other = ("es", "en") if desk.program.language == "es" else ("en", "es")
    english = [bool(language) and not one for language, one in zip(languages, spanish, strict=True)]
    is_other = spanish if other == "es" else english
    if not any(is_other):
        return [own]
    return [other] if all(is_other) else [own, other]


def text_of(desk: Desk, session: Session, kind: str, language: str, own: OwnWords) -> tuple[str, str]:
    """Subject and body in one language."""
    job = job_words(session.job, language)
    school = school_of(desk, session)
    place = session.place
    if school and school.name.casefold() not in place.casefold():
        place = f"{place}, {school.name}"
    missing = max(0, session.needed - session.said_yes)
    values = {
        "job": job,
        "day": with_weekday(session.day, language),
        "teacher": desk.signs.teacher,
        "school": school.name if school else "",
        "how to reach you": reach_words(desk.signs.phone, language),
        "how many are missing": missing_words(missing, language),
    }
    say = voice(kind, language, own, values)
    sign_in = "" if kind in (SHORT, CAME) else sentence(welcome_of(desk, school).get("sign_in", ""))
    when = when_words(session.day, session.starts, session.ends, language)
    title = in_spanish(desk.signs.title) if language == "es" else desk.signs.title
    lines = (
        say("greeting"),
        "",
        say("first"),
        "",
        *(f"    {line}" for line in (when, place, job) if line),
        "",
        " ".join(part for part in (sign_in, say("last")) if part),
        "",
        THANKS[language],
        *(line for line in (desk.signs.teacher, title) if line),
    )
    return say("subject"), "\n".join(lines)


def mail_file(desk: Desk, session: Session, kind: str) -> bytes:
    """The draft. Its date is the desk's day at noon, until the teacher's mail program puts the real one.

    Raises NoAddress where the program's own e-mail is missing.
    """
    mail = session_mail(desk, session, kind)
    noon = datetime.combine(desk.day, time(12), ZoneInfo(desk.program.time_zone))
    return draft(
        sender=desk.signs.email,
        name=desk.signs.teacher,
        receivers=mail.receivers,
        subject=mail.subject,
        body=mail.body,
        written_at=noon,
    )
