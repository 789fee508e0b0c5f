"""The words of a trade's sheets in each language."""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from outreach.wording.own_words import Part


@dataclass(frozen=True)
class MemoWords:
    """`gives` and `copies` are by the kind of partner."""

    title: str
    version: str
    replaces: str
    between: str
    between_alone: str
    makes: str
    gives: dict[str, str]
    copies: dict[str, str]
    our_copy: str
    by: str
    carried: str
    spares: str
    materials: str
    show: str
    show_from: str
    show_until: str
    names: str
    names_usual: str
    no_last_names: str
    photographs: str
    with_release: str
    afterwards: str
    late: str
    more: str
    lesson: str
    taxes: str
    signs_for: str
    principal: str
    approved: str
    approved_before: str
    date: str
    page: str


@dataclass(frozen=True)
class PlanWords:
    """The sheet of a class and the plan for the wall."""

    wall: str
    for_partner: str
    ready: str
    make: str
    children: str
    start: str
    start_now: str
    all_done: str
    lessons: str
    minutes: str
    each: str
    plain: str
    plain_each: str
    materials: str
    names: str
    tally: str
    done_before: str
    spoiled_before: str
    tick: str
    tick_spoiled: str
    lines: tuple[str, str, str]
    klass: str
    items: str
    nobody: str
    not_all: str
    as_of: str
    page: str


MEMO = {
    "en": MemoWords(
        title="What we agreed",
        version="Version {number}",
        replaces="It replaces the memo of {day}.",
        between="{day}, between {school} ({teacher}) and {partner} ({contact}).",
        between_alone="{day}, between {school} ({teacher}) and {partner}.",
        makes="School makes",
        gives={
            "business": "Shop gives",
            "arts_group": "Arts group gives",
            "library": "Library gives",
            "civic_group": "Civic group gives",
            "grantmaker": "Grantmaker gives",
            "family_group": "Family group gives",
        },
        copies={
            "business": "Shop’s copy",
            "arts_group": "Arts group’s copy",
            "library": "Library’s copy",
            "civic_group": "Civic group’s copy",
            "grantmaker": "Grantmaker’s copy",
            "family_group": "Family group’s copy",
        },
        our_copy="School’s copy",
        by="by {day}",
        carried="brought by: {carrier}",
        spares="with {percent}% spares",
        materials="Materials",
        show="On show",
        show_from="from {day}",
        show_until="taken down by {day}",
        names="On the work",
        names_usual="School and grade, no last names.",
        no_last_names="No last names.",
        photographs="Photographs",
        with_release="Only of the work; of a child only with a signed release.",
        afterwards="Afterwards",
        late="If it is late",
        more="Also agreed",
        lesson="The work is made in a lesson with a subject of its own, without a logo; taking part is free. "
        "It endorses no business, product or service. The school does not insure the work while it is away.",
        taxes="No value is stated here. A business that trades may have tax duties of its own (IRS Topic 420): ask "
        "your adviser.",
        signs_for="for {name}",
        principal="Principal",
        approved="Approved for the school by {by} on {day}.",
        approved_before="Trades of the school were approved by {by} on {day}; the principal signs this one, too.",
        date="Date",
        page="page {page} of {pages}",
    ),
    "es": MemoWords(
        title="Lo que acordamos",
        version="Versión {number}",
        replaces="Reemplaza la del {day}.",
        between="{day}, entre {school} ({teacher}) y {partner} ({contact}).",
        between_alone="{day}, entre {school} ({teacher}) y {partner}.",
        makes="La escuela hace",
        gives={
            "business": "El negocio da",
            "arts_group": "El grupo de arte da",
            "library": "La biblioteca da",
            "civic_group": "El grupo cívico da",
            "grantmaker": "La fundación da",
            "family_group": "El grupo de familias da",
        },
        copies={
            "business": "Copia del negocio",
            "arts_group": "Copia del grupo de arte",
            "library": "Copia de la biblioteca",
            "civic_group": "Copia del grupo cívico",
            "grantmaker": "Copia de la fundación",
            "family_group": "Copia del grupo de familias",
        },
        our_copy="Copia de la escuela",
        by="a más tardar el {day}",
        carried="lo lleva: {carrier}",
        spares="con {percent} % de repuesto",
        materials="Materiales",
        show="Se expone",
        show_from="desde el {day}",
        show_until="se retira a más tardar el {day}",
        names="En la obra",
        names_usual="Escuela y grado, sin apellidos.",
        no_last_names="Sin apellidos.",
        photographs="Fotografías",
        with_release="Solo de la obra; de un niño solo con permiso firmado.",
        afterwards="Después",
        late="Si se retrasa",
        more="También acordado",
        lesson="La obra se hace en una clase con su propio tema, sin logotipos; participar es voluntario. "
        "No recomienda ningún negocio, producto ni servicio. La escuela no asegura la obra mientras está fuera.",
        taxes="Aquí no se declara ningún valor. Un negocio que intercambia puede tener obligaciones fiscales propias "
        "(IRS Topic 420): consulte a su asesor.",
        signs_for="por {name}",
        principal="Dirección de la escuela",
        approved="Por la escuela lo aprobó {by} el {day}.",
        approved_before="Los intercambios de la escuela los aprobó {by} el {day}; este lo firma también la dirección.",
        date="Fecha",
        page="página {page} de {pages}",
    ),
}

PLAN = {
    "en": PlanWords(
        wall="Who starts when",
        for_partner="for {partner}",
        ready="All ready by {day}",
        make="Make",
        children="Children",
        start="Start by",
        start_now="Start in the next lesson: not all of it fits by the day.",
        all_done="All done.",
        lessons="Lessons",
        minutes="Minutes",
        each="{minutes} for one",
        plain="Plain items",
        plain_each="{count}, spares included",
        materials="Materials",
        names="On the work",
        tally="So far",
        done_before="{count} done",
        spoiled_before="{count} spoiled",
        tick="Tick a box for each one that is done",
        tick_spoiled="And one for each that is spoiled",
        lines=("Day", "Done", "Spoiled"),
        klass="Class",
        items="Make",
        nobody="No class takes part yet.",
        not_all="start now",
        as_of="Plan of {day}",
        page="page {page} of {pages}",
    ),
    "es": PlanWords(
        wall="Quién empieza cuándo",
        for_partner="para {partner}",
        ready="Todo listo a más tardar el {day}",
        make="Hacer",
        children="Niños",
        start="Empezar el",
        start_now="Empezar en la próxima clase: no todo cabe antes de la fecha.",
        all_done="Todo está hecho.",
        lessons="Clases",
        minutes="Minutos",
        each="{minutes} para cada uno",
        plain="Sin decorar",
        plain_each="{count}, con los de repuesto",
        materials="Materiales",
        names="En la obra",
        tally="Hasta ahora",
        done_before="{count} hechos",
        spoiled_before="{count} echados a perder",
        tick="Marque una casilla por cada uno hecho",
        tick_spoiled="Y una por cada uno echado a perder",
        lines=("Día", "Hechos", "Echados a perder"),
        klass="Grupo",
        items="Hacer",
        nobody="Todavía no participa ningún grupo.",
        not_all="empezar ya",
        as_of="Plan del {day}",
        page="página {page} de {pages}",
    ),
}

NAME = "trade-memo"
BLANKS = ("partner", "person", "teacher", "school")
PARTS = (
    Part("title", _("Heading")),
    Part("makes", _("Label: what the school makes")),
    Part("materials", _("Label: materials")),
    Part("show", _("Label: on show")),
    Part("afterwards", _("Label: what happens afterwards")),
    Part("late", _("Label: if something is late")),
    Part("more", _("Label: what else is agreed")),
)
ALWAYS = ("no_last_names", "with_release", "lesson", "taxes")
