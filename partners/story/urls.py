"""Addresses of stories, search and history; `partner_pages` are those that join the directory room's."""

from django.urls import path

from partners.story import forget_views, views

app_name = "story"
urlpatterns = [
    path("find/", views.search, name="search"),
    path("changes/", views.history, name="history"),
    path("changes/<int:pk>/undo/", views.change_undo, name="undo"),
    path("forget/", forget_views.named_forget, name="forget-named"),
    path("forget/helper/<int:pk>/", forget_views.person_forget, {"kind": "helper"}, name="forget-helper"),
    path("forget/contact/<int:pk>/", forget_views.person_forget, {"kind": "contact"}, name="forget-contact"),
    path("forget/partner/<int:pk>/", forget_views.person_forget, {"kind": "partner"}, name="forget-partner"),
    path("partners/<int:pk>/changes/", views.partner_history, name="partner-history"),
]

partner_pages = [
    path("<int:pk>/", views.partner_detail, name="partner-detail"),
]
