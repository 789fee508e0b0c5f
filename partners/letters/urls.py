"""Addresses of the register."""

from django.urls import path

from partners.letters import views

app_name = "letters"
urlpatterns = [
    path("", views.letter_list, name="letter-list"),
    path("<int:pk>/", views.letter_detail, name="letter-detail"),
    path("<int:pk>/pdf/", views.letter_pdf, name="letter-pdf"),
    path("<int:pk>/throw-away/", views.letter_throw_away, name="letter-throw-away"),
]
