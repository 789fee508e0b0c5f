"""Addresses of the year."""

from django.urls import path

from partners.year import handover_views, views

app_name = "year"
urlpatterns = [
    path("", views.year, name="year"),
    path("rows/", views.rows, name="rows"),
    path("due/", views.due, name="due"),
    path("evidence/", views.evidence, name="evidence"),
    path("hand-over/", handover_views.handover, name="handover"),
    path("hand-over/rows/", handover_views.handover_rows, name="handover-rows"),
    path("hand-over/carry-out/", handover_views.handover_carry_out, name="handover-carry-out"),
]
