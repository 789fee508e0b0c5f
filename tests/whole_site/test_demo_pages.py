"""Every page of the demo book, reached as a teacher does: by following what the pages lead to."""

from __future__ import annotations

from typing import Any

import pytest
from django.db import transaction
from django.urls import resolve, reverse

from partners.agenda.check_book import differences
from partners.program.models import Program
from tests.whole_site.addresses import ADDRESSES, methods
from tests.whole_site.pages import within
from tests.whole_site.walk import Walk, keeper_of_the_demo, walked

# Of every test here: those with the database run first, and for the others the book would be walked a second time.
pytestmark = pytest.mark.django_db
# Not led to by any link: asked by script (some while somebody types), open only to who cannot work here yet, for a
# partner who is a person, for somebody written down twice, for more sheets in a batch, or for what was handed over in a
# trade; the demo book has none of these.
NO_LINK = {
    "directory:partner-suggest", "program:no-program", "program:components", "school:set-up", "program:sign-in",
    "outreach:document-reading", "story:forget-partner", "program:worker", "asking:kept-pages", "asking:kept-state",
    "outreach:batch-look", "outreach:own-words-try", "health", "program:join", "program:join-link",
    "program:member-link", "program:letter-picture", "story:contact-merge", "story:helper-merge",
    "exchanges:trade-counts",
}  # fmt: skip

IN_MANY_STATES = {
    "funding:grant-detail", "letters:letter-detail", "outreach:document-prepare", "outreach:document-mail",
}  # fmt: skip


@pytest.fixture(scope="module", params=[2, pytest.param(12, marks=pytest.mark.nightly)], ids=["few", "many"])
def walk(request: Any, django_db_setup: None, django_db_blocker: Any) -> Walk:
    """The demo book, walked once by its keeper, and gone again; of pages that differ in their row alone, so many."""
    with django_db_blocker.unblock(), transaction.atomic():
        point = transaction.savepoint()
        client = keeper_of_the_demo()
        assert differences(Program.objects.get()) == []
        found = walked(client, reverse("agenda:today"), request.param, IN_MANY_STATES)
        transaction.savepoint_rollback(point)
    return found


def test_every_link_of_every_page_opens(walk: Walk) -> None:
    assert {path: (status, walk.leads[path]) for path, status in walk.status.items() if status not in (200, 302)} == {}
    assert len(walk.pages) > 150


def test_every_page_can_be_reached(walk: Walk) -> None:
    """What nothing leads to, nobody finds."""
    reading = {name for name in ADDRESSES if name not in NO_LINK | {"program:sign-out"} and "GET" in methods(name)}
    assert reading - set(walk.reached) == set()


def test_every_page_has_one_heading_a_title_and_a_language(walk: Walk) -> None:
    assert {path: page.headings for path, page in walk.pages.items() if page.headings != 1} == {}
    bare = {
        path for path, page in walk.pages.items() if not page.title.partition("·")[0].strip() or page.lang != "en-us"
    }
    assert bare == set()


def test_no_id_stands_twice_on_a_page(walk: Walk) -> None:
    assert {path: page.twice() for path, page in walk.pages.items() if page.twice()} == {}


def test_every_table_has_its_caption_and_every_heading_its_scope(walk: Walk) -> None:
    faults = {
        path: (table.caption.strip(), table.headers)
        for path, page in walk.pages.items()
        for table in page.tables
        if not table.caption.strip()
        or not table.headers
        or any(header.get("scope") not in ("col", "row", "colgroup", "rowgroup") for header in table.headers)
    }
    assert faults == {}
    assert sum(len(page.tables) for page in walk.pages.values()) > 20


def test_nothing_is_styled_or_scripted_within_a_page(walk: Walk) -> None:
    assert {path: page.inline for path, page in walk.pages.items() if page.inline} == {}


def test_every_form_that_writes_carries_the_token(walk: Walk) -> None:
    bare = {
        (path, form.action)
        for path, page in walk.pages.items()
        for form in page.forms
        if form.method == "post" and "csrfmiddlewaretoken" not in form.sent
    }
    assert bare == set()


def test_every_form_leads_to_an_address_that_takes_it(walk: Walk) -> None:
    targets = {
        (resolve(within(path, form.action or path).partition("?")[0]).view_name, form.method.upper()): path
        for path, page in walk.pages.items()
        for form in page.forms
    }
    ours = {one: path for one, path in targets.items() if one[0] not in ("program:sign-out", "program:sign-in")}
    assert {(one, path) for one, path in ours.items() if one[1] not in methods(one[0])} == set()
    assert len(ours) > 30


def test_the_content_policy_allows_nothing_inline_and_nothing_from_elsewhere(walk: Walk) -> None:
    policies = set(walk.policy.values())
    assert len(policies) == 1
    rules = dict(part.strip().split(" ", 1) for part in policies.pop().split(";") if part.strip())
    assert rules["default-src"] == "'self'"
    assert rules["object-src"] == rules["base-uri"] == "'none'"
    assert rules["form-action"] == "'self'"
    allowed = {source for sources in rules.values() for source in sources.split()}
    assert allowed <= {"'self'", "'none'", "data:"}
    assert [name for name, sources in rules.items() if "data:" in sources] == ["img-src"]
