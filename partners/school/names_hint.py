"""Could a child's name stand in a sentence for the people who gave? Computation only; it warns and decides nothing.

The rule is common practice: a word with a capital letter inside a sentence that belongs to no place, month, grade or
name of the book, and a sentence that begins with a word that does something, is likely a person. No list of names is
needed, and none would hold every child.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator

from partners.ground.names import fold

_PLACES = """
street avenue road lane square park plaza library school elementary middle high center centre hall city town county
river lake falls creek bridge house hospital museum church bank union credit garden gardens bakery cafe hardware shop
store company club guild fund foundation fair festival show day week month night room grade grades kindergarten pre art
arts council district department office main north south east west public community
calle avenida escuela biblioteca parque plaza feria muestra
"""
_OTHERS = """
i january february march april may june july august september october november december monday tuesday wednesday
thursday friday saturday sunday spring summer fall autumn winter halloween thanksgiving christmas easter earth mother
mothers father fathers american america english spanish french african mexican japanese chinese native latino latina
hispanic stem steam mr mrs ms miss dr
"""
_BEGINNERS = """
everyone everybody nobody each every all both one some many most more half none a an the this that these those it we
they he she our their its my your who what here there and then now today
two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen
twenty thirty forty fifty sixty seventy eighty ninety hundred thousand children child pupils students kindergarten clay
paint paper
"""
_DOES_WORDS = "is was has had made drew wrote sang built gave got took won saw led cut sewed"
_DOES = frozenset(_DOES_WORDS.split())
KNOWN = frozenset(f"{_PLACES} {_OTHERS}".split())
BEGINNERS = frozenset(_BEGINNERS.split())
_WORD = re.compile(r"[^\W\d_][\w'’-]*|\d+|[.!?:;,()“”\"]")
_ENDS = {".", "!", "?", ":"}


def names_hinted(text: str, known: Collection[str] = ()) -> list[str]:
    """Names that seem to be a person's, in the order of the text. `known`: words of the book's own names, folded.

    >>> names_hinted("Forty pots stand on Canal Street, and Emma Torres painted the largest.")
    ['Emma Torres']
    >>> names_hinted("Every child of grade 4 has a pot at home since May.")
    []
    """
    fine = KNOWN | set(known)
    return [" ".join(run) for run in _runs(_WORD.findall(text)) if not any(_key(word) in fine for word in run)]


def _runs(words: list[str]) -> Iterator[list[str]]:
    """Words with capitals that stand together. The first of a sentence counts only where it seems to be somebody."""
    run: list[str] = []
    begins = True
    for place, word in enumerate(words):
        counts = word[0].isupper() and (not begins or run or _somebody(words, place))
        if counts:
            run.append(word)
        elif run:
            yield run
            run = []
        begins = word in _ENDS
    if run:
        yield run


def _somebody(words: list[str], place: int) -> bool:
    """Whether the first word of a sentence is likely who did it."""
    word, then = words[place], words[place + 1] if place + 1 < len(words) else ""
    key = _key(word)
    if key.split(" ")[0] in BEGINNERS | KNOWN or (key.endswith("s") and "'" not in word and "’" not in word):
        return False
    return word.endswith(("'s", "’s")) or then[:1].isupper() or then.endswith("ed") or then in _DOES


def _key(word: str) -> str:
    return fold(re.sub(r"['’]s$", "", word))


def words_of(*texts: str) -> set[str]:
    """The words of names that are no child's, folded, as `known`."""
    return {word for text in texts for word in fold(text).split()}
