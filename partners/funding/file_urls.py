"""Addresses of pictures and papers."""

from django.urls import path

from partners.funding import file_views as views

urlpatterns = [
    path("<int:pk>/", views.attachment, name="attachment"),
    path("<int:pk>/tick/", views.attachment_tick, name="attachment-tick"),
    path("<int:pk>/remove/", views.attachment_remove, name="attachment-remove"),
    path("<int:pk>/destroy/", views.attachment_destroy, name="attachment-destroy"),
    path("of/<str:owner>/<int:pk>/", views.attachment_new, name="attachment-new"),
]
