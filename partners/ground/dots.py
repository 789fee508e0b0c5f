"""A dot between two words stays on the line of the first.

Templates write `&nbsp;·`, but between tags there are blanks before it, and a line may break at each of them. No style
forbids that, so these blanks are taken out of the finished page.
"""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

DOT = "&nbsp;·".encode()
OPENING = (b"<span", b"<small", b"<a ")


class DotsStay:
    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        answer = self.get_response(request)
        if not answer.streaming and answer.get("Content-Type", "").startswith("text/html"):
            answer.content = closed_up(answer.content)
        return answer


def closed_up(page: bytes) -> bytes:
    """The page without blanks before its dots, also where the dot is the first in a tag of its own.

    >>> closed_up("who\\n  <span>\\n  &nbsp;· what</span>".encode()).decode()
    'who<span>&nbsp;· what</span>'
    """
    *before, last = page.split(DOT)
    return DOT.join([*map(_closed_up, before), last])


def _closed_up(part: bytes) -> bytes:
    part = part.rstrip()
    tag = part.rfind(b"<")
    if part.endswith(b">") and part.startswith(OPENING, tag):
        return part[:tag].rstrip() + part[tag:]
    return part
