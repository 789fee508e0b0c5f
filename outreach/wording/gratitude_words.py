"""The sentences of a gratitude letter in each language. `gratitude` chooses among them and fills them in.

Spanish addresses a business in the plural and a person alone in the singular ("usted"); the verbs in braces follow.
"""

from dataclasses import dataclass

from partners.gifts.gift_facts import Form


@dataclass(frozen=True)
class LetterWords:
    """One language. `promised` and `given` open the letter by form of gift and end before the list of things."""

    to_both: str
    to_business: str
    to_person: str
    to_nobody: str
    promised: dict[Form, str]
    given: dict[Form, str]
    given_money_unknown: str
    our_side: str
    expect_us: str
    day_named: str
    back_by: str
    gift_will_reach: str
    help_will_reach: str
    part_will_reach: str
    gift_reaches: str
    help_reaches: str
    part_reaches: str
    said_yes: str
    closing: dict[Form, str]
    see_gift: str
    see_help: str


LETTER = {
    "en": LetterWords(
        to_both="Dear {contact} and everyone at {partner},",
        to_business="Dear friends at {partner},",
        to_person="Dear {contact},",
        to_nobody="Dear friends of our art room,",
        promised={
            "money": "Thank you for the {amount} you promised our students on {day}",
            "goods": "Thank you for what you promised our students on {day}",
            "service": "Thank you for the time and skill you promised our students on {day}",
            "space": "Thank you for the space you promised our students on {day}",
            "discount": "Thank you for the discount you promised our students on {day}",
            "loan": "Thank you for the loan you promised our students on {day}",
            "exchange": "Thank you for your side of the trade you agreed with our students on {day}",
        },
        given={
            "money": "Thank you for the {amount} you gave our students on {day}",
            "goods": "Thank you for what you gave our students on {day}",
            "service": "Thank you for the time and skill you gave our students on {day}",
            "space": "Thank you for the space you opened to our students on {day}",
            "discount": "Thank you for the discount you gave our students on {day}",
            "loan": "Thank you for what you lent our students on {day}",
            "exchange": "Thank you for keeping your side of our trade on {day}",
        },
        given_money_unknown="Thank you for the gift you made to our students on {day}",
        our_side="Our students’ side of it, for you: {back}.",
        expect_us="You can expect us to collect it on {day}.",
        day_named="The day you named is {day}.",
        back_by="You will have it back by {day}.",
        gift_will_reach="Your gift will reach {students}.",
        help_will_reach="Your help will reach {students}.",
        part_will_reach="Your part will reach {students}.",
        gift_reaches="Your gift reaches {students}.",
        help_reaches="Your help reaches {students}.",
        part_reaches="Your part reaches {students}.",
        said_yes="Because you said yes, the children can begin to plan their work.",
        closing={
            "money": "You gave children the means to make art of their own.",
            "goods": "You put good materials into children’s hands.",
            "service": "You gave our students what no store sells: your time.",
            "space": "You opened your doors to children.",
            "discount": "You made it easier for children to have what they work with.",
            "loan": "You trusted children with something of yours, and they treat it with care.",
            "exchange": "You treated our students as partners whose word counts.",
        },
        see_gift="If you would like to see what your gift becomes, call me and I will gladly show you.",
        see_help="If you would like to see what your help makes possible, call me and I will gladly show you.",
    ),
    "es": LetterWords(
        to_both="Apreciable {contact} y el equipo de {partner}:",
        to_business="Al equipo de {partner}:",
        to_person="Apreciable {contact}:",
        to_nobody="A quienes apoyan nuestra clase de arte:",
        promised={
            "money": "Gracias por los {amount} que {promised} a nuestros estudiantes el {day}",
            "goods": "Gracias por lo que {promised} a nuestros estudiantes el {day}",
            "service": "Gracias por el tiempo y el talento que {promised} a nuestros estudiantes el {day}",
            "space": "Gracias por el espacio que {promised} a nuestros estudiantes el {day}",
            "discount": "Gracias por el descuento que {promised} a nuestros estudiantes el {day}",
            "loan": "Gracias por el préstamo que {promised} a nuestros estudiantes el {day}",
            "exchange": "Gracias por su parte del intercambio que {agreed} con nuestros estudiantes el {day}",
        },
        given={
            "money": "Gracias por los {amount} que {gave} a nuestros estudiantes el {day}",
            "goods": "Gracias por lo que {gave} a nuestros estudiantes el {day}",
            "service": "Gracias por el tiempo y el talento que {gave} a nuestros estudiantes el {day}",
            "space": "Gracias por el espacio que {opened} a nuestros estudiantes el {day}",
            "discount": "Gracias por el descuento que {gave} a nuestros estudiantes el {day}",
            "loan": "Gracias por lo que {lent} a nuestros estudiantes el {day}",
            "exchange": "Gracias por cumplir su parte de nuestro intercambio el {day}",
        },
        given_money_unknown="Gracias por la donación que {made} a nuestros estudiantes el {day}",
        our_side="La parte de nuestros estudiantes, para {you}: {back}.",
        expect_us="{Can} esperarnos el {day}; pasaremos a recogerlo.",
        day_named="El día que {named} es el {day}.",
        back_by="Lo {will_have} de vuelta a más tardar el {day}.",
        gift_will_reach="Su donación llegará a {students}.",
        help_will_reach="Su ayuda llegará a {students}.",
        part_will_reach="Su parte llegará a {students}.",
        gift_reaches="Su donación llega a {students}.",
        help_reaches="Su ayuda llega a {students}.",
        part_reaches="Su parte llega a {students}.",
        said_yes="Porque {said} que sí, los niños ya pueden empezar a planear su trabajo.",
        closing={
            "money": "{Gave} a los niños los medios para crear su propio arte.",
            "goods": "{Put} buenos materiales en manos de los niños.",
            "service": "{Gave} a nuestros estudiantes algo que no se vende en ninguna tienda: su tiempo.",
            "space": "{Opened} sus puertas a los niños.",
            "discount": "Gracias a {you}, es más fácil que los niños tengan con qué trabajar.",
            "loan": "{Trusted} a los niños algo suyo, y ellos lo tratan con cuidado.",
            "exchange": "{Treated} a nuestros estudiantes como personas cuya palabra cuenta.",
        },
        see_gift="Si {wish} ver en qué se convierte su donación, {call} y con gusto se lo mostraré.",
        see_help="Si {wish} ver lo que su ayuda hace posible, {call} y con gusto se lo mostraré.",
    ),
}

SPANISH_FORMS = {
    "promised": ("prometió", "prometieron"),
    "agreed": ("acordó", "acordaron"),
    "gave": ("dio", "dieron"),
    "Gave": ("Dio", "Dieron"),
    "opened": ("abrió", "abrieron"),
    "Opened": ("Abrió", "Abrieron"),
    "lent": ("prestó", "prestaron"),
    "made": ("hizo", "hicieron"),
    "you": ("usted", "ustedes"),
    "Can": ("Puede", "Pueden"),
    "named": ("eligió", "eligieron"),
    "will_have": ("tendrá", "tendrán"),
    "said": ("dijo", "dijeron"),
    "Put": ("Puso", "Pusieron"),
    "Trusted": ("Confió", "Confiaron"),
    "Treated": ("Trató", "Trataron"),
    "wish": ("desea", "desean"),
    "call": ("llámeme", "llámenme"),
}
"""Singular and plural of each verb, for a person alone and for a business."""
