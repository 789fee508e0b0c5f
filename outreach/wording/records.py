"""The lines of a letter that a giver keeps for the tax file, as the published rules want them.

What must and must not be said is decided in `partners.gifts.letter_rules`; here it is put into words.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class RecordWords:
    heading: str
    money: str
    payment: str
    goods: str
    as_listed: str
    loan: str
    loan_until: str
    trade: str
    to_receiver: str
    nothing_back: str
    back: str
    estimate: str
    trifle: str
    limited: str
    no_gift_part: str
    giver_values: str
    trade_adviser: str
    adviser: str
    number: str
    receipts: str
    enclosed: str
    closing: str
    title: str
    title_alone: str
    running: str
    draft: str
    page: str


RECORDS = {
    "en": RecordWords(
        heading="For your records",
        money="Gift of money: {amount}, given on {day}{receiver}.",
        payment="Payment: {amount}, made on {day}{receiver}.",
        goods="Goods given on {day}{receiver}: {items}.",
        as_listed="as listed above",
        loan="Lent on {day}{receiver}: {items}.",
        loan_until="To be returned by {day}.",
        trade="Given in our trade on {day}{receiver}: {items}.",
        to_receiver=", to {receiver}",
        nothing_back="No goods or services were given in return for this gift.",
        back="In return: {back}.",
        estimate="Our good-faith estimate of its value: {estimate}.",
        trifle="In return: {back}, a token of insubstantial value.",
        limited="What may be deducted is limited to the payment less that value: {part}.",
        no_gift_part="That value reaches the payment, so no part of it is a gift.",
        giver_values="Putting a figure on goods is up to the giver, not the school.",
        trade_adviser="This was a trade, which can have tax duties of its own; please ask your adviser.",
        adviser="This letter is not tax advice; your own adviser can tell you what it means for you.",
        number="{receiver}, EIN {number}.",
        receipts="Receipts are issued by {office}.",
        enclosed="Enclosed: {things}",
        closing="With thanks,",
        title="Thank-you letter to {partner}",
        title_alone="Thank-you letter",
        running="To {partner}, {day}",
        draft="DRAFT",
        page="page {page} of {pages}",
    ),
    "es": RecordWords(
        heading="Para sus archivos",
        money="Donación en dinero: {amount}, entregada el {day}{receiver}.",
        payment="Pago: {amount}, hecho el {day}{receiver}.",
        goods="Bienes donados el {day}{receiver}: {items}.",
        as_listed="los de la lista de arriba",
        loan="Prestado el {day}{receiver}: {items}.",
        loan_until="Se devuelve a más tardar el {day}.",
        trade="Entregado en nuestro intercambio el {day}{receiver}: {items}.",
        to_receiver=" a {receiver}",
        nothing_back="No se entregaron bienes ni servicios a cambio de esta donación.",
        back="A cambio: {back}.",
        estimate="Nuestra estimación de buena fe de su valor: {estimate}.",
        trifle="A cambio: {back}, un detalle de valor insignificante.",
        limited="Lo que se puede deducir se limita al pago menos ese valor: {part}.",
        no_gift_part="Ese valor alcanza el pago, así que ninguna parte es una donación.",
        giver_values="Cuánto valen los bienes lo decide quien los dona, no la escuela.",
        trade_adviser="Esto fue un intercambio; puede tener sus propias obligaciones fiscales: consulte a su asesor.",
        adviser="Esta carta no es asesoría fiscal; su propio asesor puede decirle qué significa en su caso.",
        number="{receiver}, EIN {number}.",
        receipts="Los recibos los emite {office}.",
        enclosed="Adjunto: {things}",
        closing="Con agradecimiento,",
        title="Carta de agradecimiento a {partner}",
        title_alone="Carta de agradecimiento",
        running="A {partner}, {day}",
        draft="BORRADOR",
        page="página {page} de {pages}",
    ),
}
