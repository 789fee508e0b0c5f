"""The pages of what is due as somebody would write them by hand: one template, every value worked out before.

The same frame around, the same middleware and person, the same lines with the same buttons; no groups, look or script.
"""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from django.template import engines
from django.urls import include, path

from partners.agenda.review import review
from partners.agenda.today import today
from partners.directory.tags import national, tel_link
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened

HEAD = """{% extends "base.html" %}{% block title %}Due{% endblock %}{% block heading %}Due{% endblock %}
{% block content %}<table>{% for line in lines %}<tr>"""
WORDS = """
<td>{{ line.day }}{% if line.hour %} {{ line.hour }}{% endif %}{% if line.late %} <b>{{ line.late }}</b>{% endif %}</td>
<th>{% if line.who_url %}<a href="{{ line.who_url }}">{{ line.who }}</a>{% else %}{{ line.who }}{% endif %}
{% if line.last_word %}<p>{{ line.last_word }}</p>{% endif %}
{% if line.phone %}<a href="{{ line.tel }}">{{ line.phone }}</a>{% endif %}</th>
<td><b>{{ line.verb }}</b> {{ line.what }}{% if line.why %}<p>{{ line.why }}</p>{% endif %}</td>
<td>{{ line.school }}</td>"""
BUTTONS = """
<td><input type="checkbox" form="many" name="line" value="{{ line.key }}" aria-label="{{ line.who }}"></td>
<td>{% for act in line.acts %}{% if act.opens %}<a href="{{ act.url }}">{{ act.label }}</a>{% else %}
<form method="post" action="{{ act.url }}">{% csrf_token %}<input type="hidden" name="act" value="{{ act.code }}">
{% if act.moves %}<input type="date" name="day">{% endif %}<button>{{ act.label }}</button></form>{% endif %}
{% endfor %}</td>"""
FOOT = """</tr>{% endfor %}</table>{% endblock %}"""

# What the pages show; whoever measures puts it here.
lines: list[dict[str, Any]] = []


def values(line: Any) -> dict[str, Any]:
    """A shown due line as plain words."""
    acts = [line.main, *line.more] if line.main else []
    written = ("key", "hour", "late", "who", "who_url", "last_word", "verb", "what", "why", "school")
    return {
        **{name: getattr(line, name) and f"{getattr(line, name)}" for name in written},
        "day": f"{line.due:%a, %b} {line.due.day}",
        "phone": line.phone and national(line.phone),
        "tel": line.phone and tel_link(line.phone),
        "acts": [
            {"label": str(act.label), "url": act.url, "opens": act.opens, "code": act.code, "moves": act.code == "move"}
            for act in acts
        ],
    }


def shown(desk: Any, work: str) -> list[Any]:
    """The lines that a page shows, asked for as the page does."""
    if work == "review":
        return [line for group in review(desk)["groups"] for line in group.lines]
    found = today(desk)
    return [*found["runs_out"], *found["lines"]]


@readers(Opened.TODAY)
def plain(request: DeskRequest) -> HttpResponse:
    return HttpResponse(WITH_BUTTONS.render({"lines": lines}, request))


@readers(Opened.TODAY)
def words_only(request: DeskRequest) -> HttpResponse:
    return HttpResponse(WITHOUT.render({"lines": lines}, request))


@readers(Opened.TODAY)
def asked(request: DeskRequest, work: str) -> HttpResponse:
    own = [values(line) for line in shown(request.desk, work)]
    return HttpResponse(WITH_BUTTONS.render({"lines": own}, request))


WITH_BUTTONS: Any = engines["django"].from_string(HEAD + WORDS + BUTTONS + FOOT)
WITHOUT: Any = engines["django"].from_string(HEAD + WORDS + FOOT)

urlpatterns = [
    path("plain/", plain),
    path("asked/<str:work>/", asked),
    path("words-only/", words_only),
    path("", include("partners.config.urls")),
]
