"""Addresses of pictures and papers."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
