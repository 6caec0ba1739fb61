"""What a piece begins with, in a phrase: a chain of its own, the chains of another piece, or stitches along an armhole.

In: a speech, the key of a phrase and a piece. Out: the phrase, of which there are three.
"""

from __future__ import annotations

from turnchain.fabric import stitches
from turnchain.fabric.plan import PiecePlan
from turnchain.pattern import ON_ARMHOLE
from turnchain.wording.languages.language import Speech


def said(speech: Speech, key: str, piece: PiecePlan, **slots: str | int) -> str:
    """The phrase ``key``, or ``key`` with ".on" or ".armhole": ``n`` are the chains to make, ``base`` the stitches
    there are already, ``other`` the piece that has them; other ``slots`` as they are."""
    if not piece.begun_on:
        return speech.say(key, n=piece.foundation_chain, **slots)
    turning = first_turning(piece)
    if piece.begun_on == ON_ARMHOLE:
        return speech.say(f"{key}.armhole", n=turning, base=piece.foundation_chain - turning, **slots)
    return speech.say(f"{key}.on", n=turning, base=piece.foundation_chain - turning, other=piece.begun_on, **slots)


def first_turning(piece: PiecePlan) -> int:
    """The chains of row 1's turning chain."""
    first = piece.rows[0]
    return stitches.first_turning(piece.recipe, first.edge(first.starts).kind)


def made(piece: PiecePlan) -> int:
    """The chains that are made before row 1."""
    return first_turning(piece) if piece.begun_on else piece.foundation_chain
