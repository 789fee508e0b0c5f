"""A #10 envelope: the school in the upper left corner, the address where the post reads it."""

from __future__ import annotations

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless
from outreach.page import (
    DELIVERY,
    ENVELOPE,
    RETURN,
    Address,
    Book,
    Fixed,
    Run,
    Sheet,
    WindowAddress,
    draw_sheet,
    on_paper,
)

SLUG = "envelope"
TITLE = _("Envelope")
ABOUT = "partner"

LARGEST, LARGEST_RETURN = 12.0, 9.5
WORDS = {"en": "Envelope to {name}", "es": "Sobre para {name}"}


@dataclass(frozen=True)
class Facts:
    """Who receives, and the school that sends."""

    language: str
    to: Address
    sender: Address = Address()  # noqa: RUF009 - frozen


def _title(facts: Facts) -> str:
    return WORDS[facts.language].format(name=facts.to.business or facts.to.person)


def _book(facts: Facts) -> Book:
    return Book(ENVELOPE, title=_title(facts), author=facts.sender.business, language=facts.language)


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many, stream = _RUN.draw, _RUN.draw_many, _RUN.write_many, _RUN.stream


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the post would miss."""
    clean = on_paper(facts)
    to, sender = clean.to, clean.sender
    whole = to.city and to.state and to.zip_code
    return (
        *found(
            unless(any(to.street), "no-street", _("No street: the post cannot deliver it."), "to"),
            unless(whole, "no-last-line", _("City, state or ZIP code is missing."), "to"),
            unless(_to(to).fits(DELIVERY.width), "too-long", _("The address is too long for the envelope."), "to"),
            unless(sender.complete, "no-sender", _("The school’s own address is not complete."), "sender"),
        ),
        *missing_signs(facts),
    )


def _to(address: Address) -> WindowAddress:
    return WindowAddress(address, DELIVERY.height, largest=LARGEST)


def _sheet(facts: Facts) -> Sheet:
    sender = WindowAddress(facts.sender, RETURN.height, largest=LARGEST_RETURN)
    return Sheet(
        title=_title(facts),
        flow=(),
        fixed=(
            Fixed(sender, RETURN.left, RETURN.top, RETURN.width),
            Fixed(_to(facts.to), DELIVERY.left, DELIVERY.top, DELIVERY.width),
        ),
    )
