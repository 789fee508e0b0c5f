"""Addresses of grants and ready answers."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
