"""Addresses of free days."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
