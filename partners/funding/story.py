"""Grants, purchases and free days, as lines of a partner's story."""

from __future__ import annotations

from typing import Any

from partners.funding import buying_story, grant_story, occasion_story
from partners.ground.story import StoryLine


def lines(desk: Any, partner: Any) -> list[StoryLine]:
    return [
        *grant_story.lines(desk, partner),
        *buying_story.lines(desk, partner),
        *occasion_story.lines(desk, partner),
    ]
