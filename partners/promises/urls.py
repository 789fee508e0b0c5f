"""Addresses of promises and offers."""

from django.urls import path

from partners.promises import views

app_name = "promises"
urlpatterns = [
    path("new/", views.promise_new, name="promise-new"),
    path("<int:pk>/", views.promise_detail, name="promise-detail"),
    path("<int:pk>/move/", views.promise_move, name="promise-move"),
    path("<int:pk>/hand-over/", views.promise_hand_over, name="promise-hand-over"),
    path("<int:pk>/<slug:act>/", views.promise_settle, name="promise-settle"),
    path("offers/new/", views.offer_new, name="offer-new"),
    path("offers/<int:pk>/end/", views.offer_end, name="offer-end"),
]
