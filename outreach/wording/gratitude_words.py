"""The sentences of a gratitude letter in each language. `gratitude` chooses among them and fills them in.

Spanish addresses a business in the plural and a person alone in the singular ("usted"); blanks for its verbs follow.
"""

from dataclasses import dataclass

from django.utils.translation import gettext_lazy as _

from outreach.wording.own_words import Part
from partners.gifts.gift_facts import Form


@dataclass(frozen=True)
class LetterWords:
    """One language. `promised` and `given` open the letter by form of gift."""

    to_both: str
    to_business: str
    to_person: str
    to_nobody: str
    promised: dict[Form, str]
    given: dict[Form, str]
    given_money_unknown: str
    what_for: str
    meant_for: str
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
        to_both="Dear [person] and everyone at [giver],",
        to_business="Dear friends at [giver],",
        to_person="Dear [person],",
        to_nobody="Dear friends of our art room,",
        promised={
            "money": "Thank you for the [amount] you promised our students on [day].",
            "goods": "Thank you for what you promised our students on [day]: [their promise].",
            "service": "Thank you for the time and skill you promised our students on [day]: [their promise].",
            "space": "Thank you for the space you promised our students on [day]: [their promise].",
            "discount": "Thank you for the discount you promised our students on [day]: [their promise].",
            "loan": "Thank you for the loan you promised our students on [day]: [their promise].",
            "exchange": "Thank you for your side of the trade you agreed with our students on [day]: [their promise].",
        },
        given={
            "money": "Thank you for the [amount] you gave our students on [day].",
            "goods": "Thank you for what you gave our students on [day]: [what came].",
            "service": "Thank you for the time and skill you gave our students on [day]: [what came].",
            "space": "Thank you for the space you opened to our students on [day]: [what came].",
            "discount": "Thank you for the discount you gave our students on [day]: [what came].",
            "loan": "Thank you for what you lent our students on [day]: [what came].",
            "exchange": "Thank you for keeping your side of our trade on [day]: [what came].",
        },
        given_money_unknown="Thank you for the gift you made to our students on [day].",
        what_for="You said what it is for: [purpose].",
        meant_for="It is meant for [asked for].",
        our_side="Our students’ side of it, for you: [our side].",
        expect_us="You can expect us to collect it on [day named].",
        day_named="The day you named is [day named].",
        back_by="You will have it back by [return day].",
        gift_will_reach="[what it became] Your gift will reach [children].",
        help_will_reach="[what it became] Your help will reach [children].",
        part_will_reach="[what it became] Your part will reach [children].",
        gift_reaches="[what it became] Your gift reaches [children].",
        help_reaches="[what it became] Your help reaches [children].",
        part_reaches="[what it became] Your part reaches [children].",
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
        to_both="Apreciable [person] y el equipo de [giver]:",
        to_business="Al equipo de [giver]:",
        to_person="Apreciable [person]:",
        to_nobody="A quienes apoyan nuestra clase de arte:",
        promised={
            "money": "Gracias por los [amount] que [prometió] a nuestros estudiantes el [day].",
            "goods": "Gracias por lo que [prometió] a nuestros estudiantes el [day]: [their promise].",
            "service": (
                "Gracias por el tiempo y el talento que [prometió] a nuestros estudiantes el [day]: [their promise]."
            ),
            "space": "Gracias por el espacio que [prometió] a nuestros estudiantes el [day]: [their promise].",
            "discount": "Gracias por el descuento que [prometió] a nuestros estudiantes el [day]: [their promise].",
            "loan": "Gracias por el préstamo que [prometió] a nuestros estudiantes el [day]: [their promise].",
            "exchange": (
                "Gracias por su parte del intercambio que [acordó] con nuestros estudiantes el [day]: [their promise]."
            ),
        },
        given={
            "money": "Gracias por los [amount] que [dio] a nuestros estudiantes el [day].",
            "goods": "Gracias por lo que [dio] a nuestros estudiantes el [day]: [what came].",
            "service": "Gracias por el tiempo y el talento que [dio] a nuestros estudiantes el [day]: [what came].",
            "space": "Gracias por el espacio que [abrió] a nuestros estudiantes el [day]: [what came].",
            "discount": "Gracias por el descuento que [dio] a nuestros estudiantes el [day]: [what came].",
            "loan": "Gracias por lo que [prestó] a nuestros estudiantes el [day]: [what came].",
            "exchange": "Gracias por cumplir su parte de nuestro intercambio el [day]: [what came].",
        },
        given_money_unknown="Gracias por la donación que [hizo] a nuestros estudiantes el [day].",
        what_for="Nos [dijo] para qué es: [purpose].",
        meant_for="Es para [asked for].",
        our_side="La parte de nuestros estudiantes, para [usted]: [our side].",
        expect_us="[puede] esperarnos el [day named]; pasaremos a recogerlo.",
        day_named="El día que [eligió] es el [day named].",
        back_by="Lo [tendrá] de vuelta a más tardar el [return day].",
        gift_will_reach="[what it became] Su donación llegará a [children].",
        help_will_reach="[what it became] Su ayuda llegará a [children].",
        part_will_reach="[what it became] Su parte llegará a [children].",
        gift_reaches="[what it became] Su donación llega a [children].",
        help_reaches="[what it became] Su ayuda llega a [children].",
        part_reaches="[what it became] Su parte llega a [children].",
        said_yes="Porque [dijo] que sí, los niños ya pueden empezar a planear su trabajo.",
        closing={
            "money": "[dio] a los niños los medios para crear su propio arte.",
            "goods": "[puso] buenos materiales en manos de los niños.",
            "service": "[dio] a nuestros estudiantes algo que no se vende en ninguna tienda: su tiempo.",
            "space": "[abrió] sus puertas a los niños.",
            "discount": "Gracias a [usted], es más fácil que los niños tengan con qué trabajar.",
            "loan": "[confió] a los niños algo suyo, y ellos lo tratan con cuidado.",
            "exchange": "[trató] a nuestros estudiantes como personas cuya palabra cuenta.",
        },
        see_gift="Si [desea] ver en qué se convierte su donación, [llámeme] y con gusto se lo mostraré.",
        see_help="Si [desea] ver lo que su ayuda hace posible, [llámeme] y con gusto se lo mostraré.",
    ),
}

SPOKEN_TO = (
    ("prometió", "prometieron"),
    ("acordó", "acordaron"),
    ("dio", "dieron"),
    ("abrió", "abrieron"),
    ("prestó", "prestaron"),
    ("hizo", "hicieron"),
    ("usted", "ustedes"),
    ("puede", "pueden"),
    ("eligió", "eligieron"),
    ("tendrá", "tendrán"),
    ("dijo", "dijeron"),
    ("puso", "pusieron"),
    ("confió", "confiaron"),
    ("trató", "trataron"),
    ("desea", "desean"),
    ("llámeme", "llámenme"),
    ("contarle", "contarles"),
    ("agradecerle", "agradecerles"),
)
"""Spanish verbs for a person alone and for a business; the first is the name of the blank."""

DELIVERY, PROMISE = "gratitude-letter", "thanks-note"
BLANKS = ("giver", "person", "teacher", "school", "day", "children", "what it became")
_GREETINGS = (
    Part("to_both", _("Greeting, to a place where you know somebody")),
    Part("to_business", _("Greeting, to a place where you know nobody")),
    Part("to_person", _("Greeting, to a person")),
    Part("to_nobody", _("Greeting where nobody is named")),
)
_MEANT_FOR = Part("meant_for", _("What you had asked the money for"), ("asked for",))
_OUR_SIDE = Part("our_side", _("Our side of a trade"), ("our side",))
DELIVERY_PARTS = (
    *_GREETINGS,
    Part("given.goods", _("Thanks for things that came"), ("what came",)),
    Part("given.money", _("Thanks for money that came"), ("amount", "what came")),
    Part("given.service", _("Thanks for time and skill"), ("what came",)),
    Part("given.space", _("Thanks for a space"), ("what came",)),
    Part("given.discount", _("Thanks for a discount"), ("what came",)),
    Part("given.loan", _("Thanks for a loan"), ("what came",)),
    Part("given.exchange", _("Thanks for their side of a trade"), ("what came",)),
    Part("what_for", _("What the giver wants it used for"), ("purpose",)),
    _MEANT_FOR,
    _OUR_SIDE,
    Part("back_by", _("When a loan goes back"), ("return day",)),
    Part("gift_reaches", _("What the gift became, and for how many")),
    Part("help_reaches", _("What the help became, and for how many")),
    Part("part_reaches", _("What their side of a trade became, and for how many")),
    Part("closing.goods", _("Last paragraph, for things"), may_go=True),
    Part("closing.money", _("Last paragraph, for money"), may_go=True),
    Part("closing.service", _("Last paragraph, for time and skill"), may_go=True),
    Part("closing.space", _("Last paragraph, for a space"), may_go=True),
    Part("closing.discount", _("Last paragraph, for a discount"), may_go=True),
    Part("closing.loan", _("Last paragraph, for a loan"), may_go=True),
    Part("closing.exchange", _("Last paragraph, for a trade"), may_go=True),
    Part("see_gift", _("Last sentence, after a gift"), may_go=True),
    Part("see_help", _("Last sentence, after help or a trade"), may_go=True),
)
PROMISE_PARTS = (
    *_GREETINGS,
    Part("promised.goods", _("Thanks for things that are promised"), ("their promise",)),
    Part("promised.money", _("Thanks for money that is promised"), ("amount", "their promise")),
    Part("promised.exchange", _("Thanks for their side of a trade"), ("their promise",)),
    _MEANT_FOR,
    _OUR_SIDE,
    Part("expect_us", _("The day you collect it"), ("day named",)),
    Part("day_named", _("The day they named"), ("day named",)),
    Part("gift_will_reach", _("For how many the gift will be")),
    Part("part_will_reach", _("For how many their side of a trade will be")),
    Part("said_yes", _("Last paragraph")),
)
