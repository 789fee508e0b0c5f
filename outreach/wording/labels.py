"""The few words that stand on labels and on the sheet that checks them."""

from __future__ import annotations

from typing import NamedTuple


class LabelWords(NamedTuple):
    title: str
    page: str
    check: str
    how: str
    first: str
    used: str


WORDS = {
    "en": LabelWords(
        title="Labels",
        page="Labels, sheet {page} of {pages}",
        check="Check how the labels lie",
        how="Printed at 100%, each frame lies on the edge of a label. Hold it with a label sheet against a window.",
        first="printing begins here",
        used="left free",
    ),
    "es": LabelWords(
        title="Etiquetas",
        page="Etiquetas, hoja {page} de {pages}",
        check="Compruebe la posición de las etiquetas",
        how="Impreso al 100 %, cada marco cae en el borde de una etiqueta. Compárela a contraluz con las etiquetas.",
        first="aquí empieza la impresión",
        used="queda libre",
    ),
}
