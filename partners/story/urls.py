"""Addresses of stories, search and history; `partner_pages` join the directory room's, `project_pages` the
school room's."""

from django.urls import path

from partners.story import file_views, forget_views, merge_people_views, merge_views, project_views, views

app_name = "story"
urlpatterns = [
    path("find/", views.search, name="search"),
    path("changes/", views.history, name="history"),
    path("changes/<int:pk>/", views.change_detail, name="change"),
    path("changes/of/<slug:slug>/<int:pk>/", views.row_history, name="row-history"),
    path("changes/<int:pk>/undo/", views.change_undo, name="undo"),
    path("files/", file_views.file_list, name="files"),
    path("files/read-in/", file_views.file_import, name="import"),
    path("files/all.zip", file_views.export_csv, name="export-csv"),
    path("files/all.xlsx", file_views.export_xlsx, name="export-xlsx"),
    path("files/all.json", file_views.export_json, name="export-json"),
    path("forget/", forget_views.named_forget, name="forget-named"),
    path("forget/helper/<int:pk>/", forget_views.person_forget, {"kind": "helper"}, name="forget-helper"),
    path("forget/contact/<int:pk>/", forget_views.person_forget, {"kind": "contact"}, name="forget-contact"),
    path("forget/partner/<int:pk>/", forget_views.person_forget, {"kind": "partner"}, name="forget-partner"),
    path("partners/same/", merge_views.same_list, name="same-list"),
    path("partners/<int:pk>/two/", merge_views.partner_two, name="partner-two"),
    path("partners/<int:pk>/merge/", merge_views.partner_merge, name="partner-merge"),
    path("helpers/<int:pk>/same/", merge_people_views.helper_merge, name="helper-merge"),
    path("people/<int:pk>/same/", merge_people_views.contact_merge, name="contact-merge"),
    path("partners/<int:pk>/changes/", views.partner_history, name="partner-history"),
]

partner_pages = [
    path("<int:pk>/", views.partner_detail, name="partner-detail"),
]

project_pages = [
    path("projects/", project_views.project_list, name="project-list"),
    path("projects/new/", project_views.project_new, name="project-new"),
    path("projects/<int:pk>/", project_views.project_detail, name="project-detail"),
    path("projects/<int:pk>/edit/", project_views.project_edit, name="project-edit"),
    path("projects/<int:pk>/classes/", project_views.project_classes, name="project-classes"),
    path("projects/<int:pk>/parts/new/", project_views.project_part_new, name="project-part-new"),
    path("projects/<int:pk>/became/", project_views.project_became, name="project-became"),
    path("projects/<int:pk>/nothing-to-tell/", project_views.project_nothing, name="project-nothing"),
    path("project-parts/<int:pk>/", project_views.project_part_edit, name="project-part-edit"),
    path("project-parts/<int:pk>/done/", project_views.project_part_done, name="project-part-done"),
    path("project-parts/<int:pk>/remove/", project_views.project_part_remove, name="project-part-remove"),
]
