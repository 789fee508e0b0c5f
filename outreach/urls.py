"""Addresses of the sheets."""

from django.urls import path

from outreach import (
    batch_going_views,
    batch_views,
    calendar_views,
    card_views,
    helper_views,
    label_views,
    list_views,
    mail_views,
    views,
    words_views,
)
from outreach.wording.session_mail import NAMES

app_name = "outreach"
urlpatterns = [
    path("lists/", list_views.year_lists, name="year-lists"),
    path("batches/", batch_views.batch_list, name="batch-list"),
    path("batches/<int:pk>/", batch_views.batch_detail, name="batch-detail"),
    path("batches/<int:pk>/edit/", batch_views.batch_edit, name="batch-edit"),
    path("batches/<int:pk>/renew/", batch_views.batch_renew, name="batch-renew"),
    path("batches/<int:pk>/look/", batch_views.batch_look, name="batch-look"),
    path("batches/<int:pk>/file/", batch_views.batch_file, name="batch-file"),
    path("batches/<int:pk>/envelopes/", batch_views.batch_envelopes, name="batch-envelopes"),
    path("batches/<int:pk>/went/", batch_going_views.batch_went, name="batch-went"),
    path("batches/<int:pk>/leave-out/", batch_going_views.batch_leave_out, name="batch-leave-out"),
    path("label-sheets/", label_views.label_sheet, name="label-sheet"),
    path("outings/<int:pk>/", batch_views.batch_outing, name="batch-outing"),
    path("words/", words_views.own_words_list, name="own-words"),
    path("words/<str:sheet>/<str:language>/", words_views.own_words_sheet, name="own-words-sheet"),
    path("words/<str:sheet>/<str:language>/<str:part>/", words_views.own_words_part, name="own-words-part"),
    path("words/<str:sheet>/<str:language>/<str:part>/try/", words_views.own_words_try, name="own-words-try"),
    path("words/<str:sheet>/<str:language>/<str:part>/again/", words_views.own_words_again, name="own-words-again"),
    path("letters/<int:pk>/", views.letter_words, name="letter-words"),
    path("free-days/<int:pk>/calendar/", calendar_views.occasion_calendar, name="occasion-calendar"),
    path("calendar/", calendar_views.your_calendar, name="your-calendar"),
    path("calendar/new-address/", calendar_views.calendar_renew, name="calendar-renew"),
    path("calendar/no-address/", calendar_views.calendar_end, name="calendar-end"),
    path("calendar/<str:secret>.ics", calendar_views.calendar_feed, name="calendar-feed"),
    path("cards/", card_views.partner_cards, name="partner-cards"),
    path("cards/partners/<int:pk>/", card_views.partner_card, name="partner-card"),
    path("cards/people/<int:pk>/", card_views.contact_card_file, name="contact-card"),
    path("sessions/<int:pk>/", helper_views.session_sheets, name="session-sheets"),
    *(
        path(f"sessions/<int:pk>/mail/{kind}/", helper_views.session_mail_file, {"kind": kind}, f"session-mail-{kind}")
        for kind in NAMES
    ),
    path("shows/<int:pk>/", helper_views.show_sheets, name="show-sheets"),
    path("<slug:slug>/<int:pk>/", views.document_prepare, name="document-prepare"),
    path("<slug:slug>/<int:pk>/pdf/", views.document, name="document"),
    path("<slug:slug>/<int:pk>/page/", views.document_page, name="document-page"),
    path("<slug:slug>/<int:pk>/reading/", views.document_reading, name="document-reading"),
    path("<slug:slug>/<int:pk>/mail/", mail_views.document_mail, name="document-mail"),
    path("<slug:slug>/<int:pk>/mail/draft/", mail_views.document_draft, name="document-draft"),
    path("<slug:slug>/<int:pk>/gone/", views.document_hand_over, name="document-hand-over"),
]
