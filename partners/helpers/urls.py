"""Addresses of helpers."""

from partners.helpers.card_urls import cards_and_shows

app_name = "helpers"
urlpatterns = [*cards_and_shows]
