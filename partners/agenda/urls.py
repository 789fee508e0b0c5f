"""Addresses of Today and the review; `calendar` join the school room's, `figures` the program room's."""

from django.urls import path

from partners.agenda import buying_views, calendar_views, class_views, views

app_name = "agenda"
urlpatterns = [
    path("", views.today_page, name="today"),
    path("review/", views.review_page, name="review"),
    path("due/<str:slug>/<int:pk>/", views.settle_one, name="settle"),
    path("due/", views.settle_many, name="settle-many"),
]

figures = [
    path("settings/", calendar_views.settings, name="settings"),
]

calendar = [
    path("schools/new/", calendar_views.school_new, name="school-new"),
    path("schools/<int:pk>/edit/", calendar_views.school_edit, name="school-edit"),
    path("schools/<int:pk>/buying/", buying_views.school_buying, name="school-buying"),
    path("schools/<int:pk>/days/new/", calendar_views.day_new, name="day-new"),
    path("schools/<int:pk>/holidays/", calendar_views.holidays, name="holidays"),
    path("days/<int:pk>/remove/", calendar_views.day_remove, name="day-remove"),
    path("schools/classes/paste/", class_views.classes_paste, name="classes-paste"),
    path("schools/<int:pk>/classes/paste/", class_views.class_paste, name="class-paste"),
    path("schools/<int:pk>/classes/new/", class_views.class_new, name="class-new"),
    path("classes/<int:pk>/", class_views.class_edit, name="class-edit"),
    path("classes/<int:pk>/remove/", class_views.class_remove, name="class-remove"),
    path("schools/<int:pk>/lost-lessons/new/", class_views.lost_new, name="lost-new"),
    path("lost-lessons/<int:pk>/remove/", class_views.lost_remove, name="lost-remove"),
]
