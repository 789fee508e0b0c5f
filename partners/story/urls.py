"""Addresses of stories, search and history; `partner_pages` are those that join the directory room's."""

from django.urls import path

from partners.story import views

app_name = "story"
urlpatterns = [
    path("find/", views.search, name="search"),
    path("changes/", views.history, name="history"),
    path("changes/<int:pk>/undo/", views.change_undo, name="undo"),
    path("partners/<int:pk>/changes/", views.partner_history, name="partner-history"),
]

partner_pages = [
    path("<int:pk>/", views.partner_detail, name="partner-detail"),
]
