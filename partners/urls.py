"""The addresses of every room, in the order of the rooms.

Some pages of a room are made in a reading room, because they need rooms below their own: they join its names here.
"""

from django.urls import include, path

from partners.agenda import urls as agenda
from partners.asking import urls as asking
from partners.directory import urls as directory
from partners.program import urls as program
from partners.school import urls as school
from partners.story import urls as story
from partners.wish_list import urls as wish_list

urlpatterns = [
    path("", include(([*program.urlpatterns, *agenda.figures], "program"))),
    path("", include(([*school.urlpatterns, *agenda.calendar, *story.project_pages], "school"))),
    path("partners/", include(([*directory.urlpatterns, *story.partner_pages], "directory"))),
    path("wish-list/", include(([*wish_list.urlpatterns, *asking.wish_list], "wish_list"))),
    path("", include((asking.visits, "visits"))),
    path("", include("partners.asking.urls")),
    path("promises/", include("partners.promises.urls")),
    path("trades/", include("partners.exchanges.urls")),
    path("gifts/", include("partners.gifts.urls")),
    path("helpers/", include("partners.helpers.urls")),
    path("money/", include("partners.funding.urls")),
    path("letters/", include("partners.letters.urls")),
    path("", include("partners.agenda.urls")),
    path("copies/", include("partners.copies.urls")),
    path("year/", include("partners.year.urls")),
    path("", include("partners.story.urls")),
]
