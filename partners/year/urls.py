"""Addresses of the year."""

from django.urls import path

from partners.year import views

app_name = "year"
urlpatterns = [
    path("", views.year, name="year"),
    path("rows/", views.rows, name="rows"),
    path("due/", views.due, name="due"),
    path("evidence/", views.evidence, name="evidence"),
]
