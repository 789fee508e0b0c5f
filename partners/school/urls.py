"""Addresses of schools; those of calendars and classes are in the agenda room, of projects in the story room."""

from django.urls import path

from partners.school import approval_views, views

app_name = "school"
urlpatterns = [
    path("begin/", views.begin, name="set-up"),
    path("schools/", views.school_list, name="school-list"),
    path("schools/<int:pk>/", views.school_detail, name="school-detail"),
    path("schools/earlier/<int:pk>/", views.count_edit, name="count-edit"),
    path("schools/<int:pk>/approvals/new/", approval_views.approval_new, name="approval-new"),
    path("schools/<int:pk>/approvals/lapse/", approval_views.approvals_lapse, name="approvals-lapse"),
    path("approvals/<int:pk>/", approval_views.approval_edit, name="approval-edit"),
    path("approvals/<int:pk>/remove/", approval_views.approval_remove, name="approval-remove"),
    path("schools/<int:pk>/procedures/new/", approval_views.procedure_new, name="procedure-new"),
    path("procedures/<int:pk>/", approval_views.procedure_edit, name="procedure-edit"),
    path("procedures/<int:pk>/remove/", approval_views.procedure_remove, name="procedure-remove"),
    path("schools/<int:pk>/rules/new/", approval_views.rule_new, name="rule-new"),
    path("rules/<int:pk>/remove/", approval_views.rule_remove, name="rule-remove"),
]
