"""Jaro-Winkler likeness: published pairs, and Winkler's definition written out."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.directory.likeness import likeness


@pytest.mark.parametrize(
    ("one", "other", "published"),
    [
        ("MARTHA", "MARHTA", 0.9611),
        ("ABROMS", "ABRAMS", 0.9222),
        ("DUNNINGHAM", "CUNNIGHAM", 0.8963),
        ("fly", "ant", 0.0),
    ],
)
def test_published_pairs(one: str, other: str, published: float) -> None:
    # Winkler, "String Comparator Metrics and Enhanced Decision Rules in the Fellegi-Sunter Model" (1990), and the
    # table of Oracle's UTL_MATCH.
    assert likeness(one, other) == pytest.approx(published, abs=0.00005)
    assert likeness(other, one) == pytest.approx(published, abs=0.00005)


def by_definition(a: str, b: str) -> float:
    """Winkler 1990: matches within half the longer length less one, half the matches out of order, then the prefix."""
    if not a or not b:
        return 0.0
    window = max(len(a), len(b)) // 2 - 1
    taken: list[int] = []
    matched: list[str] = []
    for i, sign in enumerate(a):
        near = [j for j in range(max(0, i - window), min(len(b), i + window + 1)) if b[j] == sign and j not in taken]
        if near:
            taken.append(near[0])
            matched.append(sign)
    if not matched:
        return 0.0
    transposed = sum(x != b[j] for x, j in zip(matched, sorted(taken), strict=True)) // 2
    m = len(matched)
    jaro = (m / len(a) + m / len(b) + (m - transposed) / m) / 3
    prefix = next((i for i, (x, y) in enumerate(zip(a, b, strict=False)) if x != y), min(len(a), len(b)))
    return jaro + min(prefix, 4) * 0.1 * (1 - jaro) if jaro > 0.7 else jaro


@given(st.text("abcd", min_size=2, max_size=12), st.text("abcd", min_size=2, max_size=12))
def test_any_pair_agrees_with_the_definition(one: str, other: str) -> None:
    assert likeness(one, other) == pytest.approx(by_definition(one, other))
