"""The addresses of every room, in the order of the rooms."""

from django.urls import include, path

urlpatterns = [
    path("", include("partners.program.urls")),
    path("", include("partners.school.urls")),
    path("partners/", include("partners.directory.urls")),
    path("", include("partners.story.urls")),
]
