"""Contact cards to keep in a phone: one partner with who is there, one person, the list as it is narrowed."""

from __future__ import annotations

from collections.abc import Iterable

from csp.decorators import csp_exempt
from django.http import StreamingHttpResponse
from django.shortcuts import get_object_or_404
from django.views.decorators.http import require_GET

from outreach.feeds.cards import Card, card_file
from outreach.gathering.cards import cards_of, contact_card
from partners.directory.filters import PartnerFilter
from partners.directory.moved import partner_at
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened


def answer(name: str, cards: Iterable[Card]) -> StreamingHttpResponse:
    return StreamingHttpResponse(
        card_file(cards),
        content_type="text/vcard; charset=utf-8",
        headers={"Content-Disposition": f'attachment; filename="{name}.vcf"'},
    )


@csp_exempt()
@require_GET
@readers(Opened.PARTNERS)
def partner_cards(request: DeskRequest) -> StreamingHttpResponse:
    return answer("partners", cards_of(request.desk, PartnerFilter(request.GET or None, desk=request.desk).qs))


@csp_exempt()
@require_GET
@readers(Opened.PARTNERS)
def partner_card(request: DeskRequest, pk: int) -> StreamingHttpResponse:
    partner = partner_at(request.desk, pk)
    return answer(f"partner-{pk}", cards_of(request.desk, request.desk.partners.filter(pk=partner.pk)))


@csp_exempt()
@require_GET
@readers(Opened.PARTNERS)
def contact_card_file(request: DeskRequest, pk: int) -> StreamingHttpResponse:
    person = get_object_or_404(request.desk.contacts.select_related("partner"), pk=pk)
    return answer(f"person-{pk}", [contact_card(request.desk, person, person.partner)])
