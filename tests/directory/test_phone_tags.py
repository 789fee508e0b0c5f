"""Phone numbers in templates: read as at home, linked as RFC 3966 says."""

from __future__ import annotations

from django.template import Context, Template


def shown(stored: str | None) -> str:
    return Template("{{ n|national }} {{ n|tel_link }}").render(Context({"n": stored}))


def test_a_number_is_read_as_at_home_and_linked_with_its_country() -> None:
    # RFC 3966: global numbers begin with + and may carry "-" as a visual separator.
    assert shown("+12015550123") == "(201) 555-0123 tel:+1-201-555-0123"


def test_no_number_shows_nothing() -> None:
    assert shown("").strip() == shown(None).strip() == ""
