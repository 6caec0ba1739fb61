"""A piece in words: what it is, its foundation, its sections and their rows.

In: a ``PiecePlan``. Out: its heading and paragraphs.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric.plan import PiecePlan
from turnchain.wording.instructions.one_piece import of_piece
from turnchain.wording.instructions.rows import PieceInstructions, SectionInstructions
from turnchain.wording.row_phrases import block_paragraph
from turnchain.wording.speech import Speech, capital


def piece_paragraphs(speech: Speech, plan: PiecePlan) -> Iterator[str]:
    """The heading and the paragraphs of a piece."""
    piece = of_piece(plan)
    striped = len(piece.colours) > 1
    yield f"## {speech.named(piece.name)}"
    yield " ".join(_about(speech, piece))
    yield _foundation(speech, piece)
    for section in piece.sections:
        if section.after is not None:
            yield from _section_head(speech, piece, section)
        for block in section.blocks:
            yield block_paragraph(speech, block, striped)


def _about(speech: Speech, piece: PieceInstructions) -> Iterator[str]:
    yield speech.say("piece", rows=piece.row_count, worked=speech.say(f"worked.{piece.worked}"))
    if piece.count > 1:
        yield speech.say("make", n=piece.count)
    if len(piece.colours) == 1:
        yield speech.say("one_color", name=speech.named(piece.colours[0]))


def _foundation(speech: Speech, piece: PieceInstructions) -> str:
    made = piece.foundation
    clusters = next(piece.rows()).clusters
    slots: dict[str, str | int] = {
        "n": made.chains, "times": clusters, "multiple": made.multiple, "plus": made.plus
    }
    chain = (
        speech.say("foundation", **slots)
        if made.colour is None
        else speech.say("foundation.color", name=speech.named(made.colour), **slots)
    )
    return f"{chain} {speech.say('foundation.told', turning=made.turning)}"


def _section_head(speech: Speech, piece: PieceInstructions, section: SectionInstructions) -> Iterator[str]:
    yield f"### {capital(speech.section(section.name))}"
    assert section.after is not None, "only a section that divides has a heading"
    if not section.joined:
        first, last = section.first.number, section.blocks[-1].rows[-1].number
        ending = ".one" if first == last else ""
        yield speech.say(f"section.goes_on{ending}", after=section.after, first=first, last=last)
        return
    other = next(one for one in piece.sections if one.after == section.after and not one.joined)
    yield speech.say(
        "section.joined",
        after=section.after,
        side=speech[section.first.side],
        first=section.first.number,
        other=speech.section(other.name),
    )
