"""The whole site: the record, and what leaves the building."""

from django.urls import include, path

urlpatterns = [
    path("", include("partners.urls")),
    path("sheets/", include("outreach.urls")),
]
