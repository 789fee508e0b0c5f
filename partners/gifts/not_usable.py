"""Whether what came is named on the list of things the program cannot use. It warns; it never stops anything."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from partners.ground.names import fold

# Words that describe a thing and do not name it.
DESCRIBING = frozenset(
    word
    for words in (
        "a all an and any are broken can cannot dried dry from for has have in is it kind large new not of old open",
        "opened or other residue sharp small some than that the this unlabeled unlabelled used very we which with",
        "without",
        "algun alguna con cualquier de del el en la las los nuevo o otro para que restos sin su un una usado viejo y",
    )
    for word in words.split()
)


def names_in(text: str) -> set[str]:
    """The things that `text` names, folded and in the singular as English and Spanish form it."""
    return {_singular(word) for word in fold(text).split() if word not in DESCRIBING and not word.isdecimal()}


def mentioned(text: str, listed: Sequence[str]) -> list[int]:
    """The places in `listed` of the entries that share a named thing with `text`."""
    came = names_in(text)
    return [place for place, entry in enumerate(listed) if came & names_in(entry)]


def any_mentioned(texts: Iterable[str], listed: Sequence[str]) -> list[int]:
    """As `mentioned`, for several texts; each place once, in order."""
    return sorted({place for text in texts for place in mentioned(text, listed)})


def _singular(word: str) -> str:
    if len(word) > 4 and word.endswith("ies"):
        return word[:-3] + "y"
    if len(word) > 4 and word.endswith(("sses", "shes", "ches", "xes")):
        return word[:-2]
    if len(word) > 3 and word.endswith("s") and not word.endswith("ss"):
        return word[:-1]
    return word
