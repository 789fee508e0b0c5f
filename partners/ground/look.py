"""The style sheets of every page, in the order in which they are read; a room's own comes after them."""

STYLES = tuple(
    f"partners/{name}.css" for name in ("tokens", "base", "page", "parts", "lines", "forms", "tables", "print")
)
