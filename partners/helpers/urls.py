"""Addresses of helpers: people and slips, sessions, kits; job cards and shows."""

from django.urls import path

from partners.helpers import check_in_views, kit_views, session_views, slip_views, views
from partners.helpers.card_urls import cards_and_shows

app_name = "helpers"
people = [
    path("", views.helper_list, name="helper-list"),
    path("as-file/", views.helper_export, name="helper-export"),
    path("new/", views.helper_new, name="helper-new"),
    path("to-call/", views.helper_to_call, name="helper-to-call"),
    path("hours/", views.hour_list, name="hour-list"),
    path("<int:pk>/", views.helper_detail, name="helper-detail"),
    path("<int:pk>/edit/", views.helper_edit, name="helper-edit"),
    path("<int:pk>/clearance/", views.helper_clearance, name="helper-clearance"),
    path("<int:pk>/called/", views.helper_called, name="helper-called"),
    path("<int:pk>/stop/", views.helper_stop, name="helper-stop"),
    path("<int:pk>/start/", views.helper_start, name="helper-start"),
    path("slips/", slip_views.slip_stacks, name="slip-stacks"),
    path("slips/<int:pk>/", slip_views.slips_type, name="slips-type"),
]
sessions = [
    path("sessions/", session_views.session_list, name="session-list"),
    path("sessions/new/", session_views.session_new, name="session-new"),
    path("sessions/fill/", session_views.session_fill, name="session-fill"),
    path("sessions/<int:pk>/", session_views.session_detail, name="session-detail"),
    path("sessions/<int:pk>/edit/", session_views.session_edit, name="session-edit"),
    path("sessions/<int:pk>/call-off/", session_views.session_call_off, name="session-call-off"),
    path("sessions/<int:pk>/ask/", session_views.session_ask, name="session-ask"),
    path("sessions/<int:pk>/confirm/", session_views.session_confirm, name="session-confirm"),
    path("sessions/<int:pk>/thank/", session_views.session_thank, name="session-thank"),
    path("sessions/<int:pk>/check-in/", check_in_views.session_check_in, name="session-check-in"),
    path("sessions/<int:pk>/walk-in/", check_in_views.session_walk_in, name="session-walk-in"),
    path("sessions/<int:pk>/all-came/", check_in_views.session_all_came, name="session-all-came"),
    path("sessions/<int:pk>/count/", check_in_views.session_count, name="session-count"),
    path("turns/<int:pk>/reply/", session_views.turn_reply, name="turn-reply"),
    path("turns/<int:pk>/leave-out/", session_views.turn_leave_out, name="turn-leave-out"),
    path("turns/<int:pk>/came/", check_in_views.turn_came, name="turn-came"),
]
kits = [
    path("kits/", kit_views.kit_list, name="kit-list"),
    path("<int:pk>/kit/", kit_views.kit_new, name="kit-new"),
    path("kits/<int:pk>/back/", kit_views.kit_back, name="kit-back"),
    path("kits/<int:pk>/thank/", kit_views.kit_thank, name="kit-thank"),
]
urlpatterns = [*people, *sessions, *kits, *cards_and_shows]
