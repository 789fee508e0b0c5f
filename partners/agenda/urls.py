"""Addresses of Today and the review; `calendar` join the school room's, `figures` the program room's."""

from django.urls import path

from partners.agenda import calendar_views, views

app_name = "agenda"
urlpatterns = [
    path("", views.today_page, name="today"),
    path("review/", views.review_page, name="review"),
    path("due/<str:slug>/<int:pk>/", views.settle_one, name="settle"),
    path("due/", views.settle_many, name="settle-many"),
]

figures = [
    path("settings/", calendar_views.settings, name="settings"),
]

calendar = [
    path("schools/new/", calendar_views.school_new, name="school-new"),
    path("schools/<int:pk>/edit/", calendar_views.school_edit, name="school-edit"),
    path("schools/<int:pk>/days/new/", calendar_views.day_new, name="day-new"),
    path("schools/<int:pk>/holidays/", calendar_views.holidays, name="holidays"),
    path("days/<int:pk>/remove/", calendar_views.day_remove, name="day-remove"),
]
