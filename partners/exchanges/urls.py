"""Addresses of trades."""

from django.urls import path

from partners.exchanges import plan_views, progress_views, settle_views, views

app_name = "exchanges"
urlpatterns = [
    path("", views.trade_list, name="trade-list"),
    path("new/", views.trade_new, name="trade-new"),
    path("counts/", views.trade_counts, name="trade-counts"),
    path("<int:pk>/", views.trade_detail, name="trade-detail"),
    path("<int:pk>/change/", views.trade_edit, name="trade-edit"),
    path("<int:pk>/approve/", settle_views.trade_approve, name="trade-approve"),
    path("<int:pk>/call-off/", settle_views.trade_call_off, name="trade-call-off"),
    path("<int:pk>/back/", settle_views.trade_back, name="trade-back"),
    path("<int:pk>/plan/", plan_views.trade_plan, name="trade-plan"),
    path("<int:pk>/classes/", plan_views.trade_classes, name="trade-classes"),
    path("<int:pk>/plan/anew/", plan_views.trade_replan, name="trade-replan"),
    path("<int:pk>/plan/offer/", plan_views.trade_offer, name="trade-offer"),
    path("classes/<int:pk>/share/", plan_views.trade_share, name="trade-share"),
    path("<int:pk>/progress/", progress_views.trade_progress, name="trade-progress"),
    path("parts/<int:pk>/deliver/", settle_views.part_deliver, name="part-deliver"),
    path("parts/<int:pk>/<slug:act>/", settle_views.part_close, name="part-close"),
    path("classes/<int:pk>/tally/", progress_views.class_tally, name="class-tally"),
    path("tallies/<int:pk>/take-back/", progress_views.tally_take_back, name="tally-take-back"),
]
