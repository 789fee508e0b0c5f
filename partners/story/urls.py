"""Addresses of stories, search and history."""

from django.urls import path

from partners.story import views

app_name = "story"
urlpatterns = [
    path("changes/<int:pk>/undo/", views.change_undo, name="undo"),
]
