"""The words of mails to helpers: a week before, a day before, when somebody is still missing, and thanks afterwards."""

from __future__ import annotations

from typing import NamedTuple

from django.utils.translation import gettext_lazy as _

from outreach.wording.own_words import OwnWords, Part, Voice

WEEK, DAY, SHORT, CAME = "week", "day", "short", "thanks"


class MailWords(NamedTuple):
    subject: str
    greeting: str
    first: str
    last: str


THANKS = {"en": "Thank you,", "es": "Gracias,"}
MAIL: dict[str, dict[str, MailWords]] = {
    "en": {
        WEEK: MailWords(
            subject="Next week: [job], [day]",
            greeting="Dear helpers,",
            first="Thank you for saying yes. We expect you here:",
            last="A card with every step will lie ready. Can you not come after all? [how to reach you]",
        ),
        DAY: MailWords(
            subject="Soon: [job], [day]",
            greeting="Dear helpers,",
            first="Thank you for coming. Here is the time and the place once more:",
            last="A card with every step will lie ready. Is something in the way? [how to reach you]",
        ),
        SHORT: MailWords(
            subject="Helpers wanted: [job], [day]",
            greeting="Hello,",
            first="[how many are missing] for this:",
            last="Would you like to come? [how to reach you] If it does not suit you, you need not answer.",
        ),
        CAME: MailWords(
            subject="Thank you: [job], [day]",
            greeting="Dear helpers,",
            first="Thank you for your time and your hands. You helped us here:",
            last="Because of you, our students’ work is where others can see and use it.",
        ),
    },
    "es": {
        WEEK: MailWords(
            subject="La próxima semana: [job], [day]",
            greeting="Buenos días:",
            first="Gracias por decir que sí. Contamos con usted aquí:",
            last="Habrá una tarjeta con cada paso. ¿No puede venir? [how to reach you]",
        ),
        DAY: MailWords(
            subject="Pronto: [job], [day]",
            greeting="Buenos días:",
            first="Gracias por venir. Le recordamos la hora y el lugar:",
            last="Habrá una tarjeta con cada paso. ¿Surgió algo? [how to reach you]",
        ),
        SHORT: MailWords(
            subject="Buscamos ayudantes: [job], [day]",
            greeting="Buenos días:",
            first="[how many are missing] para esto:",
            last="¿Le gustaría venir? [how to reach you] Si no le conviene, no hace falta que responda.",
        ),
        CAME: MailWords(
            subject="Gracias: [job], [day]",
            greeting="Buenos días:",
            first="Gracias por su tiempo y por su trabajo. Nos ayudó aquí:",
            last="Gracias a usted, el trabajo de nuestros estudiantes está donde otros lo ven y lo usan.",
        ),
    },
}
REACH = {
    "en": ("Answer this mail or call {phone}.", "Answer this mail."),
    "es": ("Responda a este correo o llame al {phone}.", "Responda a este correo."),
}
_NUMBERS = {
    "en": ("One", "Two", "Three", "Four", "Five", "Six"),
    "es": ("una", "dos", "tres", "cuatro", "cinco", "seis"),
}


NAMES = {
    WEEK: "mail-week-before",
    DAY: "mail-day-before",
    SHORT: "mail-helpers-wanted",
    CAME: "mail-thanks-after",
}
BLANKS = ("job", "day", "teacher", "school", "how to reach you", "how many are missing")
PARTS = (
    Part("subject", _("Subject")),
    Part("greeting", _("Greeting")),
    Part("first", _("First sentence")),
    Part("last", _("Last sentences")),
)


def voice(kind: str, language: str, own: OwnWords, values: dict[str, str]) -> Voice:
    return Voice(NAMES[kind], language, MAIL[language][kind], own, values)


def missing_words(missing: int, language: str) -> str:
    """
    >>> missing_words(1, "en"), missing_words(2, "en"), missing_words(9, "en")
    ('One helper is still missing', 'Two helpers are still missing', '9 helpers are still missing')
    >>> missing_words(1, "es"), missing_words(2, "es")
    ('Falta una persona', 'Faltan dos personas')
    """
    small = _NUMBERS[language]
    told = small[missing - 1] if 1 <= missing <= len(small) else str(missing)
    if language == "es":
        return f"Falta {told} persona" if missing == 1 else f"Faltan {told} personas"
    return f"{told} helper is still missing" if missing == 1 else f"{told} helpers are still missing"


def reach_words(phone: str, language: str) -> str:
    with_phone, alone = REACH[language]
    return with_phone.format(phone=phone) if phone else alone
