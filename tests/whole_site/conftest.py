"""What walks over the whole site share."""

from __future__ import annotations

import pytest
from django.http import HttpResponse

from partners.config import urls


@pytest.fixture
def short(monkeypatch: pytest.MonkeyPatch) -> None:
    """The pages that say no are not drawn: a walk meets thousands of them, and reads their status alone."""
    monkeypatch.setattr("partners.program.views.permission_denied", lambda *_asked: HttpResponse(status=403))
    monkeypatch.setattr(urls, "handler404", lambda *_asked, **_told: HttpResponse(status=404), raising=False)
