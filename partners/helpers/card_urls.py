"""Addresses of job cards, welcomes and shows."""

from django.urls import path

from partners.helpers import card_views, show_views

cards_and_shows = [
    path("cards/", card_views.card_list, name="card-list"),
    path("cards/new/", card_views.card_new, name="card-new"),
    path("cards/<int:pk>/", card_views.card_edit, name="card-edit"),
    path("cards/<int:pk>/remove/", card_views.card_remove, name="card-remove"),
    path("welcome/<int:pk>/", card_views.welcome_edit, name="welcome-edit"),
    path("shows/", show_views.show_list, name="show-list"),
    path("shows/new/", show_views.show_new, name="show-new"),
    path("shows/<int:pk>/", show_views.show_detail, name="show-detail"),
    path("shows/<int:pk>/edit/", show_views.show_edit, name="show-edit"),
    path("shows/<int:pk>/remove/", show_views.show_remove, name="show-remove"),
    path("shows/<int:pk>/minutes/", show_views.show_minutes, name="show-minutes"),
]
