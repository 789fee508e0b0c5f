"""Addresses of purchases and exemption certificates."""

from django.urls import path

from partners.funding import buying_settle_views, buying_views, certificate_views

urlpatterns = [
    path("", buying_views.purchase_list, name="purchase-list"),
    path("new/", buying_views.purchase_new, name="purchase-new"),
    path("<int:pk>/", buying_views.purchase_detail, name="purchase-detail"),
    path("<int:pk>/edit/", buying_views.purchase_edit, name="purchase-edit"),
    path("<int:pk>/receipt/", buying_views.purchase_receipt, name="purchase-receipt"),
    path("<int:pk>/handed-in/", buying_settle_views.purchase_handed_in, name="purchase-handed-in"),
    path("<int:pk>/repaid/", buying_settle_views.purchase_repaid, name="purchase-repaid"),
    path("<int:pk>/not-asked-back/", buying_settle_views.purchase_not_asked, name="purchase-not-asked"),
    path("<int:pk>/tax-back/", buying_settle_views.purchase_tax_back, name="purchase-tax-back"),
    path("<int:pk>/tax-let-go/", buying_settle_views.purchase_tax_let_go, name="purchase-tax-let-go"),
    path("<int:pk>/call-off/", buying_settle_views.purchase_call_off, name="purchase-call-off"),
    path("certificates/", certificate_views.certificate_list, name="certificate-list"),
    path("certificates/new/", certificate_views.certificate_new, name="certificate-new"),
    path("certificates/<int:pk>/", certificate_views.certificate_edit, name="certificate-edit"),
    path("certificates/<int:pk>/not-needed/", certificate_views.certificate_end, name="certificate-end"),
]
