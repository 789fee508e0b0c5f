"""Addresses of grants and ready answers."""

from django.urls import path

from partners.funding import answer_views, grant_step_views, grant_views

urlpatterns = [
    path("", grant_views.grant_list, name="grant-list"),
    path("new/", grant_views.grant_new, name="grant-new"),
    path("<int:pk>/", grant_views.grant_detail, name="grant-detail"),
    path("<int:pk>/edit/", grant_views.grant_edit, name="grant-edit"),
    path("<int:pk>/remove/", grant_views.grant_remove, name="grant-remove"),
    path("<int:pk>/ask/", grant_step_views.grant_ask, name="grant-ask"),
    path("<int:pk>/answer/", grant_step_views.grant_answer, name="grant-answer"),
    path("<int:pk>/change/", grant_step_views.grant_change, name="grant-change"),
    path("<int:pk>/claimed/", grant_step_views.grant_claimed, name="grant-claimed"),
    path("<int:pk>/reported/", grant_step_views.grant_reported, name="grant-reported"),
    path("<int:pk>/rest-back/", grant_step_views.grant_rest_back, name="grant-rest-back"),
    path("<int:pk>/leave/", grant_step_views.grant_leave, name="grant-leave"),
    path("<int:pk>/answers/", answer_views.grant_words, name="grant-words"),
    path("<int:pk>/answers/take/", answer_views.grant_take_over, name="grant-take-over"),
    path("answers/", answer_views.ready_answers, name="ready-answers"),
    path("answers/begin/", answer_views.ready_answers_begin, name="ready-answers-begin"),
    path("answers/new/", answer_views.ready_answer_new, name="ready-answer-new"),
    path("answers/<int:pk>/", answer_views.ready_answer_edit, name="ready-answer-edit"),
    path("answers/<int:pk>/remove/", answer_views.ready_answer_remove, name="ready-answer-remove"),
]
