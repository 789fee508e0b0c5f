"""Addresses of gifts."""

from django.urls import path

from partners.gifts import settle_views, views

app_name = "gifts"
urlpatterns = [
    path("", views.gift_list, name="gift-list"),
    path("gifts.csv", views.gift_export, name="gift-export"),
    path("new/", views.gift_new, name="gift-new"),
    path("families/", views.family_list, name="family-list"),
    path("<int:pk>/", views.gift_detail, name="gift-detail"),
    path("<int:pk>/edit/", views.gift_edit, name="gift-edit"),
    path("<int:pk>/thanked/", settle_views.gift_thanked, name="gift-thanked"),
    path("<int:pk>/accepted/", settle_views.gift_accepted, name="gift-accepted"),
    path("<int:pk>/looked-at/", settle_views.gift_looked_at, name="gift-looked-at"),
    path("<int:pk>/returned/", settle_views.gift_returned, name="gift-returned"),
    path("<int:pk>/handed-in/", settle_views.gift_handed_in, name="gift-handed-in"),
]
