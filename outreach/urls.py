"""Addresses of the sheets."""

app_name = "outreach"
urlpatterns: list[object] = []
