"""Which sheets a guest opens: none that names an amount, where neither gifts nor money are open."""

from __future__ import annotations

from partners.gifts.letter_phrases import value_in_text
from partners.letters.sheet_text import sheet_text
from partners.program.desk import Desk


def may_open(desk: Desk, pdf: bytes) -> bool:
    """A sheet that cannot be read back is kept from them, too."""
    if desk.reads_amounts:
        return True
    text = sheet_text(pdf)
    return text is not None and not value_in_text(text)
