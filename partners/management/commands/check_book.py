"""check_book: work out every stored fact again and say what differs."""

from __future__ import annotations

from typing import Any

from django.core.management.base import BaseCommand, CommandError

from partners.agenda.check_book import differences
from partners.program.models import Program


class Command(BaseCommand):
    help = "Works out every stored fact again and says what differs."

    def handle(self, *args: Any, **options: Any) -> None:
        found = 0
        for program in Program.objects.order_by("pk"):
            for sentence in differences(program):
                found += 1
                self.stdout.write(f"{program}: {sentence}")
        if found:
            raise CommandError(f"{found} stored facts differ from the record.")
        self.stdout.write("Every stored fact follows from the record.")
