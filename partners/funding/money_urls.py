"""The page of the money and its figures."""

from django.urls import path

from partners.funding import money_views as views

urlpatterns = [
    path("", views.money, name="money"),
]
