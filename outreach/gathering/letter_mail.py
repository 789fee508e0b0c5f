"""A letter as a mail: who can get it, and what it says."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import datetime, time
from typing import Any
from zoneinfo import ZoneInfo

from outreach.feeds.mail import draft_with_sheet, mail_link
from outreach.gathering.session_mail import can_be_mailed
from outreach.page import lost_signs, on_paper, printable
from outreach.page.told import overhear
from outreach.prepared import Prepared
from outreach.sheet_words import sheet_words
from outreach.wording.dates import spelled
from partners.directory.models import Partner
from partners.program.desk import Desk

ATTACHED = {"en": "The same is attached as a sheet.", "es": "Lo mismo va adjunto en una hoja."}
# Longer links are cut by some programs. Common practice; the figure is from memory.
MOST_IN_A_LINK = 1900


@dataclass(frozen=True)
class Receiver:
    name: str
    address: str


@dataclass(frozen=True)
class LetterMail:
    subject: str
    body: str
    sheet: bytes
    file_name: str


def receivers(prepared: Prepared) -> list[Receiver]:
    """Each address once: who decides first, then the others there, then the place itself; a helper themself."""
    about = prepared.about
    found: list[Receiver] = []
    partner, helper = about.get("partner"), about.get("helper")
    if isinstance(partner, Partner):
        found += [Receiver(one.name, one.email) for one in partner.contacts.filter(left_on=None)]
        found.append(Receiver(partner.name, partner.email))
    if helper is not None:
        found.append(Receiver(helper.name, helper.email))
    known: dict[str, Receiver] = {}
    for one in found:
        if can_be_mailed(one.address):
            known.setdefault(one.address.casefold(), one)
    return list(known.values())


def letter_mail(prepared: Prepared) -> LetterMail:
    """The sheet as it would go out now."""
    module, facts = prepared.module, prepared.facts
    sheets = overhear(lambda: module.draw(facts))
    words = whole_names(as_a_mail("\n\n".join(sheet_words(sheet) for sheet in sheets), on_paper(facts)), facts)
    attached = ATTACHED.get(sheets[0].language[:2], ATTACHED["en"])
    subject = f"{sheets[0].title}: {prepared.desk.program.name}"
    return LetterMail(subject, f"{words}\n\n{attached}\n", module.draw(facts), f"{prepared.slug}.pdf")


def as_a_mail(words: str, facts: Any) -> str:
    """What a letter says from its greeting on; a mail has its own day and address, and its sender stands at its end.

    `facts` are those that are on paper.
    """
    head, address = getattr(facts, "letterhead", None), getattr(facts, "address", None)
    if head is None:
        return words
    lines = address.lines() if address else ()
    sender = {_bare(head.school), _bare(*head.address, head.phone), _bare(head.school, *head.address, head.phone)}
    above = sender | {_bare(spelled(facts.day, facts.language)), _bare(*lines), *map(_bare, lines)}
    said = words.split("\n\n")
    first = next((place for place, one in enumerate(said) if _bare(one) not in above), 0)
    signed = "\n".join(one for one in said[:first] if _bare(one) in sender)
    return "\n\n".join(filter(None, (*said[first:], signed)))


def whole_names(words: str, facts: Any) -> str:
    """A mail writes a name with the signs that the letter's type lacks, where paper has only what is left of it."""
    for name in {one.value for one in lost_signs(facts)}:
        left = printable(name)
        if len(left) > 1:
            words = re.sub(rf"\b{re.escape(left)}\b", name.replace("\\", r"\\"), words)
    return words


def _bare(*words: str) -> str:
    """Told apart by nothing but words: on paper dots or commas part them."""
    return " ".join(re.findall(r"\w+", " ".join(words)))


def draft_file(desk: Desk, mail: LetterMail, to: Receiver) -> bytes:
    """Its date is the desk's day at noon, until the teacher's mail program puts the real one.

    Raises NoAddress where the program's own e-mail is missing.
    """
    return draft_with_sheet(
        sender=desk.signs.email,
        name=desk.signs.teacher,
        receiver=to.address,
        subject=mail.subject,
        body=mail.body,
        sheet=mail.sheet,
        file_name=mail.file_name,
        written_at=datetime.combine(desk.day, time(12), ZoneInfo(desk.program.time_zone)),
    )


def link(mail: LetterMail, to: Receiver) -> str:
    """A link with the words; without them where they would be too long for one. A link attaches nothing."""
    words = mail.body.rstrip("\n").rpartition("\n\n")[0]
    whole = mail_link(to.address, mail.subject, words)
    return whole if len(whole) <= MOST_IN_A_LINK else mail_link(to.address, mail.subject)
