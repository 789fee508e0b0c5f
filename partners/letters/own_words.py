"""The teacher's own words for parts of sheets: each saving is a version, and the highest number counts."""

from __future__ import annotations

from django.db import IntegrityError, transaction
from django.db.models import Exists, F, OuterRef, QuerySet
from django.utils.translation import gettext_noop

from partners.ground.changes import ChangedMeanwhile, change
from partners.letters.models import Wording
from partners.program.desk import Desk


def latest(rows: QuerySet[Wording]) -> QuerySet[Wording]:
    """Of every part in every language the version that counts."""
    later = Wording.objects.filter(
        program=OuterRef("program"),
        document=OuterRef("document"),
        language=OuterRef("language"),
        part=OuterRef("part"),
        number__gt=OuterRef("number"),
    )
    return rows.filter(~Exists(later))


def versions(desk: Desk, document: str, language: str, part: str) -> QuerySet[Wording]:
    """All versions of a part, the latest first."""
    rows: QuerySet[Wording] = desk.wordings.filter(document=document, language=language, part=part)
    return rows.order_by(F("number").desc())


def reword(*, desk: Desk, document: str, language: str, part: str, title: str, words: str, seen: int) -> Wording:
    """A new version with these words; "" means those of the house again.

    `seen` is the number of the version that was shown (0 for none): ChangedMeanwhile where there is a later one.
    """
    told = gettext_noop("Own words: %(title)s") if words else gettext_noop("Back to Partner Book’s words: %(title)s")
    with change(desk, told, title=title) as book:
        last = versions(desk, document, language, part).first()
        number = last.number if last else 0
        if number != seen:
            raise ChangedMeanwhile(last)
        own = Wording(document=document, language=language, part=part, number=number + 1, words=words)
        try:
            with transaction.atomic():
                return book.add(own)
        except IntegrityError:
            # Two saved on the same version at once; the other was first.
            raise ChangedMeanwhile(versions(desk, document, language, part).first()) from None
