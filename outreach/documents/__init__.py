"""Everything that leaves the building on paper, one module each, in the order of the menu.

Each module has `SLUG`, `TITLE`, `ABOUT` (whose key the address takes), `Facts`, `draw`, `draw_many`, `write_many` and
`gaps`. To add one, copy the nearest and put it into the list.
"""

from types import ModuleType

from outreach.documents import gift_tag, gratitude_letter, leave_behind, thanks_note

DOCUMENTS: tuple[ModuleType, ...] = (leave_behind, gratitude_letter, thanks_note, gift_tag)


def document(slug: str) -> ModuleType:
    """The document of that slug; KeyError when there is none."""
    return {module.SLUG: module for module in DOCUMENTS}[slug]
