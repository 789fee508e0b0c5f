"""Dates as a letter writes them: the month always spelled. English as in the US, Spanish as in Puerto Rico."""

from datetime import date

_MONTHS = {
    "en": (
        "January",
        "February",
        "March",
        "April",
        "May",
        "June",
        "July",
        "August",
        "September",
        "October",
        "November",
        "December",
    ),
    "es": (
        "enero",
        "febrero",
        "marzo",
        "abril",
        "mayo",
        "junio",
        "julio",
        "agosto",
        "septiembre",
        "octubre",
        "noviembre",
        "diciembre",
    ),
}
_WEEKDAYS = {
    "en": ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"),
    "es": ("lunes", "martes", "miércoles", "jueves", "viernes", "sábado", "domingo"),
}


def spelled(day: date, language: str) -> str:
    """
    >>> spelled(date(2026, 10, 6), "en"), spelled(date(2026, 10, 6), "es")
    ('October 6, 2026', '6 de octubre de 2026')
    """
    month = _MONTHS[language][day.month - 1]
    return f"{day.day} de {month} de {day.year}" if language == "es" else f"{month} {day.day}, {day.year}"


def with_weekday(day: date, language: str) -> str:
    """
    >>> with_weekday(date(2026, 10, 6), "en"), with_weekday(date(2026, 10, 6), "es")
    ('Tuesday, October 6, 2026', 'martes, 6 de octubre de 2026')
    """
    return f"{_WEEKDAYS[language][day.weekday()]}, {spelled(day, language)}"


def short(day: date, language: str) -> str:
    """Day and month for a narrow column.

    >>> short(date(2026, 10, 6), "en"), short(date(2026, 10, 6), "es")
    ('Oct 6', '6 oct')
    """
    month = _MONTHS[language][day.month - 1][:3]
    return f"{day.day} {month}" if language == "es" else f"{month} {day.day}"


def day_and_date(day: date, language: str) -> str:
    """A lesson's day, without its year.

    >>> day_and_date(date(2026, 10, 6), "en"), day_and_date(date(2026, 10, 6), "es")
    ('Tue, Oct 6', 'mar, 6 oct')
    """
    return f"{_WEEKDAYS[language][day.weekday()][:3]}, {short(day, language)}"
