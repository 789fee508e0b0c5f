"""An invented mail to helpers of each kind, for an example and for looking at own words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from outreach.samples import BOTH, SCHOOL, TEACHER
from outreach.wording import session_mail
from outreach.wording.own_words import HOUSE, OwnWords, Part


@dataclass(frozen=True)
class Mail:
    """A mail to helpers, which is no document."""

    kind: str
    language: str
    wording: OwnWords = HOUSE

    def said(self) -> str:
        values = {
            "job": BOTH[self.language]["job"],
            "day": {"en": "Tuesday, November 10, 2026", "es": "martes, 10 de noviembre de 2026"}[self.language],
            "teacher": TEACHER,
            "school": SCHOOL.school,
            "how to reach you": session_mail.reach_words("(201) 555-0101", self.language),
            "how many are missing": session_mail.missing_words(2, self.language),
        }
        say = session_mail.voice(self.kind, self.language, self.wording, values)
        return "\n\n".join(say(part.path) for part in session_mail.PARTS)


def mail(kind: str) -> Callable[[str, Part], Mail]:
    return lambda language, part: Mail(kind, language)
