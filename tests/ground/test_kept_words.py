"""Texts that are looked up once are those that Django looks up each time."""

from __future__ import annotations

from django.utils import translation

from partners.directory.tags import national, tel_link
from partners.ground.reader import one_reader
from partners.ground.words import gettext


def test_a_text_is_kept_for_each_language() -> None:
    told = {}
    for language in ("en-us", "es"):
        with translation.override(language):
            told[language] = gettext("Yes"), translation.gettext("Yes")
    assert told == {"en-us": ("Yes", "Yes"), "es": ("Sí", "Sí")}


def test_the_language_is_asked_once_while_a_page_is_made() -> None:
    with translation.override("es"):
        with one_reader(), translation.override("en-us"):
            inside = gettext("Yes")
        with translation.override("en-us"):
            after = gettext("Yes")
    assert (inside, after) == ("Sí", "Yes")


def test_a_number_is_read_the_same_the_second_time() -> None:
    assert national("+12015550123") == national("+12015550123") == "(201) 555-0123"
    assert tel_link("+12015550123") == tel_link("+12015550123") == "tel:+1-201-555-0123"
