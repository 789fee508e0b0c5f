"""Who must say yes at a school: procedures, approvals that were given, and who must accept a gift."""

from __future__ import annotations

import re

from django.contrib import messages
from django.db.models import ProtectedError
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import ngettext
from django.views.decorators.http import require_http_methods, require_POST

from partners.ground.returning import safe_return
from partners.ground.said import said
from partners.program.access import DeskRequest, keepers, teachers
from partners.program.files import attachments_of
from partners.school import approval_actions as actions
from partners.school.approval_forms import ApprovalForm, LapseForm, ProcedureForm, RuleForm
from partners.school.approval_models import AcceptanceRule, Approval, ApprovalFor, Procedure
from partners.school.approval_page import first_words, followed
from partners.school.approvals import needed


@require_http_methods(["GET", "POST"])
@teachers
def approval_new(request: DeskRequest, pk: int) -> HttpResponse:
    desk = request.desk
    school = get_object_or_404(desk.schools, pk=pk)
    follows, asked = request.GET.get("follows", ""), request.GET.get("what_for", "")
    before = school.approvals.filter(pk=follows).first() if re.fullmatch(r"[0-9]{1,18}", follows) else None
    what_for = before.what_for if before else asked if asked in ApprovalFor.values else str(ApprovalFor.ASKING)
    initial = first_words(desk, school, what_for, before)
    instance = Approval(school=school)
    form = ApprovalForm(request.POST or None, desk=desk, instance=instance, initial=initial, what_for=what_for)
    if request.method == "POST" and form.is_valid():
        values = form.values()
        old = before if before and before.what_for == values["what_for"] else followed(desk, school, values["what_for"])
        count = actions.add_approvals(desk=desk, school=school, also=form.with_it, follows=old, **values)
        words = ngettext("Approval recorded.", "%(count)d approvals recorded.", count)
        said(request, words % {"count": count})
        return redirect(safe_return(request) if request.POST.get("next") else school)
    context = {"form": form, "school": school, "procedure": needed(desk, school, what_for)}
    context["came_from"] = safe_return(request, otherwise="")
    return render(request, "school/approval_form.html", context)


@require_http_methods(["GET", "POST"])
@teachers
def approval_edit(request: DeskRequest, pk: int) -> HttpResponse:
    approval = get_object_or_404(request.desk.approvals.select_related("school"), pk=pk)
    form = ApprovalForm(request.POST or None, desk=request.desk, instance=approval)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(request.desk.approvals.select_related("school"), pk=pk)
        actions.edit_approval(desk=request.desk, approval=stored, seen=form.version_seen, **form.values())
        said(request, _("Saved."))
        return redirect(approval.school)
    kept = attachments_of(request.desk, approval=approval)
    context = {"form": form, "school": approval.school, "approval": approval, "attachments": kept}
    return render(request, "school/approval_form.html", context)


@require_POST
@teachers
def approval_remove(request: DeskRequest, pk: int) -> HttpResponse:
    approval = get_object_or_404(request.desk.approvals.select_related("school"), pk=pk)
    try:
        actions.remove_approval(desk=request.desk, approval=approval)
    except ProtectedError:
        messages.warning(
            request, _("Something was asked or agreed with this yes, or a paper belongs to it, so it stays.")
        )
    else:
        said(request, _("Taken out."))
    return redirect(approval.school)


@require_http_methods(["GET", "POST"])
@teachers
def approvals_lapse(request: DeskRequest, pk: int) -> HttpResponse:
    """Somebody left: which approvals went with them."""
    school = get_object_or_404(request.desk.schools, pk=pk)
    former = request.GET.get("former", "")[:120]
    form = LapseForm(request.POST or None, desk=request.desk, school=school, former=former)
    if request.method == "POST" and form.is_valid():
        chosen = form.cleaned_data["approvals"]
        count = actions.lapse_approvals(desk=request.desk, school=school, approvals=chosen, day=request.desk.day)
        words = ngettext("%(count)d yes no longer holds.", "%(count)d yeses no longer hold.", count)
        said(request, words % {"count": count})
        return redirect(school)
    return render(request, "school/approvals_lapse.html", {"form": form, "school": school, "former": former})


@require_http_methods(["GET", "POST"])
@teachers
def procedure_new(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    asked = request.GET.get("what_for", "")
    initial = {"who": _("the principal"), **({"what_for": asked} if asked in ApprovalFor.values else {})}
    form = ProcedureForm(request.POST or None, desk=request.desk, instance=Procedure(school=school), initial=initial)
    if request.method == "POST" and form.is_valid():
        actions.add_procedure(desk=request.desk, school=school, **form.values())
        said(request, _("Saved."))
        return redirect(school)
    return render(request, "school/procedure_form.html", {"form": form, "school": school})


@require_http_methods(["GET", "POST"])
@teachers
def procedure_edit(request: DeskRequest, pk: int) -> HttpResponse:
    procedure = get_object_or_404(request.desk.procedures.select_related("school"), pk=pk)
    form = ProcedureForm(request.POST or None, desk=request.desk, instance=procedure)
    if request.method == "POST" and form.is_valid():
        stored = get_object_or_404(request.desk.procedures.select_related("school"), pk=pk)
        actions.edit_procedure(desk=request.desk, procedure=stored, seen=form.version_seen, **form.values())
        said(request, _("Saved."))
        return redirect(procedure.school)
    context = {"form": form, "school": procedure.school, "procedure": procedure}
    return render(request, "school/procedure_form.html", context)


@require_POST
@teachers
def procedure_remove(request: DeskRequest, pk: int) -> HttpResponse:
    procedure = get_object_or_404(request.desk.procedures.select_related("school"), pk=pk)
    actions.remove_procedure(desk=request.desk, procedure=procedure)
    said(request, _("Taken out. What was approved so far stays."))
    return redirect(procedure.school)


@require_http_methods(["GET", "POST"])
@keepers
def rule_new(request: DeskRequest, pk: int) -> HttpResponse:
    school = get_object_or_404(request.desk.schools, pk=pk)
    form = RuleForm(request.POST or None, desk=request.desk, instance=AcceptanceRule(school=school))
    if request.method == "POST" and form.is_valid():
        actions.add_rule(desk=request.desk, school=school, **form.values())
        said(request, _("Saved."))
        return redirect(school)
    return render(request, "school/form.html", {"form": form, "heading": _("The board decides from …"), "back": school})


@require_POST
@keepers
def rule_remove(request: DeskRequest, pk: int) -> HttpResponse:
    rule = get_object_or_404(request.desk.acceptance_rules, pk=pk)
    actions.remove_rule(desk=request.desk, rule=rule)
    said(request, _("Taken out."))
    return redirect(rule.school)
