"""Signs that turn their neighbours round are not kept; marks that only people who write from right to left need are."""

from __future__ import annotations

import unicodedata

import pytest
from django.urls import reverse

from partners.directory.models import Partner
from partners.ground.direction import TURNING, unturned


def test_exactly_what_the_standard_calls_embedding_override_and_isolate_is_taken_out() -> None:
    """Unicode Character Database, property Bidi_Class, as Python carries it."""
    kinds = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
    assert set(TURNING) == {code for code in range(0x110000) if unicodedata.bidirectional(chr(code)) in kinds}
    assert unturned("\u202eyrekaB\u202c \u2067Bluebird\u2069") == "yrekaB Bluebird"
    assert unturned("\u200fמאפייה\u200e") == "\u200fמאפייה\u200e"


@pytest.mark.django_db
def test_a_typed_name_is_kept_without_them(signed_in) -> None:
    signed_in.post(reverse("directory:partner-new"), {"name": "Blue\u202ebird", "kind": "business"})
    signed_in.post(reverse("visits:visit-new"), {"partner": "Tama\u2066rack", "happened": "hello"})
    assert set(Partner.objects.values_list("name", flat=True)) == {"Bluebird", "Tamarack"}
