"""Which sheet an address names, made ready."""

from __future__ import annotations

from collections.abc import Mapping

from django.http import Http404
from django.shortcuts import get_object_or_404

from outreach.entry import Entry, words_asked
from outreach.prepared import Prepared, words_form
from outreach.registry import entry
from outreach.wording.own_words import OwnWords
from partners.letters.actions import draft_of
from partners.letters.models import Letter
from partners.program.desk import Desk


def to_print(
    desk: Desk, slug: str, pk: int, asked: Mapping[str, str] | None = None, own: OwnWords | None = None
) -> Prepared:
    """Any sheet whose PDF can be opened, with the words kept in its draft, and of the year that was `asked` for where
    it has one; what is only printed comes in the language, too; `own` as for Prepared. Http404 for anything else.
    """
    one = entry_or_404(slug)
    row = None if one.without_a_row and not pk else get_object_or_404(one.rows(desk), pk=pk)
    if row is not None:
        row = one.shared(desk, row)[0]
    prepared = Prepared(desk, one, row.pk if row is not None else 0, row, own=own)
    draft = draft_of(desk, slug, **{one.column: row}) if one.words else None
    prepared.words = dict(draft.words) if draft else one.begins(desk, row)
    if one.words is None:
        prepared.words = one.asked(asked or {})
    elif "year" in one.words.base_fields and (year := words_asked(asked or {}).get("year")):
        prepared.words["year"] = year
    return prepared


def prepare(
    desk: Desk, slug: str, pk: int, own: OwnWords | None = None, asked: Mapping[str, str] | None = None
) -> Prepared:
    """A sheet that is worded and kept in the register. Http404 for anything else."""
    words_form(entry_or_404(slug))
    return to_print(desk, slug, pk, asked, own)


def entry_or_404(slug: str) -> Entry:
    try:
        return entry(slug)
    except KeyError:
        raise Http404 from None


def number_of(letter: Letter) -> int:
    """The number in the address of the sheet that the letter is, or was, made from."""
    return getattr(letter, f"{entry_or_404(letter.document).column}_id") or 0
