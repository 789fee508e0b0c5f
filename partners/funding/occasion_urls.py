"""Addresses of free days."""

from django.urls import path

from partners.funding import occasion_views as views

urlpatterns = [
    path("", views.occasion_list, name="occasion-list"),
    path("new/", views.occasion_new, name="occasion-new"),
    path("<int:pk>/", views.occasion_detail, name="occasion-detail"),
    path("<int:pk>/edit/", views.occasion_edit, name="occasion-edit"),
    path("<int:pk>/confirm/", views.occasion_confirm, name="occasion-confirm"),
    path("<int:pk>/went/", views.occasion_went, name="occasion-went"),
    path("<int:pk>/end/", views.occasion_end, name="occasion-end"),
]
