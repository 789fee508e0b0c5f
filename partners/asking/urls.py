"""Addresses of logging a visit, outings, and "may I ask now?"; `visits` are those that join the visits room's names."""

from django.urls import path

from partners.asking import need_views, views

app_name = "asking"
urlpatterns = [
    path("visits/<int:pk>/", views.visit_saved, name="visit-saved"),
]

visits = [
    path("visits/new/", views.visit_new, name="visit-new"),
]

wish_list = [
    path("", need_views.need_list, name="need-list"),
]
