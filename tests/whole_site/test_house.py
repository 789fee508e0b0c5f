"""The rules of the house, read from the code itself."""

from __future__ import annotations

import ast
import importlib
import inspect
import re
from functools import cache
from pathlib import Path

import pytest
from django.apps import apps
from django.core.management import call_command

from partners.agenda.lines import BY_SLUG
from partners.story.rooms import ROOMS as TELLING
from tests.migrated import with_migrations

ROOT = Path(__file__).parent.parent.parent
ROOMS = [
    "ground", "program", "school", "directory", "wish_list", "visits", "promises", "exchanges", "gifts", "helpers",
    "funding", "letters", "asking", "agenda", "copies", "story", "year",
]  # fmt: skip
TOP = {
    "README.md", "DEVELOPERS.md", "manage.py", "pyproject.toml", "partners", "outreach", "templates", "tests",
    "fixtures",
}  # fmt: skip
# The shape of a line, which tells nothing itself.
NO_ROOMS_STORY = {"partners.ground.story"}
TRANSLATION = "django.utils.translation"
WORDS = {"gettext", "gettext_lazy", "gettext_noop", "ngettext", "ngettext_lazy", "pgettext_lazy", "get_language"}
SOURCES = sorted(path for folder in ("partners", "outreach") for path in (ROOT / folder).rglob("*.py"))


@cache
def parsed(path: Path) -> ast.Module:
    return ast.parse(path.read_text(encoding="utf-8"))


def imported(path: Path) -> set[str]:
    """What the file imports when it runs; names that only the type checker reads are no dependency."""
    names = set()
    for_types = {
        id(inner)
        for node in ast.walk(parsed(path))
        if isinstance(node, ast.If) and "TYPE_CHECKING" in ast.dump(node.test)
        for inner in ast.walk(node)
    }
    for node in ast.walk(parsed(path)):
        if id(node) in for_types:
            continue
        if isinstance(node, ast.Import):
            names |= {alias.name for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and node.module:
            names |= {f"{node.module}.{alias.name}" for alias in node.names}
    return names


def room_of(name: str) -> str:
    parts = name.split(".")
    return parts[1] if parts[0] == "partners" and len(parts) > 1 and parts[1] in ROOMS else ""


def place_of(path: Path) -> str:
    return str(path.relative_to(ROOT))


def upward(path: Path) -> set[str]:
    """The rooms below its own that the file imports from."""
    parts = path.relative_to(ROOT).parts
    if parts[0] != "partners" or parts[1] not in ROOMS:
        return set()
    own = ROOMS.index(parts[1])
    return {name for name in imported(path) if room_of(name) and ROOMS.index(room_of(name)) > own}


def test_every_room_has_its_place_in_the_order() -> None:
    rooms = {path.parent.name for path in (ROOT / "partners").glob("*/*.py")}
    assert rooms - {"config", "management", "migrations"} == set(ROOMS)


def test_what_a_room_asks_for_and_tells_is_listed() -> None:
    """Else its due lines are on no page, and its story on no partner's."""
    asks = [importlib.import_module(f"partners.{path.parent.name}.{path.stem}") for path in modules("*due.py")]
    sources = {source.slug for one in asks for source in getattr(one, "SOURCES", ())}
    assert sources <= set(BY_SLUG)
    assert {f"partners.{path.parent.name}.story" for path in modules("story.py")} - NO_ROOMS_STORY == {
        lines.__module__ for lines, _opened in TELLING
    }


def modules(name: str) -> list[Path]:
    return sorted((ROOT / "partners").glob(f"*/{name}"))


def test_rooms_import_only_from_rooms_above() -> None:
    assert len(SOURCES) > 300
    assert {place_of(path): upward(path) for path in SOURCES if upward(path)} == {}


def test_partners_never_imports_outreach() -> None:
    record = [path for path in SOURCES if path.relative_to(ROOT).parts[0] == "partners"]
    assert [place_of(path) for path in record if any(name.split(".")[0] == "outreach" for name in imported(path))] == []


def managers_reached(path: Path) -> list[int]:
    """The lines that go to a model's own manager, but for those of who signs in."""
    return [
        node.lineno
        for node in ast.walk(parsed(path))
        if isinstance(node, ast.Attribute)
        and node.attr == "objects"
        and not (isinstance(node.value, ast.Name) and node.value.id in ("User", "Membership"))
    ]


def test_views_due_and_story_reach_rows_through_the_desk() -> None:
    ends = ("views", "due", "story")
    guarded = [path for path in SOURCES if path.stem in ends or path.stem.endswith(tuple(f"_{end}" for end in ends))]
    assert len(guarded) > 40
    assert {place_of(path): managers_reached(path) for path in guarded if managers_reached(path)} == {}


def test_nothing_turns_to_another_language_within_a_request() -> None:
    """The language is asked for once (`partners/ground/reader.py`), so code may ask for words, and not turn."""
    taken = {(place_of(path), name) for path in SOURCES for name in imported(path) if name.startswith(TRANSLATION)}
    assert len(taken) > 300
    assert {(place, name) for place, name in taken if name.removeprefix(f"{TRANSLATION}.") not in WORDS} == set()
    pages = (ROOT / "templates").rglob("*.html")
    assert [place_of(path) for path in pages if re.search(r"{%-?\s*language\b", path.read_text(encoding="utf-8"))] == []


def test_top_level_holds_what_it_should() -> None:
    found = {path.name for path in ROOT.iterdir() if not path.name.startswith((".", "__pycache__"))}
    assert {name for name in found if not name.endswith(".egg-info")} == TOP


def test_register_of_models_names_every_model_on_disk() -> None:
    listed = set(importlib.import_module("partners.models").__all__)
    on_disk = set()
    for path in (ROOT / "partners").glob("*/*models.py"):
        module = importlib.import_module(f"partners.{path.parent.name}.{path.stem}")
        on_disk |= {
            name
            for name, value in vars(module).items()
            if inspect.isclass(value) and value.__module__ == module.__name__ and value in apps.get_models()
        }
    assert listed == on_disk


@pytest.mark.django_db
def test_no_migration_is_missing() -> None:
    with with_migrations():
        call_command("makemigrations", "--check", "--dry-run", verbosity=0)
    assert list((ROOT / "partners" / "migrations").glob("0001_*.py"))


@pytest.mark.parametrize("document", ["README.md", "DEVELOPERS.md"])
def test_documents_name_only_files_that_exist(document: str) -> None:
    """A path from the top, or a file's bare name beside another that is given whole."""
    text = (ROOT / document).read_text(encoding="utf-8")
    paths = set(re.findall(r"`((?:partners|outreach|templates|tests|fixtures|\.ci)/[\w./-]*)`", text))
    paths |= set(re.findall(r"\]\(([\w./-]+)\)", text))
    bare = set(re.findall(r"`([\w-]+\.(?:py|js|html|json|css|lock))`", text))
    names = {"manage.py", *(path.name for top in TOP - {"manage.py"} for path in (ROOT / top).rglob("*.*"))}
    assert paths
    assert not {name for name in paths if not (ROOT / name.rstrip("/")).exists()}
    assert not bare - names
