"""Addresses of partners and the people there; a partner's own page is joined in by partners/urls.py."""

from django.urls import path

from partners.directory import views

app_name = "directory"
urlpatterns = [
    path("suggest/", views.partner_suggest, name="partner-suggest"),
]
