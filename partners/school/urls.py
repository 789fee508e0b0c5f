"""Addresses of schools and projects; those of calendars and classes are in the agenda room."""

from django.urls import path

from partners.school import views

app_name = "school"
urlpatterns = [
    path("begin/", views.begin, name="set-up"),
    path("schools/", views.school_list, name="school-list"),
    path("schools/<int:pk>/", views.school_detail, name="school-detail"),
    path("schools/<int:pk>/approvals/new/", views.approval_new, name="approval-new"),
    path("schools/<int:pk>/rules/new/", views.rule_new, name="rule-new"),
    path("rules/<int:pk>/remove/", views.rule_remove, name="rule-remove"),
    path("projects/", views.project_list, name="project-list"),
    path("projects/new/", views.project_new, name="project-new"),
    path("projects/<int:pk>/", views.project_edit, name="project-edit"),
]
