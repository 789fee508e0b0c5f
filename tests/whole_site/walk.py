"""Walks the demo book as a teacher does: by following what the pages lead to."""

from __future__ import annotations

from collections import Counter, deque
from collections.abc import Collection
from dataclasses import dataclass, field
from typing import Any

from django.test import Client
from django.urls import resolve, reverse
from django.utils import timezone

from partners.config.demo_book import load_demo
from partners.directory.models import Partner
from partners.program.models import User
from tests.whole_site.pages import Page, within


@dataclass
class Walk:
    """What was seen: the pages by their address, other answers by theirs, and which address names were reached."""

    pages: dict[str, Page] = field(default_factory=dict)
    status: dict[str, int] = field(default_factory=dict)
    policy: dict[str, str] = field(default_factory=dict)
    reached: Counter[str] = field(default_factory=Counter)
    leads: dict[str, str] = field(default_factory=dict)


def walked(client: Client, start: str, of_one_kind: int, more: Collection[str] = ()) -> Walk:
    """Follows every link from the first page on; of pages that differ only in the row they show, so many are opened.

    Of those named in `more` it is a dozen: their rows are in many states, and what they lead to depends on it.
    """
    walk, waiting, seen = Walk(), deque([start]), {start}
    while waiting:
        path = waiting.popleft()
        name = resolve(path.partition("?")[0]).view_name
        if walk.reached[name] >= (12 if name in more else of_one_kind):
            continue
        walk.reached[name] += 1
        answer: Any = client.get(path)
        walk.status[path] = answer.status_code
        if answer.status_code == 302:
            links = [answer["Location"]]
        elif answer["Content-Type"].startswith("text/html"):
            page = walk.pages[path] = Page.read(answer.content.decode())
            walk.policy[path] = answer.get("Content-Security-Policy", "")
            links = [*page.links, *(form.action for form in page.forms if form.method == "get")]
        else:
            links = []
            # A file is closed once it was read to its end.
            assert b"".join(answer.streaming_content) if answer.streaming else answer.content
        for link in links:
            onward = within(path, link)
            if onward and onward not in seen and not onward.startswith("/static/"):
                seen.add(onward)
                walk.leads[onward] = path
                waiting.append(onward)
    return walk


def hand_over_a_sheet(client: Client) -> None:
    """So that the register of letters and sheets holds one."""
    partner = Partner.objects.order_by("pk")[0]
    answer = client.post(
        reverse("outreach:document-hand-over", args=["leave-behind", partner.pk]), {"state": "handed_over"}
    )
    assert answer["Location"].startswith(reverse("letters:letter-list"))


def put_letters_together(client: Client) -> None:
    """A batch of year-end notes, all still here."""
    address = reverse("outreach:batch-list")
    year = client.get(address).context["year"].fields["year"].choices[0][0]
    assert client.post(address, {"kind": "year_end", "year": year}).status_code == 302


def keeper_of_the_demo() -> Client:
    """The demo book loaded, with one row more of what it has none of, and June's browser."""
    load_demo(timezone.localdate())
    client = Client()
    client.force_login(User.objects.get(username="june"), backend="django.contrib.auth.backends.ModelBackend")
    hand_over_a_sheet(client)
    put_letters_together(client)
    client.post(reverse("outreach:calendar-renew"))
    return client
