"""Addresses of the program: sign-in, devices, members. Its settings are joined in by partners/urls.py."""

from django.urls import path

from partners.ground.answers import forgets_pages
from partners.program import device_views, invitation_views, letter_picture_views, views, worker

app_name = "program"
urlpatterns = [
    path("worker.js", worker.worker, name="worker"),
    path("sign-in/", device_views.SignIn.as_view(), name="sign-in"),
    path("sign-out/", forgets_pages(device_views.SignOut.as_view()), name="sign-out"),
    path("password/", device_views.Password.as_view(), name="password"),
    path("devices/", device_views.device_list, name="device-list"),
    path("devices/others/sign-out/", device_views.device_others, name="device-others"),
    path("devices/<int:pk>/sign-out/", device_views.device_sign_out, name="device-sign-out"),
    path("no-program/", views.no_program, name="no-program"),
    path("programs/<int:pk>/choose/", views.program_choose, name="program-choose"),
    path("members/", views.member_list, name="member-list"),
    path("members/new/", invitation_views.member_new, name="member-new"),
    path("members/link/", invitation_views.member_link, name="member-link"),
    path("members/invitations/<int:pk>/withdraw/", invitation_views.invitation_withdraw, name="invitation-withdraw"),
    path("join/", invitation_views.join, name="join"),
    path("join/<str:secret>/", invitation_views.join_link, name="join-link"),
    path("members/me/", views.own_name, name="own-name"),
    path("members/<int:pk>/", views.member_edit, name="member-edit"),
    path("members/<int:pk>/remove/", views.member_remove, name="member-remove"),
    path("letter-pictures/", letter_picture_views.letter_picture_list, name="letter-picture-list"),
    path(
        "letter-pictures/<str:use>/<int:pk>/", letter_picture_views.letter_picture_choose, name="letter-picture-choose"
    ),
    path("letter-pictures/<int:pk>/remove/", letter_picture_views.letter_picture_remove, name="letter-picture-remove"),
    path("letter-pictures/<int:pk>/", letter_picture_views.letter_picture, name="letter-picture"),
    path("components/", views.components, name="components"),
]
