"""Addresses of visits, what a phone keeps, outings, "may I ask now?"; `visits` join the visits room's names."""

from django.urls import path

from partners.asking import kept_views, leftover_views, need_views, outing_views, views, who_asks_views

app_name = "asking"
urlpatterns = [
    path("visits/<int:pk>/", views.visit_saved, name="visit-saved"),
    path("kept/", kept_views.kept_list, name="kept"),
    path("kept/pages/", kept_views.kept_pages, name="kept-pages"),
    path("kept/state/", kept_views.kept_state, name="kept-state"),
    path("outings/", outing_views.outing_list, name="outing-list"),
    path("outings/new/", outing_views.outing_new, name="outing-new"),
    path("who-asks-whom/", who_asks_views.who_asks, name="who-asks"),
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
