"""The page of the money and its figures."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
