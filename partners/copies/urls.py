"""Addresses of the copies of the book."""

from django.urls import path

from partners.copies import views

app_name = "copies"
urlpatterns = [
    path("", views.copy_list, name="copy-list"),
    path("program/", views.copy_program, name="copy-program"),
    path("schools/<int:pk>/", views.copy_school, name="copy-school"),
]
