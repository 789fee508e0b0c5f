"""Somebody to be forgotten, and the two pages that one goes through."""

from __future__ import annotations

from django.urls import reverse

from partners.ground.changes import change
from partners.helpers.models import Helper
from partners.visits.actions import record_visit
from tests.people import TUESDAY
from tests.whole_site.pages import Page

NAME, PHONE, EMAIL = "María-José Núñez O’Brien", "+15555550142", "mj.nunez@example.org"
NEEDLES = ("Núñez", "O’Brien", "maria jose", "5555550142", EMAIL)


def address(kind, row):
    return reverse(f"story:forget-{kind}", args=[row.pk])


def sent(answer, **more):
    """What the page's own form sends."""
    forms = [form for form in Page.read(answer.content.decode()).forms if "written" in form.sent]
    return {**forms[0].sent, **more}


def forget(client, kind, row, *, but=(), and_also=()):
    """Both pages, as somebody goes through them; `but` are boxes that are cleared, `and_also` boxes that are ticked."""
    first = sent(client.get(address(kind, row)), step="ask")
    first["tick"] = [key for key in [*first.get("tick", []), *and_also] if key not in but]
    second = client.post(address(kind, row), first)
    assert "story/forget_sure.html" in [template.name for template in second.templates]
    return client.post(address(kind, row), sent(second, step="ask", sure="yes"))


def add_helper(desk, name=NAME, **values):
    with change(desk, "Helper %(helper)s added", helper=name) as book:
        reached = {"phone": PHONE, "phone_key": PHONE, "email": EMAIL, "name_key": "maria jose nunez obrien"}
        return book.add(Helper(name=name, **{**reached, **values}))


def visited(desk, shop, contact, note):
    return record_visit(desk=desk, partner=shop, happened="hello", day=TUESDAY, contact=contact, note=note)
