"""Every address of the site, read from the site itself."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from django.test import RequestFactory
from django.urls import URLPattern, URLResolver, get_resolver, resolve, reverse

from partners.program.files import OWNERS
from partners.program.models import User

# Read by a calendar program, or by somebody who is invited, who cannot sign in: the address itself is the secret.
BY_SECRET = {"outreach:calendar-feed", "program:join", "program:join-link"}
# Read by a browser, or by what watches over the site, before anybody signs in; it holds nothing of any book.
FOR_EVERYBODY = {"program:worker", "health"}
OPEN_TO_ALL = {
    *BY_SECRET, *FOR_EVERYBODY, "asking:kept-state",
    "program:sign-in", "program:sign-out", "program:password", "program:no-program", "program:program-choose",
    "program:device-list", "program:device-others", "program:device-sign-out", "school:set-up",
}  # fmt: skip


def walk(patterns: Any, space: str = "") -> Iterator[tuple[str, URLPattern]]:
    for entry in patterns:
        if isinstance(entry, URLResolver):
            yield from walk(entry.url_patterns, f"{entry.namespace}:" if entry.namespace else space)
        elif entry.name:
            yield f"{space}{entry.name}", entry


ADDRESSES = dict(walk(get_resolver().url_patterns))
WITH_PK = sorted(name for name, entry in ADDRESSES.items() if "pk" in entry.pattern.converters)


def paths(name: str, pk: int) -> list[str]:
    """The address, for each text that can stand in it."""
    converters = ADDRESSES[name].pattern.converters
    given: dict[str, Any] = {"pk": pk} if "pk" in converters else {}
    if "slug" in converters:
        return [reverse(name, kwargs={**given, "slug": slug}) for slug in slugs(name)]
    if "owner" in converters:
        return [reverse(name, kwargs={**given, "owner": owner}) for owner in OWNERS]
    if "use" in converters:
        return [reverse(name, kwargs={**given, "use": "letterhead"})]
    if "secret" in converters:
        return [reverse(name, kwargs={"secret": f"{pk}-1.never-signed"})]
    if "sheet" in converters:
        worded = {"sheet": "leave-behind", "language": "en", "part": "asking"}
        return [reverse(name, kwargs={key: worded[key] for key in converters})]
    if "act" in converters:
        return [reverse(name, kwargs={**given, "act": act}) for act in ("that-was-all", "never-came", "skip")]
    assert set(converters) <= {"pk"}, f"Say what can stand in {name}."
    return [reverse(name, kwargs=given)]


def mark(name: str) -> str:
    """Who may open the view, as it says itself: keepers, teachers, or readers of something."""
    return str(getattr(ADDRESSES[name].callback, "open_to", ""))


def slugs(name: str) -> list[str]:
    if name == "agenda:settle":
        from partners.agenda.lines import SOURCES

        return [source.slug for source in SOURCES]
    if name == "story:row-history":
        from partners.story.views import PAGED

        return sorted(PAGED)
    from outreach.registry import ENTRIES

    return [entry.slug for entry in ENTRIES if entry.words or name in ("outreach:document", "outreach:document-page")]


def closed_to_guests(name: str) -> bool:
    return mark(name) in ("teachers", "keepers")


# It is the same whoever asks, and many walks ask it of every address.
TAKEN: dict[str, set[str]] = {}


def methods(name: str) -> set[str]:
    """What the address takes, as its view says itself when asked with a method that nothing takes."""
    if name not in TAKEN:
        path = paths(name, 1)[0]
        found = resolve(path)
        asked = RequestFactory().delete(path)
        asked._dont_enforce_csrf_checks, asked.user = True, User()
        answer = found.func(asked, *found.args, **found.kwargs)
        assert answer.status_code == 405, f"{name}: DELETE answers {answer.status_code}"
        TAKEN[name] = {part.strip() for part in answer["Allow"].split(",")} & {"GET", "POST"}
    return TAKEN[name]
