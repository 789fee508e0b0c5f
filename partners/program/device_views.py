"""Signing in and out, a new password, and the devices that stay signed in."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.contrib.auth import views as auth
from django.http import HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse_lazy
from django.utils import timezone
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST

from partners.program import devices
from partners.program.device_forms import SignInForm


class SignIn(auth.LoginView):
    template_name = "program/sign_in.html"
    redirect_authenticated_user = True
    authentication_form = SignInForm

    def form_valid(self, form: Any) -> HttpResponse:
        answer = super().form_valid(form)
        if form.cleaned_data["keep"]:
            name, now = form.cleaned_data["device"], timezone.now()
            session, user = self.request.session, form.get_user()
            devices.keep_signed_in(session, user=user, name=name, now=now, day=timezone.localdate())
        return answer


class SignOut(auth.LogoutView):
    next_page = "program:sign-in"

    def post(self, request: HttpRequest, *args: Any, **kwargs: Any) -> Any:
        devices.sign_out(devices.devices_of(request.user.pk).filter(session_key=request.session.session_key))
        return super().post(request, *args, **kwargs)


class Password(auth.PasswordChangeView):
    template_name = "program/password.html"
    success_url = reverse_lazy("agenda:today")

    def form_valid(self, form: Any) -> HttpResponse:
        answer = super().form_valid(form)
        user: Any = self.request.user
        devices.new_key(self.request.session)
        devices.sign_out_others(self.request.session, user=user, now=timezone.now())
        messages.success(self.request, _("Your password is changed. Every other device is signed out."))
        return answer


@require_GET
def device_list(request: HttpRequest) -> HttpResponse:
    """Where the person stays signed in, this device marked."""
    there = devices.signed_in(request.user, now=timezone.now())
    shown = {"devices": there, "this": request.session.session_key}
    return render(request, "program/device_list.html", shown)


@require_POST
def device_sign_out(request: HttpRequest, pk: int) -> HttpResponseBase:
    device = get_object_or_404(devices.devices_of(request.user), pk=pk)
    if device.session_key == request.session.session_key:
        return SignOut.as_view()(request)
    devices.sign_out([device])
    messages.success(request, _("%(name)s is signed out.") % {"name": device.name})
    return redirect("program:device-list")


@require_POST
def device_others(request: HttpRequest) -> HttpResponse:
    user: Any = request.user
    devices.sign_out_others(request.session, user=user, now=timezone.now())
    messages.success(request, _("You are signed out everywhere but here."))
    return redirect("program:device-list")
