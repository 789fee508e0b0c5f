"""Addresses of the program: sign-in, set-up, members, settings."""

app_name = "program"
urlpatterns: list[object] = []
