"""Spanish for what households have to spare, to begin with; the teacher's own Spanish goes before it.

Plain words as families in the US use them; not yet read by anybody whose first language it is.
"""

from __future__ import annotations

from partners.ground.names import fold

_SPANISH = {
    "egg cartons": "cartones de huevos",
    "paper towel tubes": "tubos de toallas de papel",
    "cardboard tubes": "tubos de cartón",
    "cardboard": "cartón",
    "cardboard boxes": "cajas de cartón",
    "shoe boxes": "cajas de zapatos",
    "cereal boxes": "cajas de cereal",
    "yarn": "estambre",
    "wool": "lana",
    "buttons": "botones",
    "beads": "cuentas",
    "yogurt cups": "vasos de yogur",
    "jar lids": "tapas de frascos",
    "bottle caps": "tapas de botellas",
    "magazines": "revistas",
    "newspapers": "periódicos",
    "newspaper": "periódico",
    "fabric scraps": "retazos de tela",
    "cloth scraps": "retazos de tela",
    "fabric": "tela",
    "old shirts": "camisas viejas",
    "old t-shirts": "camisetas viejas",
    "smocks": "delantales",
    "socks": "calcetines",
    "ribbon": "listón",
    "string": "cordel",
    "corks": "corchos",
    "coffee cans": "latas de café",
    "cans": "latas",
    "plastic containers": "envases de plástico",
    "containers with lids": "envases con tapa",
    "wrapping paper": "papel de regalo",
    "paper bags": "bolsas de papel",
    "old keys": "llaves viejas",
    "old calendars": "calendarios viejos",
    "maps": "mapas",
    "toothbrushes": "cepillos de dientes",
    "old toothbrushes": "cepillos de dientes viejos",
    "sponges": "esponjas",
    "trays": "bandejas",
    "pebbles": "piedritas",
    "pine cones": "piñas de pino",
    "leaves": "hojas secas",
    "pressed leaves": "hojas prensadas",
    "seeds": "semillas",
    "glass jars": "frascos de vidrio",
    "glass": "vidrio",
    "toilet paper tubes": "tubos de papel higiénico",
    "food": "comida",
    "paint": "pintura",
    "aerosols": "aerosoles",
    "spray paint": "pintura en aerosol",
    "foam trays": "bandejas de espuma",
    "sharp things": "cosas con filo",
    "medicine bottles": "frascos de medicina",
    "batteries": "pilas",
    "plastic jars with lids": "frascos de plástico con tapa",
    "yarn ends": "restos de estambre",
    "food containers with any residue": "envases con restos de comida",
    "glass, sharp metal, batteries": "vidrio, metal con filo, pilas",
    "latex balloons and gloves": "globos y guantes de látex",
    "old or unlabeled paint, glue, dye or glaze": "pintura, pegamento, tinte o esmalte, viejos o sin etiqueta",
}
# What a thing should be like, or why it cannot be used; in words that fit whatever it is of.
_NOTES = {
    "clean": "sin suciedad",
    "clean and dry": "sin suciedad ni humedad",
    "dry": "sin humedad",
    "washed": "después de lavar",
    "rinsed": "después de enjuagar",
    "empty": "sin contenido",
    "no food residue": "sin restos de comida",
    "no residue": "sin residuos",
    "no glass": "sin vidrio",
    "without glass": "sin vidrio",
    "no nails": "sin clavos",
    "no staples": "sin grapas",
    "with lids": "con tapa",
    "without lids": "sin tapa",
    "paper ones": "de papel",
    "wide mouth": "de boca ancha",
    "any color": "de cualquier color",
    "any size": "de cualquier tamaño",
    "any length": "de cualquier largo",
    "any kind": "de cualquier tipo",
    "for smocks": "para delantales",
    "allergies": "por alergias",
    "they break": "se rompen",
    "it breaks": "se rompe",
    "sharp edges": "tienen filo",
    "children handle everything": "los niños tocan todo",
    "we cannot tell what is in it": "no sabemos qué contiene",
    "not safe for children": "es un peligro para los niños",
}
_BY_KEY = {fold(english): spanish for english, spanish in _SPANISH.items()}


_NOTES_BY_KEY = {fold(english): spanish for english, spanish in _NOTES.items()}


def spanish_of(english: str) -> str:
    """The Spanish of a thing; "" where it is not in the list."""
    return _BY_KEY.get(fold(english), "")


def with_note(english: str, note: str) -> str:
    """As `spanish_of`, with its note. A note that is not known to the last part stays as it is: what must be clean, or
    harms somebody, is better read in English than not at all.
    """
    spanish = spanish_of(english)
    if not spanish or not note:
        return spanish
    parts = [_NOTES_BY_KEY.get(fold(part), "") for part in note.split(",")]
    return f"{spanish} ({', '.join(parts) if all(parts) else note})"
