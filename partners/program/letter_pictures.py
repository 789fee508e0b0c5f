"""The pictures that letters carry: choosing one, taking it away, and which of them a sheet shows."""

from __future__ import annotations

from typing import Any

from django.db import IntegrityError, transaction
from django.db.models import F, Q
from django.utils.translation import gettext_noop

from partners.ground.changes import Change, ChangedMeanwhile, change
from partners.ground.pictures import Made
from partners.program.desk import Desk
from partners.program.file_actions import kept
from partners.program.file_models import LetterPicture, LetterUse


def stored(desk: Desk, use: str, school: Any = None) -> LetterPicture | None:
    """The program's, or the school's own, without its bytes; of signatures that of who is at the desk."""
    whose = {"name": desk.signs.teacher} if use == LetterUse.SIGNATURE else {}
    rows = desk.letter_pictures.filter(use=use, school=school, **whose).select_related("file").defer("file__content")
    found: LetterPicture | None = rows.first()
    return found


def may_choose(desk: Desk, use: str) -> bool:
    """All pictures are the keeper's to choose; a colleague with a name of their own has their own signature."""
    return desk.keeps or (use == LetterUse.SIGNATURE and desk.signer is not None)


def is_theirs(desk: Desk, use: str, name: str, chosen_by: int | None) -> bool:
    """Whether the picture is for who is at the desk: of colleagues the one they chose themselves. The name alone is no
    proof, since all write what they like under what they print.
    """
    if desk.keeps:
        return True
    own = desk.signs.teacher, desk.user.pk if desk.user else None
    return may_choose(desk, use) and (name, chosen_by) == own


def choose(*, desk: Desk, use: str, made: Made | None, school: Any = None, alone: bool = False) -> LetterPicture:
    """From now on letters carry this picture; those that went out stay as they were. Without `made` the picture that
    is there stays and only its place changes.
    """
    own = LetterUse(use) == LetterUse.SIGNATURE
    values: dict[str, Any] = {"alone": alone and not own, "name": desk.signs.teacher if own else ""}
    words = gettext_noop("Signature picture chosen") if own else gettext_noop("Letterhead picture of %(whose)s chosen")
    with change(desk, words, whose=school or desk.program) as book:
        row = stored(desk, use, school)
        if made is not None:
            values["file"] = kept(book, desk, made)
        if row is None:
            row = _first(book, desk, LetterPicture(use=use, school=school, **values))
        else:
            book.update(row, **values)
        book.about(row)
        return row


def _first(book: Change, desk: Desk, picture: LetterPicture) -> LetterPicture:
    try:
        with transaction.atomic():
            return book.add(picture)
    except IntegrityError:
        # Two chose the first one at once; the other was faster.
        raise ChangedMeanwhile(stored(desk, picture.use, picture.school)) from None


def take_off(*, desk: Desk, picture: LetterPicture) -> None:
    """Letters carry it no more. The bytes stay, so that this can be undone."""
    with change(desk, gettext_noop("Taken off letters: %(picture)s"), picture=picture) as book:
        book.remove(picture)


def letterhead_bytes(desk: Desk, school: Any) -> tuple[bytes, bool] | None:
    """The school's own letterhead picture, else the program's, and whether it stands alone."""
    rows = desk.letter_pictures.filter(Q(school=school) | Q(school=None), use=LetterUse.LETTERHEAD)
    row = rows.select_related("file").order_by(F("school").asc(nulls_last=True)).first()
    return (bytes(row.file.content), row.alone) if row is not None else None


def may_sign(desk: Desk, name: str) -> bool:
    """Whether there is a picture of this person's signature."""
    return bool(name) and bool(desk.letter_pictures.filter(use=LetterUse.SIGNATURE, name=name).exists())


def signature_bytes(desk: Desk, name: str) -> bytes | None:
    """The signature, where it is that of the person whose name stands under the letter."""
    row = desk.letter_pictures.filter(use=LetterUse.SIGNATURE, name=name).select_related("file").first()
    return bytes(row.file.content) if row is not None and name else None
