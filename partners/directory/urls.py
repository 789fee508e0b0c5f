"""Addresses of partners and the people there; a partner's own page is joined in by partners/urls.py."""

from django.urls import path

from partners.directory import asking_views, contact_views, views

app_name = "directory"
urlpatterns = [
    path("", views.partner_list, name="partner-list"),
    path("new/", views.partner_new, name="partner-new"),
    path("partners.csv", views.partner_export, name="partner-export"),
    path("suggest/", views.partner_suggest, name="partner-suggest"),
    path("<int:pk>/edit/", views.partner_edit, name="partner-edit"),
    path("<int:pk>/rest/", asking_views.partner_rest, name="partner-rest"),
    path("<int:pk>/rest/end/", asking_views.rest_end, name="rest-end"),
    path("<int:pk>/never-ask/", asking_views.partner_never_ask, name="partner-never-ask"),
    path("<int:pk>/people/new/", contact_views.contact_new, name="contact-new"),
    path("people/<int:pk>/", contact_views.contact_edit, name="contact-edit"),
    path("people/<int:pk>/left/", contact_views.contact_left, name="contact-left"),
    path("people/<int:pk>/remove/", contact_views.contact_remove, name="contact-remove"),
]
