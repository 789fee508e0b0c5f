"""Verbs of exemption certificates."""

from __future__ import annotations

from typing import Any

from django.utils.translation import gettext_noop

from partners.funding.buying_models import Certificate
from partners.ground.changes import change
from partners.program.desk import Desk
from partners.school.models import School


def add_certificate(*, desk: Desk, school: School, follows: Certificate | None = None, **values: Any) -> Certificate:
    """`follows` is the certificate that this one renews; its end is then no longer a due line."""
    with change(desk, gettext_noop("Exemption certificate of %(school)s written down"), school=school) as book:
        made = book.add(Certificate(school=school, **values))
        if follows is not None:
            book.update(follows, renewed=True)
        return made


def edit_certificate(*, desk: Desk, certificate: Certificate, seen: int | None = None, **values: Any) -> Certificate:
    with change(desk, gettext_noop("Exemption certificate %(number)s changed"), number=certificate.number) as book:
        return book.update(certificate, seen=seen, **values)


def end_certificate(*, desk: Desk, certificate: Certificate) -> Certificate:
    """It is not needed again; nothing reminds of its end any more."""
    with change(
        desk, gettext_noop("Exemption certificate %(number)s not needed again"), number=certificate.number
    ) as book:
        return book.update(certificate, renewed=True)
