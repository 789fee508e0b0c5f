"""Addresses of logging a visit, outings, and "may I ask now?"; `visits` are those that join the visits room's names."""

from django.urls import path

from partners.asking import leftover_views, need_views, outing_views, views

app_name = "asking"
urlpatterns = [
    path("visits/<int:pk>/", views.visit_saved, name="visit-saved"),
    path("outings/", outing_views.outing_list, name="outing-list"),
    path("outings/new/", outing_views.outing_new, name="outing-new"),
    path("outings/<int:pk>/", outing_views.outing_detail, name="outing-detail"),
    path("partners/<int:pk>/may-ask/", outing_views.may_ask_now, name="may-ask"),
]

visits = [
    path("visits/new/", views.visit_new, name="visit-new"),
]

wish_list = [
    path("", need_views.need_list, name="need-list"),
    path("leftover/", leftover_views.leftover, name="leftover"),
]
