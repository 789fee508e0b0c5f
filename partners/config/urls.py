"""The whole site: the record, and what leaves the building."""

from django.urls import include, path

from partners.config.health import health

urlpatterns = [
    path("", include("partners.urls")),
    path("sheets/", include("outreach.urls")),
    path("health/", health, name="health"),
]
handler403 = "partners.program.views.not_open"
handler500 = "partners.config.trouble.failed"
