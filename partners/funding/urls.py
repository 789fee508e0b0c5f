"""Addresses of the money: grants, buying, free days, kept papers, figures."""

from django.urls import include, path

app_name = "funding"
urlpatterns = [
    path("", include("partners.funding.money_urls")),
    path("grants/", include("partners.funding.grant_urls")),
    path("buying/", include("partners.funding.buying_urls")),
    path("free-days/", include("partners.funding.occasion_urls")),
    path("papers/", include("partners.funding.file_urls")),
]
