"""Addresses of the wish list; the list itself is joined in by partners/urls.py."""

from django.urls import path

from partners.wish_list import views

app_name = "wish_list"
urlpatterns = [
    path("new/", views.need_new, name="need-new"),
    path("<int:pk>/", views.need_edit, name="need-edit"),
    path("<int:pk>/enough/", views.need_enough, name="need-enough"),
    path("<int:pk>/open-again/", views.need_open_again, name="need-open-again"),
    path("<int:pk>/remove/", views.need_remove, name="need-remove"),
    path("cannot-use/", views.cannot_use, name="cannot-use-edit"),
    path("cannot-use/<int:pk>/remove/", views.cannot_use_remove, name="cannot-use-remove"),
]
