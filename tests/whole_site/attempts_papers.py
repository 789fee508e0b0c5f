"""What is typed into the forms of kept pictures and papers, and of projects."""

from __future__ import annotations

from typing import Any

from django.core.files.uploadedfile import SimpleUploadedFile

from partners.program.models import Program
from tests.ground.sent_files import letter, photograph
from tests.whole_site.attempt import Attempt, set_to

DETAIL = "school:project-detail"
OWN = 5_000_001


class SentAgain(SimpleUploadedFile):
    """A file that can be sent more than once."""

    def read(self, *args: Any) -> bytes:
        self.seek(0)
        return super().read(*args)


def not_told_yet(program: Program) -> None:
    program.projects.update(what_it_became="", became_on=None)


ATTEMPTS = {
    "funding:attachment-destroy": Attempt(page="funding:attachment-remove"),
    "funding:attachment-new": Attempt(
        {"sent": SentAgain("letter.pdf", letter()), "title": "Award letter"}, where={"owner": "project"}
    ),
    "funding:attachment-remove": Attempt(),
    "funding:attachment-tick": Attempt(before=set_to("kept_files", kind="picture"), page=DETAIL),
    "program:letter-picture-choose": Attempt(
        {"sent": SentAgain("mill.jpg", photograph())}, where={"use": "letterhead"}
    ),
    "program:letter-picture-remove": Attempt(page="program:letter-picture-list"),
    "school:project-became": Attempt({"what_it_became": "Forty planters stand on Main Street."}),
    "school:project-classes": Attempt({f"class-{OWN}": ""}),
    "school:project-nothing": Attempt(before=not_told_yet, page="school:project-became"),
    "school:project-part-done": Attempt(page=DETAIL),
    "school:project-part-edit": Attempt({"what": "two rolls of paper"}),
    "school:project-part-new": Attempt({"what": "clay", "by": "us", "does": "brings"}),
    "school:project-part-remove": Attempt(page="school:project-part-edit"),
}
