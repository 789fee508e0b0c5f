"""Keeping pictures and papers. Their bytes are made anew, kept once, and never part of an event."""

from __future__ import annotations

from hashlib import sha256
from typing import TYPE_CHECKING, Any

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.ground.changes import Change, change
from partners.ground.pictures import Made, made_anew, refuse_size
from partners.program.desk import Desk
from partners.program.file_models import Attachment, FileKind, KeptFile

if TYPE_CHECKING:
    from django.core.files.uploadedfile import UploadedFile

    Sent = UploadedFile[bytes]


def made_from(sent: Sent) -> Made:
    """A clean copy of what was sent. Raises NotKept, and asks for the size before it reads."""
    refuse_size(sent.size or 0)
    sent.seek(0)
    return made_anew(sent.read())


def attach(*, desk: Desk, sent: Sent | Made, title: str = "", shows_no_child: bool = False, **owner: Any) -> Attachment:
    """Keep a picture or a PDF with one row: `grant=…`, `purchase=…`, `project=…`, `approval=…` or `certificate=…`.

    Raises NotKept, with a sentence that says why, for what cannot be kept; then nothing is stored.
    """
    made = sent if isinstance(sent, Made) else made_from(sent)
    is_picture = made.kind == FileKind.PICTURE.value
    title = title or (_("Picture") if is_picture else _("Paper"))
    with change(desk, gettext_noop("Kept: %(title)s"), title=title) as book:
        for row in owner.values():
            book.about(row)
        return book.add(
            Attachment(
                file=kept(book, desk, made),
                title=title,
                day=desk.day,
                shows_no_child=shows_no_child and is_picture,
                **owner,
            )
        )


def kept(book: Change, desk: Desk, made: Made) -> KeptFile:
    """The same bytes are kept once."""
    digest = sha256(made.content).hexdigest()
    found: KeptFile | None = desk.kept_files.filter(sha256=digest).defer("content").first()
    return found or book.add(KeptFile(sha256=digest, kind=made.kind, content=made.content))


def tick(*, desk: Desk, attachment: Attachment, shows_no_child: bool) -> Attachment:
    """Say that no child can be recognised in it, or that the school holds a release for each; or take that back."""
    words = gettext_noop("May be printed: %(title)s") if shows_no_child else gettext_noop("Not printed: %(title)s")
    with change(desk, words, title=attachment.title) as book:
        return book.update(attachment, shows_no_child=shows_no_child)


def take_away(*, desk: Desk, attachment: Attachment) -> None:
    """It is shown no more. The bytes stay, so that this can be undone."""
    with change(desk, gettext_noop("Taken away: %(title)s"), title=attachment.title) as book:
        book.remove(attachment)


def destroy(*, desk: Desk, attachment: Attachment) -> None:
    """It goes for good, with its bytes, wherever the same picture or paper was kept. Nothing brings it back."""
    with change(desk, gettext_noop("Destroyed: %(title)s"), title=attachment.title) as book:
        file = attachment.file
        for one in desk.program.attachments.filter(file=file):
            book.remove(one)
        for shown in desk.program.letter_pictures.filter(file=file):
            book.remove(shown)
        book.remove(file)
