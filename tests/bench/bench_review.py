"""The review page, Today and saving a visit, at two sizes of the book; prints a table.

    .venv/bin/python -m tests.bench.bench_review           # 10,000 and 1,000,000 follow-ups
    .venv/bin/python -m tests.bench.bench_review 10000 100000

Each size is a fresh SQLite book in a process of its own. "floor" is the same rows by raw SQL joined into one text,
"plain" the same rows through a hand-written template behind the same middleware; runs alternate, medians are of pairs.
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from statistics import median
from typing import Any

SIZES = (10_000, 1_000_000)
RUNS = 25
PLAIN = """<!DOCTYPE html><html lang=en><title>Review</title><h1>Review</h1><table>
{% for line in lines %}<tr><td>{{ line.due }}<td>{{ line.late }}
<td><a href="{{ line.who_url }}">{{ line.who }}</a> {{ line.last_word }} {{ line.phone }}
<td>{{ line.verb }} {{ line.what }} {{ line.why }}<td>{{ line.school }}<td>
{% for act in line.acts %}<form method=post action="{{ act.url }}">
<button name=act value="{{ act.code }}">{{ act.label }}</button></form>{% endfor %}</tr>{% endfor %}</table></html>"""
FLOOR = """SELECT f.id, f.due, f.what, p.name, p.phone
FROM partners_followup f JOIN partners_partner p ON p.id = f.partner_id
WHERE f.program_id = %s AND f.done_on IS NULL AND f.due <= %s ORDER BY f.due, f.id LIMIT 50"""


def timed(work: Callable[[], Any]) -> float:
    began = time.perf_counter()
    work()
    return (time.perf_counter() - began) * 1000


def measure(rows: int) -> dict[str, float]:
    """Everything at one size, in milliseconds; run in a process of its own."""
    import django

    django.setup()
    from django.conf import settings
    from django.core.management import call_command
    from django.db import connection
    from django.http import HttpResponse
    from django.template import engines
    from django.test import Client
    from django.test.utils import CaptureQueriesContext, setup_test_environment
    from django.urls import clear_url_caches, path
    from django.utils import timezone

    from partners.agenda.review import review
    from partners.config import urls
    from partners.config.large_book import load_large
    from partners.directory.models import Partner
    from partners.program.access import teachers
    from partners.program.models import User

    setup_test_environment()
    call_command("migrate", verbosity=0)
    began = time.perf_counter()
    name, _password = load_large(rows, timezone.localdate())
    loading = time.perf_counter() - began
    template = engines["django"].from_string(PLAIN)

    @teachers
    def plain(request: Any) -> HttpResponse:
        groups = review(request.desk)["groups"]
        return HttpResponse(template.render({"lines": [line for group in groups for line in group.lines]}, request))

    urls.urlpatterns.append(path("plain/", plain))
    clear_url_caches()
    client = Client()
    user = User.objects.get(username=name)
    client.force_login(user, backend=settings.AUTHENTICATION_BACKENDS[-1])
    partner = Partner.objects.order_by("pk")[Partner.objects.count() // 2]

    def page(address: str) -> Callable[[], Any]:
        def get() -> None:
            assert client.get(address).status_code == 200

        return get

    def floor() -> str:
        with connection.cursor() as cursor:
            cursor.execute(FLOOR, [partner.program_id, timezone.localdate()])
            return "".join(f"<tr><td>{due}<td>{who} {phone}<td>{what}</tr>" for _pk, due, what, who, phone in cursor)

    def save() -> None:
        answer = client.post("/visits/new/", {"partner_pk": partner.pk, "happened": "hello"})
        assert answer.status_code == 302, answer.content[:500]

    works = {"review": page("/review/"), "plain": page("/plain/"), "floor": floor, "today": page("/"), "save": save}
    for work in works.values():
        work()
    times: dict[str, list[float]] = {key: [] for key in works}
    for _run in range(RUNS):
        for key, work in works.items():
            times[key].append(timed(work))
    found = {key: median(values) for key, values in times.items()}
    pairs = zip(times["review"], times["plain"], strict=True)
    found["review to plain"] = median(whole / bare for whole, bare in pairs)
    for key in ("review", "today", "save"):
        with CaptureQueriesContext(
            connection,
        ) as queries:
            works[key]()
        found[f"{key} queries"] = len(queries)
    found["loading s"] = loading
    found["peak MiB"] = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
    return found


def main(sizes: list[int]) -> None:
    results = []
    for rows in sizes:
        with tempfile.TemporaryDirectory() as folder:
            given = {"PARTNER_BOOK_DATA": folder, "DJANGO_SETTINGS_MODULE": "partners.config.settings"}
            command = [sys.executable, "-m", "tests.bench.bench_review", "--measure", str(rows)]
            told = subprocess.run(command, env={**os.environ, **given}, check=True, capture_output=True, text=True)
            results.append(json.loads(told.stdout.splitlines()[-1]))
    print(f"{'':18}" + "".join(f"{rows:>14,}" for rows in sizes) + f"{'last to first':>16}")
    for key in results[0]:
        values = [result[key] for result in results]
        ratio = f"{values[-1] / values[0]:16.2f}" if key in ("review", "plain", "floor", "today", "save") else ""
        print(f"{key:18}" + "".join(f"{value:14.2f}" for value in values) + ratio)
    print("review to floor   " + "".join(f"{result['review'] / result['floor']:14.1f}" for result in results))


if __name__ == "__main__":
    if sys.argv[1:2] == ["--measure"]:
        print(json.dumps(measure(int(sys.argv[2]))))
    else:
        main([int(word) for word in sys.argv[1:]] or list(SIZES))
