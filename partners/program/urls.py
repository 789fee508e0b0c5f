"""Addresses of the program: sign-in, members. Its settings are joined in by partners/urls.py."""

from django.contrib.auth import views as auth
from django.urls import path, reverse_lazy

from partners.program import views

app_name = "program"
urlpatterns = [
    path(
        "sign-in/",
        auth.LoginView.as_view(template_name="program/sign_in.html", redirect_authenticated_user=True),
        name="sign-in",
    ),
    path("sign-out/", auth.LogoutView.as_view(next_page=reverse_lazy("program:sign-in")), name="sign-out"),
    path(
        "password/",
        auth.PasswordChangeView.as_view(
            template_name="program/password.html", success_url=reverse_lazy("agenda:today")
        ),
        name="password",
    ),
    path("no-program/", views.no_program, name="no-program"),
    path("programs/<int:pk>/choose/", views.program_choose, name="program-choose"),
    path("members/", views.member_list, name="member-list"),
    path("members/new/", views.member_new, name="member-new"),
    path("members/<int:pk>/", views.member_edit, name="member-edit"),
    path("members/<int:pk>/remove/", views.member_remove, name="member-remove"),
    path("components/", views.components, name="components"),
]
