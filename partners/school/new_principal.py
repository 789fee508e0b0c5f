"""When somebody else becomes principal: which approvals were the former one's, going by the names alone."""

from __future__ import annotations

from partners.ground.names import name_key


def somebody_else(former: str, now: str) -> bool:
    """Whether the name stands for another person, and is not the same one put right or with a title added.

    >>> somebody_else("R. Okafor", "Dr. Ruth Okafor"), somebody_else("R. Okafor", "Ms. Odell")
    (False, True)
    """
    before, after = name_key(former).split(), name_key(now).split()
    return bool(before) and before != after and (not after or before[-1] != after[-1])


def likely_theirs(by: str, former: str) -> bool:
    """Whether an approval `by` these words was given by the former principal.

    >>> likely_theirs("Dr. Okafor, principal", "Ruth Okafor"), likely_theirs("the board", "Ruth Okafor")
    (True, False)
    """
    words, names = name_key(by).split(), name_key(former).split()
    return bool(names) and (names[-1] in words or "principal" in words)
