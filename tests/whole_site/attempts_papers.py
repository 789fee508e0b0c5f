"""What is typed into the forms of kept pictures and papers, and of projects."""

from __future__ import annotations

from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from tests.ground.sent_files import letter
from tests.whole_site.attempt import Attempt, set_to


class SentAgain(SimpleUploadedFile):
    """A file that can be sent more than once."""

    def read(self, *args: Any) -> bytes:
        self.seek(0)
        return super().read(*args)


ATTEMPTS = {
    "funding:attachment-destroy": Attempt(page="funding:attachment-remove"),
    "funding:attachment-new": Attempt(
        {"sent": SentAgain("letter.pdf", letter()), "title": "Award letter"}, where={"owner": "project"}
    ),
    "funding:attachment-remove": Attempt(),
    "funding:attachment-tick": Attempt(
        {"shows_no_child": "on", "once": "a token"}, before=set_to("kept_files", kind="picture"), page=None
    ),
}
