"""Of the same walk in another guise one runs each time, the others with `-m nightly`."""

from __future__ import annotations

import pytest

nightly = pytest.mark.nightly
# That forms work without script is seen each time in tests/browser/test_look.py and test_review.py.
with_script_and_nightly_without = pytest.mark.parametrize(
    "script", [True, pytest.param(False, marks=nightly)], ids=["with script", "without"]
)
# What holds at the smallest width, where all is tightest, is looked at on a table's width under nightly.
narrow_and_nightly_wide = pytest.mark.parametrize("width", [320, pytest.param(1280, marks=nightly)])
