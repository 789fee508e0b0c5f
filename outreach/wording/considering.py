"""The words of a short note to somebody who said no, or not this year: thanks for considering it, and nothing else."""

from __future__ import annotations

PARAGRAPHS = {
    "en": (
        "Thank you for taking the time to hear about our art program and for giving it your thought.",
        "We know how many people ask you for something. Your kind and clear answer is a help to us too.",
        "You are always welcome to come and see what the students make.",
    ),
    "es": (
        "Gracias por tomarse el tiempo de escuchar sobre nuestro programa de arte y por considerarlo.",
        "Sabemos cuántas personas le piden algo. Su respuesta amable y clara también nos ayuda.",
        "Siempre será una alegría recibir su visita para ver lo que hacen los estudiantes.",
    ),
}


def paragraphs(language: str) -> tuple[str, ...]:
    """The note in `language` ("en" or "es")."""
    return PARAGRAPHS[language]
