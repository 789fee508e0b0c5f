"""Addresses of the sheets."""

from django.urls import path

from outreach import views

app_name = "outreach"
urlpatterns = [
    path("outings/<int:pk>/", views.outing_sheets, name="outing-sheets"),
    path("letters/<int:pk>/", views.letter_words, name="letter-words"),
    path("<slug:slug>/<int:pk>/", views.document_prepare, name="document-prepare"),
    path("<slug:slug>/<int:pk>/pdf/", views.document, name="document"),
    path("<slug:slug>/<int:pk>/reading/", views.document_reading, name="document-reading"),
    path("<slug:slug>/<int:pk>/gone/", views.document_hand_over, name="document-hand-over"),
]
