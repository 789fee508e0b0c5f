"""The shape of one line in a partner's story."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, datetime

from django.utils.functional import Promise as LazyText


@dataclass(frozen=True, slots=True)
class StoryLine:
    """Something that happened or is promised. `private` is a note guests never see; `side` is us, them or empty."""

    day: date
    written_at: datetime
    what: str | LazyText
    detail: str = ""
    side: str = ""
    url: str = ""
    private: str = ""
    open: bool = False
