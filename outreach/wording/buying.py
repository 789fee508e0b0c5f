"""The words of the buying slip in each language."""

from dataclasses import dataclass


@dataclass(frozen=True)
class SlipWords:
    title: str
    no_tax: str
    tax: str
    ask: str
    teacher_asks: str
    buyer: str
    for_school: str
    ein: str
    certificate: str
    until: str
    shop: str
    what: str
    about: str
    pays: str
    payers: dict[str, str]
    agent: str
    approved: str
    order: str
    paid_from: str
    person: str
    bring: str
    bring_items: tuple[str, ...]
    bring_certificate: str
    bring_order: str
    shows: str
    show_items: tuple[str, ...]
    show_no_tax: str
    hand_in: str
    hand_in_by: str
    caution: str
    page: str


SLIP = {
    "en": SlipWords(
        title="Buying slip",
        no_tax="Tax-exempt: please charge no sales tax.",
        tax="Sales tax is to be paid on this purchase.",
        ask="Ask the business office first whether sales tax is due.",
        teacher_asks="(For the teacher: Ask the business office first whether this purchase is exempt.)",
        buyer="Buyer",
        for_school="For",
        ein="EIN",
        certificate="Exemption certificate",
        until="{number}, {state}, valid until {day}",
        shop="Shop",
        what="What",
        about="About",
        pays="Paid by",
        payers={
            "order": "the school, by purchase order",
            "school_card": "the school's own card or account",
            "petty_cash": "petty cash of the school office",
            "own": "the teacher, with own money",
        },
        agent="the teacher, whom the school authorized in writing",
        approved="Approved by",
        order="Purchase order",
        paid_from="Paid from",
        person="Buys for the school",
        bring="Take along",
        bring_items=("school ID", "the approval in writing"),
        bring_certificate="the certificate, signed and made out with the shop's name",
        bring_order="the purchase order, or the school's card",
        shows="The receipt must show",
        show_items=(
            "the shop's name and the day",
            "every item with its price",
            "the sales tax as a line of its own",
            "the total, and how it was paid",
        ),
        show_no_tax="no sales tax, or a line that says 0.00",
        hand_in="Hand in the receipt",
        hand_in_by="within {days} days of buying, and before the fiscal year ends",
        caution="Not tax advice. The business office of the school decides.",
        page="page {page} of {pages}",
    ),
    "es": SlipWords(
        title="Hoja de compra",
        no_tax="Exento de impuesto: por favor, no cobre el impuesto de venta.",
        tax="Esta compra paga impuesto de venta.",
        ask="Pregunte antes a la oficina si se debe impuesto de venta.",
        teacher_asks="(Para quien compra: pregunte antes a la oficina si esta compra está exenta.)",
        buyer="Comprador",
        for_school="Para",
        ein="EIN",
        certificate="Certificado de exención",
        until="{number}, {state}, válido hasta el {day}",
        shop="Tienda",
        what="Qué",
        about="Aproximadamente",
        pays="Paga",
        payers={
            "order": "la escuela, con orden de compra",
            "school_card": "la tarjeta o cuenta de la escuela",
            "petty_cash": "la caja chica de la oficina",
            "own": "la maestra o el maestro, con dinero propio",
        },
        agent="la maestra o el maestro, con autorización escrita de la escuela",
        approved="Aprobado por",
        order="Orden de compra",
        paid_from="Se paga de",
        person="Compra para la escuela",
        bring="Llevar",
        bring_items=("identificación de la escuela", "la aprobación por escrito"),
        bring_certificate="el certificado, firmado y a nombre de la tienda",
        bring_order="la orden de compra o la tarjeta de la escuela",
        shows="El recibo debe mostrar",
        show_items=(
            "el nombre de la tienda y la fecha",
            "cada artículo con su precio",
            "el impuesto de venta en una línea aparte",
            "el total y cómo se pagó",
        ),
        show_no_tax="ningún impuesto de venta, o una línea que dice 0.00",
        hand_in="Entregar el recibo",
        hand_in_by="dentro de {days} días de la compra, y antes de que termine el año fiscal",
        caution="Esto no es consejo sobre impuestos. Decide la oficina de la escuela.",
        page="página {page} de {pages}",
    ),
}
