"""The words of the yearly summary, in the language of the sheet; numbers are put in by the document."""

from __future__ import annotations

from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.own_words import Part

Plural = tuple[str, str]


class YearWords(NamedTuple):
    title: str
    readers: dict[str, str]
    as_of: str
    whole: str
    children: str
    classes: Plural
    labels: dict[str, str]
    forms: dict[str, Plural]
    families: str
    of: str
    both: str
    going_on: str
    helpers: Plural
    hours: Plural
    worth: str
    grants: str
    awarded: str
    awarded_back: str
    thanked: str
    within: Plural
    pocket: str
    again: str
    months: tuple[str, ...]
    by_month: tuple[str, str, str, str]
    kept: tuple[str, str, str]
    theirs: str
    ours: str
    became: str
    needs: str
    named: str
    others: Plural
    research: str
    kinds: dict[str, str]
    limits: str
    page: str


YEAR: dict[str, YearWords] = {
    "en": YearWords(
        title="The year in the art room, [year]",
        readers={
            "principal": "For the principal, in school only",
            "board": "For the school board",
            "partners": "For everyone who gave, traded and helped",
        },
        as_of="As of [day]; the year goes on until [last day].",
        whole="From [first day] to [last day].",
        children="{students} in {classes}",
        classes=("one class", "{n} classes"),
        labels={
            "students": "Students reached",
            "gifts": "Gifts",
            "trades": "Trades",
            "helpers": "Helpers",
            "grants": "Grants",
            "thanks": "Thank-you notes",
            "again": "Gave again",
            "pocket": "Out of pocket",
        },
        forms={
            "goods": ("1 gift of goods", "{n} gifts of goods"),
            "money": ("1 gift of money", "{n} gifts of money"),
            "service": ("1 service", "{n} services"),
            "space": ("1 use of a space", "{n} uses of a space"),
            "discount": ("1 discount", "{n} discounts"),
            "loan": ("1 loan", "{n} loans"),
        },
        families="({n} of these from families)",
        of="{part} of {whole}",
        both="{part} of {whole} kept by both sides",
        going_on="{n} still going on",
        helpers=("1 helper", "{n} helpers"),
        hours=("1 hour", "{n} hours"),
        worth="worth {amount} at {each} an hour ({source}, figure of {year})",
        grants="{n} asked for ({asked})",
        awarded="{n} awarded ({amount}): {spent} spent, {left} left",
        awarded_back="{n} awarded ({amount}): {spent} spent, {back} went back unspent, {left} left",
        thanked="{said} of {owed} sent",
        within=("half of them within 1 day", "half of them within {n} days"),
        pocket="{amount} paid by the teacher and not repaid",
        again="{again} of {before} partners that gave the year before",
        months=("Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"),
        by_month=("Month", "Asks", "Came", "Thanks"),
        kept=("Promises that were due", "Kept", "At a glance"),
        theirs="of partners",
        ours="of the school",
        became="What it became",
        needs="Needed next year",
        named="With thanks to [names]",
        others=("and one more.", "and {n} more."),
        research="What research says",
        kinds={"experiment": "experiment", "association": "association"},
        limits="Limits: {limits}",
        page="page {page} of {pages}",
    ),
    "es": YearWords(
        title="El año en la sala de arte, [year]",
        readers={
            "principal": "Para la dirección, solo dentro de la escuela",
            "board": "Para la junta escolar",
            "partners": "Para quienes dieron, intercambiaron y ayudaron",
        },
        as_of="Hasta el [day]; el año sigue hasta el [last day].",
        whole="Del [first day] al [last day].",
        children="{students} en {classes}",
        classes=("una clase", "{n} clases"),
        labels={
            "students": "Estudiantes",
            "gifts": "Donaciones",
            "trades": "Intercambios",
            "helpers": "Voluntarios",
            "grants": "Subvenciones",
            "thanks": "Notas de gracias",
            "again": "Dieron otra vez",
            "pocket": "De su bolsillo",
        },
        forms={
            "goods": ("1 donación de cosas", "{n} donaciones de cosas"),
            "money": ("1 donación de dinero", "{n} donaciones de dinero"),
            "service": ("1 servicio", "{n} servicios"),
            "space": ("1 uso de un lugar", "{n} usos de un lugar"),
            "discount": ("1 descuento", "{n} descuentos"),
            "loan": ("1 préstamo", "{n} préstamos"),
        },
        families="({n} de ellas de familias)",
        of="{part} de {whole}",
        both="{part} de {whole} cumplidos por ambas partes",
        going_on="{n} en marcha",
        helpers=("1 voluntario", "{n} voluntarios"),
        hours=("1 hora", "{n} horas"),
        worth="con un valor de {amount} a {each} por hora ({source}, cifra de {year})",
        grants="pedidas: {n} ({asked})",
        awarded="concedidas: {n} ({amount}), {spent} gastados, quedan {left}",
        awarded_back="concedidas: {n} ({amount}), {spent} gastados, {back} devueltos sin gastar, quedan {left}",
        thanked="{said} de {owed} enviadas",
        within=("la mitad en 1 día", "la mitad en {n} días"),
        pocket="{amount} pagados por la maestra o el maestro y no devueltos",
        again="{again} de {before} socios que dieron el año anterior",
        months=("ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"),
        by_month=("Mes", "Pedidos", "Llegó", "Gracias"),
        kept=("Promesas que vencieron", "Cumplidas", "De un vistazo"),
        theirs="de los socios",
        ours="de la escuela",
        became="En qué se convirtió",
        needs="Para el próximo año hace falta",
        named="Con gracias a [names]",
        others=("y uno más.", "y {n} más."),
        research="Lo que dice la investigación",
        kinds={"experiment": "experimento", "association": "asociación"},
        limits="Límites: {limits}",
        page="página {page} de {pages}",
    ),
}


NAME = "yearly-summary"
BLANKS = ("year", "day", "first day", "last day", "teacher", "school")
PARTS = (
    Part("title", _("Heading")),
    Part("readers.principal", _("Under the heading, for the principal")),
    Part("readers.board", _("Under the heading, for the board")),
    Part("readers.partners", _("Under the heading, for partners")),
    Part("as_of", _("Of which time, while the year goes on")),
    Part("whole", _("Of which time, once it is over")),
    Part("became", _("Label: what it became")),
    Part("needs", _("Label: what is needed next year")),
    Part("named", _("Thanks to those who may be named"), ("names",)),
)


def of_number(words: Plural, count: int, shown: str = "") -> str:
    """The words for one or for many, with the number as it is `shown`."""
    return words[0] if count == 1 and not shown else words[1].format(n=shown or f"{count:,}")
