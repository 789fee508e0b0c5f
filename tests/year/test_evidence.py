"""The evidence shelf: every sentence has its source, its year, its kind and its limits, and claims no more."""

from __future__ import annotations

import re

import pytest

from partners.year.evidence import Evidence, in_language, sentence_of, shelf

CAUSES = re.compile(r"\b(?:lowered|raised|caused|improves?|makes?|thanks to)\b")


@pytest.mark.parametrize("one", shelf(), ids=lambda one: one.key)
@pytest.mark.parametrize("language", ["en", "es"])
def test_every_sentence_stands_with_source_year_kind_and_limits(one: Evidence, language: str) -> None:
    told = in_language(one, language)
    assert told["sentence"].endswith(".")
    assert told["limits"].endswith(".")
    assert one.authors
    assert one.source
    assert 1990 < one.year < 2026
    assert one.kind in ("experiment", "association")


def test_only_an_experiment_says_that_one_thing_made_another() -> None:
    claims = {one.key for one in shelf() if CAUSES.search(one.sentence["en"])}
    assert claims == {one.key for one in shelf() if one.kind == "experiment"} == {"houston"}


def test_the_trial_is_quoted_with_its_own_figures() -> None:
    # Bowen and Kisida, Houston, 2019: 42 schools, 10,548 students; -3.6 points, +0.13 and +0.08 standard deviations.
    one = sentence_of("houston")
    assert one is not None
    for figure in ("3.6 ", "0.13", "0.08", "42 "):
        assert figure in one.sentence["en"]
        assert figure in one.sentence["es"]
    assert "10,548" in one.source
    assert sentence_of("better-marks") is None
