"""Plain names for actives and forms: what a sentence says of a treatment."""

from __future__ import annotations

AGENTS = {
    "amitraz": "amitraz",
    "tau_fluvalinate": "tau-fluvalinate",
    "flumethrin": "flumethrin",
    "coumaphos": "coumaphos",
    "formic_acid": "formic acid",
    "oxalic_acid": "oxalic acid",
    "thymol": "thymol",
    "hop_acids": "hop acid",
    "lactic_acid": "lactic acid",
    "vadescana": "vadescana",
}
"""Actives of the record contract and their plain names."""

_PLURAL = {"strip": "strips", "pad": "pads", "wafer": "wafers", "sponge": "sponges"}


def treatment_name(agent: str | None, form: str | None, product: str | None = None) -> str:
    """What was given, in words: "amitraz strips", "thymol gel"; the outfit's own word where no more is known."""
    active = AGENTS.get(agent or "", "")
    shape = _PLURAL.get(form or "", form or "")
    name = f"{active} {shape}".strip()
    return name or product or "treatment"


def is_many(form: str | None) -> bool:
    """Whether the name of this form is a plural ("strips are in", but "gel is in")."""
    return form in _PLURAL
