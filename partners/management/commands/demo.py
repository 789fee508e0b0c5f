"""demo: load the demo book, as it stands today; with --scale, a large one for measuring."""

from __future__ import annotations

from argparse import ArgumentParser
from typing import Any

from django.core.management.base import BaseCommand
from django.utils import timezone

from partners.config.demo_book import load_demo

__all__ = ["load_demo"]


class Command(BaseCommand):
    help = "Loads the demo book of Alder Falls."

    def add_arguments(self, parser: ArgumentParser) -> None:
        parser.add_argument("--scale", type=int, default=0, help="besides, a program with this many follow-ups")
        parser.add_argument("--helpers", type=int, default=0, help="so many helpers in it, with five turns each")

    def handle(self, *args: Any, **options: Any) -> None:
        name, password = load_demo(timezone.localdate())
        self.stdout.write(f"Sign in as {name} with {password}")
        if options["scale"]:
            from partners.config.large_book import load_large

            name, password = load_large(options["scale"], timezone.localdate(), helpers=options["helpers"])
            self.stdout.write(f"The large book: sign in as {name} with {password}")
