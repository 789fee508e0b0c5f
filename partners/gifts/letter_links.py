"""Where the letter for thanks is made; the sheets are no part of the record, so only their address is known here."""

from __future__ import annotations

from partners.ground.links import row_link

FOR_A_GIFT = "gratitude-letter"
FOR_THE_REST = "thanks-note"
FOR_FAMILIES = "family-thanks"


def letter_url(gift_id: int | None, thanks_id: int | None = None) -> str:
    """The page that prepares the letter: for a gift, else for thanks that no gift stands behind."""
    slug, pk = (FOR_A_GIFT, gift_id) if gift_id is not None else (FOR_THE_REST, thanks_id)
    assert pk is not None  # noqa: S101 -- thanks stand behind every letter that no gift does
    return row_link("outreach:document-prepare", pk, slug)


def families_url(school_id: int) -> str:
    """The page that prepares the notice for all families of the school."""
    return row_link("outreach:document-prepare", school_id, FOR_FAMILIES)
