"""How many of what, in words that are right for one, for many and for a teacher's own nouns."""

import re
from collections.abc import Sequence
from dataclasses import dataclass, replace
from decimal import Decimal

_UNITS = {
    "en": {
        "bag": "bags",
        "bottle": "bottles",
        "box": "boxes",
        "bundle": "bundles",
        "can": "cans",
        "case": "cases",
        "foot": "feet",
        "gallon": "gallons",
        "hour": "hours",
        "jar": "jars",
        "ounce": "ounces",
        "pack": "packs",
        "pair": "pairs",
        "piece": "pieces",
        "pound": "pounds",
        "ream": "reams",
        "roll": "rolls",
        "set": "sets",
        "sheet": "sheets",
        "tube": "tubes",
        "yard": "yards",
    },
    "es": {
        "bolsa": "bolsas",
        "botella": "botellas",
        "caja": "cajas",
        "frasco": "frascos",
        "galón": "galones",
        "hoja": "hojas",
        "hora": "horas",
        "juego": "juegos",
        "lata": "latas",
        "libra": "libras",
        "metro": "metros",
        "paquete": "paquetes",
        "par": "pares",
        "pieza": "piezas",
        "pie": "pies",
        "resma": "resmas",
        "rollo": "rollos",
        "tubo": "tubos",
        "yarda": "yardas",
    },
}
_BRACKETS = re.compile(r"\(.*?\)")
_ONE = {language: {many: one for one, many in units.items()} for language, units in _UNITS.items()}


_LEADING = re.compile(r"(\d[\d.,]*)\s*(\w*)")


@dataclass(frozen=True)
class Item:
    """A thing asked for or given: `what` in the teacher's words, how many (up to how many) of which unit, its kind."""

    what: str
    quantity: int | Decimal | None = None
    unit: str = ""
    kind: str = ""
    at_most: int | None = None


def number(value: int | Decimal) -> str:
    """
    >>> number(1200), number(Decimal("2.50"))
    ('1,200', '2.5')
    """
    text = f"{value:,f}" if isinstance(value, Decimal) else f"{value:,}"
    return text.rstrip("0").rstrip(".") if "." in text else text


def counted(item: Item, language: str) -> str:
    """The item with its number. Where one of a plural noun is meant, the number follows it: nothing reads "1 pots".

    >>> counted(Item("ribbon", 1, "rolls"), "en"), counted(Item("terracotta pots", 1), "en")
    ('1 roll of ribbon', 'terracotta pots: 1')
    >>> counted(Item("paper bags", 250, at_most=300), "en"), counted(Item("bolsas", 1, at_most=2), "es")
    ('250 to 300 paper bags', '1 a 2 bolsas')
    """
    if not item.what:
        return ""
    if not item.quantity:
        return item.what
    if item.at_most:
        to = "a" if language == "es" else "to"
        return f"{number(item.quantity)} {to} {counted(replace(item, quantity=item.at_most, at_most=None), language)}"
    amount = number(item.quantity)
    of = "de" if language == "es" else "of"
    if item.unit:
        unit = _one_unit(item.unit, language) if item.quantity == 1 else _UNITS[language].get(item.unit, item.unit)
        return f"{amount} {unit} {of} {item.what}" if unit else f"{item.what} ({item.unit}: {amount})"
    if item.quantity == 1 and _looks_plural(item.what):
        return f"{item.what}: {amount}"
    return f"{amount} {item.what}"


def with_kind(item: Item, language: str) -> str:
    """The counted item with its kind or size behind it.

    >>> with_kind(Item("terracotta pots", 120, kind="4 inch"), "en")
    '120 terracotta pots (4 inch)'
    """
    text = counted(item, language)
    return f"{text} ({item.kind})" if text and item.kind else text


def _one_unit(unit: str, language: str) -> str:
    """The unit for one; empty when a plural is not known and cannot be turned back."""
    known = _ONE[language].get(unit.lower())
    if known:
        return known
    return "" if _looks_plural(unit) else unit


def _looks_plural(words: str) -> bool:
    last = words.split()[-1].lower() if words.split() else ""
    return last.endswith("s") and not last.endswith(("ss", "us", "is"))


def students(count: int, language: str) -> str:
    """
    >>> students(1, "en"), students(604, "en"), students(1, "es")
    ('one student', '604 students', 'un estudiante')
    """
    if language == "es":
        return "un estudiante" if count == 1 else f"{number(count)} estudiantes"
    return "one student" if count == 1 else f"{number(count)} students"


def reached(count: int | None, language: str, told: str) -> str:
    """How many students, unless what is told beside it names the same number already.

    >>> reached(604, "en", "Tiles hang."), reached(604, "en", "Every one of 604 students drew."), reached(0, "en", "")
    ('604 students', '', '')
    """
    named = {figure.replace(",", "") for figure in re.findall(r"\d+(?:,\d+)*", told)}
    return students(count, language) if count and str(count) not in named else ""


def dollars(cents: int) -> str:
    """
    >>> dollars(125000)
    '$1,250.00'
    """
    return f"${cents // 100:,}.{cents % 100:02d}"


def joined(parts: Sequence[str], language: str) -> str:
    """Parts as a list in a sentence. When one holds a comma, semicolons part them. Spanish "y" turns to "e" before i.

    >>> joined(["tela", "hilo", "imanes"], "es"), joined(["pots, tall", "twine"], "en")
    ('tela, hilo e imanes', 'pots, tall; and twine')
    """
    if len(parts) < 2:
        return "".join(parts)
    last = parts[-1]
    word = "and"
    if language == "es":
        sound = last.lower()
        word = "e" if sound.startswith(("i", "í", "hi", "hí")) and not sound.startswith(("hie", "hia", "io")) else "y"
    if any("," in _BRACKETS.sub("", part) for part in parts):
        return f"{'; '.join(parts[:-1])}; {word} {last}"
    return f"{', '.join(parts[:-1])} {word} {last}"


def sentence(text: str) -> str:
    """The teacher's own sentence with an end sign if it has none."""
    text = text.strip()
    return text if not text or text[-1] in ".!?…:)\"'”’»" else f"{text}."


def whole(text: str) -> str:
    """The same, begun like a sentence."""
    text = sentence(text)
    return text[:1].upper() + text[1:]


def is_less(words: str, item: Item) -> bool:
    """Whether a smaller alternative in a teacher's words is less than what is asked for.

    Words that begin with no number, or count something else ("1 roll" for 40 yards), are taken as they are.
    """
    found = _LEADING.match(words.strip())
    if found is None or item.quantity is None:
        return True
    digits, counts = found[1].rstrip(".,").replace(",", ""), found[2].casefold()
    same = not counts or counts in f"{item.unit} {item.what}".casefold().split()
    return not (same and digits.isdigit()) or int(digits) < item.quantity
