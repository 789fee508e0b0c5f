"""Addresses of purchases and exemption certificates."""

from django.urls import URLPattern

urlpatterns: list[URLPattern] = []
