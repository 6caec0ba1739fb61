"""A piece in words, and what goes before the rows: the stitches that need explaining, and how to read the rows.

In: a ``PiecePlan``, and a ``Speech``. Out: a heading and paragraphs; and, once its rows have been said, a sentence or
two for everything that was used.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.fabric.recipe import Recipe
from turnchain.pattern import ON_ARMHOLE
from turnchain.wording.instructions.one_piece import of_piece
from turnchain.wording.instructions.rows import Foundation, PieceInstructions, SectionInstructions
from turnchain.wording.languages.language import Speech, capital
from turnchain.wording.naming import inside
from turnchain.wording.row_phrases import block_paragraph


def specials(speech: Speech, plan: Plan) -> Iterator[str]:
    """A sentence or more for each stitch of the pattern that needs explaining: cluster, space, turning chain, base and
    edge stitch, as far as they are used. The rows must have been said by ``speech`` before, since they
    show what is used."""
    recipe = plan.recipe
    starts = {row.edge(row.starts).kind for piece in plan.pieces for row in piece.rows}
    k = recipe.unit_width
    chained = "special.cl.chain" if recipe.gap else "special.cl.chain.closed"
    if recipe.stacked and k > 1:
        yield speech.say("special.v" if recipe.inner else "special.shell", inside=inside(speech, recipe))
    elif k == 1:
        yield speech.say("special.each" if recipe.stacked else "special.single")
    else:
        chained = "special.cl.together" if recipe.together else chained
        yield f"{speech.say('special.cl', k=k)} {speech.say(chained, k=k)}"
    open_start = recipe.edge_chains > 0 and "spaced" in starts
    if recipe.stacked and "sp" in speech.used:
        yield speech.say("special.sp.units")
    elif recipe.slit:
        yield speech.say("special.sp.slit")
    elif not recipe.stacked and ("sp" in speech.used or open_start):
        yield speech.say("special.sp.open" if recipe.gap else "special.sp.closed")
    if "in.half" in speech.said:
        yield speech.say("special.half")
    if "work.together" in speech.said:
        yield speech.say("special.together")
    if recipe.bare:
        yield speech.say("special.bare")
        yield _turning_chain_of_bare(speech, recipe)
    else:
        yield _turning_chain(speech, recipe, open_start)
    if "work.with_chain" in speech.said:
        yield speech.say("special.with_chain", n=recipe.stitch.turning - 1)
    used = {row.kind for piece in plan.pieces for row in piece.rows}
    solids = [rule for rule in recipe.solids if rule.name in used]
    for rule in solids:
        counts = "counts" if rule.counts else "apart"
        yield speech.say(f"special.solid.{counts}", stitch=speech.stitch(rule.name), n=rule.turning)
    if "in.base" in speech.said:
        yield speech.say("special.base")
    if speech.said & {"in.edge", "skip_edge", "leave.edge", "in.half", "in.beside"} and not recipe.bare:
        counting = {rule.counts for rule in (recipe.stitch, *solids)}
        mixed = "special.edge.mixed" if True in counting else "special.edge.mixed.apart"
        plain = "special.edge" if recipe.stitch.counts else "special.edge.apart"
        yield speech.say(mixed if solids else plain)


def _turning_chain(speech: Speech, recipe: Recipe, open_start: bool) -> str:
    """What a turning chain stands for; ``open_start``: rows start spaced, with chains."""
    chains = recipe.stitch.turning
    if not recipe.stitch.counts:
        return speech.say("special.tch.apart", n=chains)
    top, more = speech.nth(chains), chains + recipe.edge_chains
    if not open_start:
        return speech.say("special.tch.3", top=top, n=chains)
    if recipe.stacked:
        return speech.say("special.tch.beside", top=top, n=chains, more=more)
    key = "special.tch.4" if recipe.edge_chains == 1 else "special.tch.more"
    return speech.say(key, nth=speech.nth(more), top=top, n=chains, more=more)


def _turning_chain_of_bare(speech: Speech, recipe: Recipe) -> str:
    """What a turning chain stands for where a row may begin without an edge stitch."""
    chains = recipe.stitch.turning
    slots: dict[str, str | int] = {"n": chains, "top": speech.nth(chains)}
    if recipe.gap:
        single = "special.tch.bare.single" + (".one" if chains == 1 else "")
        key = single if recipe.alternating else "special.tch.bare"
        return speech.say(key, more=chains + recipe.edge_chains, **slots)
    return speech.say("special.tch.bare.closed", rest=recipe.unit_width - 1, **slots)


def how_to_read(speech: Speech, plan: Plan) -> Iterator[str]:
    """Sentences on how the rows are to be read, as far as their words are used; the rows must have been said by
    ``speech`` before."""
    yield speech.say("reading.sides")
    with_own = "reading.chain.bare" if plan.recipe.bare else "reading.chain"
    yield speech.say(with_own if plan.recipe.own else "reading.chain.beside")
    yield speech.say("reading.count")
    if plan.recipe.stitch.counts:
        yield speech.say("reading.count.tch")
    if any(row.edge(row.starts).move == "step_out" for piece in plan.pieces for row in piece.rows):
        yield speech.say("reading.new_chain")
    if "repeat" in speech.said:
        yield speech.say("reading.repeat")
    if "work.cl_and_dc" in speech.said:
        yield speech.say("reading.together")
    if speech.said & {"change", "change.row", "stripes"}:
        yield speech.say("reading.change")


def piece_paragraphs(speech: Speech, plan: PiecePlan) -> Iterator[str]:
    """The heading ("## Back") and the paragraphs of a piece as Markdown, in their order: about it, foundation, each row
    or group of rows; before the rows of a shoulder its heading ("### ...") and where it begins."""
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
    if made.on:
        return _begun_on(speech, made)
    several = made.multiple > 1
    summed: dict[str, str | int] = {"times": made.clusters, "multiple": made.multiple}
    summed |= {"plus": made.plus} if made.plus >= 0 else {"less": -made.plus}
    total = speech.say("foundation.sum" if made.plus >= 0 else "foundation.sum.less", **summed) if several else ""
    slots: dict[str, str | int] = {"n": made.chains, "sum": total}
    chain = (
        speech.say("foundation", **slots)
        if made.colour is None
        else speech.say("foundation.color", name=speech.named(made.colour), **slots)
    )
    return f"{chain} {speech.count('foundation.told', made.turning)}"


def _begun_on(speech: Speech, made: Foundation) -> str:
    """The beginning of a piece that has no chain of its own."""
    kind = "armhole" if made.on == ON_ARMHOLE else "on"
    other = {} if kind == "armhole" else {"other": speech.named(made.on)}
    own = f"foundation.{kind}" if made.colour is None else f"foundation.{kind}.color"
    yarn = {} if made.colour is None else {"name": speech.named(made.colour)}
    begun = speech.say(own, base=made.base, **other, **yarn)
    return f"{begun} {speech.count(f'foundation.{kind}.told', made.turning)}"


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
