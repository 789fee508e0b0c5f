"""The words of the receipt for a delivery of a trade, in the languages that letters are written in."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class ReceiptWords:
    title: str
    received: str
    what_for: str
    agreed: str
    so_far: str
    to_come: str
    went_back: str
    unused: str
    from_: str
    to: str
    carried: str
    handed: str
    took: str
    date: str
    one_each: str
    page: str


RECEIPT = {
    "en": ReceiptWords(
        title="Receipt",
        received="Received on {day}",
        what_for="Part of the trade",
        agreed="Agreed",
        so_far="So far, with this",
        to_come="Still to come",
        went_back="Given back unused",
        unused="{what}, given back unused",
        from_="From",
        to="To",
        carried="Brought by",
        handed="Handed over, for {name}",
        took="Received, for {name}",
        date="Date",
        one_each="One half stays with each side.",
        page="page {page} of {pages}",
    ),
    "es": ReceiptWords(
        title="Recibo",
        received="Recibido el {day}",
        what_for="Parte del intercambio",
        agreed="Acordado",
        so_far="Hasta ahora, con esto",
        to_come="Todavía falta",
        went_back="Devueltos sin usar",
        unused="{what}, devueltos sin usar",
        from_="De",
        to="Para",
        carried="Lo trajo",
        handed="Entregado, por {name}",
        took="Recibido, por {name}",
        date="Fecha",
        one_each="Cada parte guarda una mitad.",
        page="página {page} de {pages}",
    ),
}
