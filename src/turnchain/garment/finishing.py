"""Making it up in words: blocking, seams in order, border, ends.

In: a plan. Out: ``Chapter`` s in the pattern's language and unit. The counts are those of ``borders`` and ``seams``.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from fractions import Fraction
from math import ceil

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import borders, easing, edge_names, materials, openings, picking_up, seam_words, seams
from turnchain.garment.borders import SC_IN_A_CORNER, SC_TO_A_ROW_END, Border, Spread
from turnchain.garment.edge_names import EdgeName
from turnchain.garment.edging import words as edging_words
from turnchain.garment.seam_sides import PlannedSeam, SeamSide
from turnchain.pattern import Yarn
from turnchain.records import frozen
from turnchain.units import Unit, handy, plain, taped
from turnchain.wording.alt_texts import measures_of
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import speech_of
from turnchain.yarns import carrying
from turnchain.yarns import figures as yarn

# ------------------------------------------------------------------------------------------------------ ends


def stripes(piece: PiecePlan) -> int:
    """How many times a yarn begins in one such piece, in the order worked: at a new colour, and where yarn is joined
    anew after the neck divides the piece."""
    begun = 0
    for index, row in enumerate(piece.rows):
        if index == 0 or row.joined or row.colour != piece.rows[index - 1].colour:
            begun += 1
    return begun


def ends(plan: Plan) -> int:
    """The ends to weave in over all pieces, with no yarn carried: 2 to every stripe. Source: common practice; a sum."""
    return sum(2 * stripes(piece) * piece.count for piece in plan.pieces)


# -------------------------------------------------------------------------------------------------- in words


@frozen
class Chapter:
    """A heading and what stands under it, a sentence or a step to an entry, as plain text in the pattern's language."""

    heading: str
    entries: tuple[str, ...]


def text(plan: Plan) -> str:
    """All chapters as plain text, ending in a line break: each a heading with its entries as a list, a blank line
    between two."""
    told = ["\n".join([chapter.heading, *(f"- {entry}" for entry in chapter.entries)]) for chapter in chapters(plan)]
    return "\n\n".join(told) + "\n"


def chapters(plan: Plan) -> tuple[Chapter, ...]:
    """Joining, border, ends, blocking and care, in the order of published patterns; the first entry of the joining says
    that pieces are blocked before it."""
    return tuple(chapter for chapter in (joining(plan), *_further(plan)) if chapter.entries)


def joining(plan: Plan) -> Chapter:
    """The seams in the order sewn, the blocking before them and how to sew; no entries where nothing is sewn."""
    speech = speech_of(plan.pattern)
    return Chapter(speech.say("finishing.seams"), tuple(_sewing(speech, plan)))


def _further(plan: Plan) -> Iterator[Chapter]:
    speech = speech_of(plan.pattern)
    yield Chapter(speech.say("finishing.border"), tuple(_bordering(speech, plan)))
    yield Chapter(speech.say("finishing.ends"), tuple(_ends(speech, plan)))
    yield Chapter(speech.say("finishing.blocking"), tuple(_blocking(speech, plan)))


def _blocking(speech: Speech, plan: Plan) -> Iterator[str]:
    yield speech.say("blocking.how")
    for piece in plan.pieces:
        yield f"{piece.name}: {measures_of(plan.pattern, piece)}"
    yield speech.say("blocking.swatch")
    for fibre in dict.fromkeys(one.fibre for one in plan.pattern.yarns if one.fibre is not None):
        yield speech.named_by("care", fibre)


# ---------------------------------------------------------------------------------------------------- seams


def _sewing(speech: Speech, plan: Plan) -> Iterator[str]:
    found = seam_words.grouped(seams.of(plan))
    if found:
        yield speech.say("seam.blocked_first")
    yield from _crowns(speech, plan)
    for alike in found:
        seam = alike[0]
        kind, meeting = _kind(speech, plan, alike), _meeting(speech, plan, alike)
        evenly = _evenly(speech, seam)
        apart = "" if seam.agrees else _apart(speech, plan, seam)
        if seam.worked:
            worked = speech.say("seam.worked", letter=seam.letter, kind=kind, meeting=meeting)
            yield f"{worked}; {apart}" if apart else worked
        elif told := "; ".join(words for words in (apart, evenly) if words):
            yield speech.say("seam.uneven", letter=seam.letter, kind=kind, meeting=meeting, apart=told)
        else:
            yield speech.say("seam", letter=seam.letter, kind=kind, meeting=meeting)
    if any(seam.kind == "sleeve top" and not seam.worked for seam in seams.of(plan)):
        yield speech.say("seam.sleeve_pins")
    yield from picking_up.lines(speech, plan)
    if found:
        yield speech.say("seam.how", sl_st_full=speech.full("sl_st"), sc_full=speech.full("sc"))


def _kind(speech: Speech, plan: Plan, alike: list[PlannedSeam]) -> str:
    """What seams that are told together are, and how often each is sewn where the names of edges do not say it."""
    kind = speech.named_by("kind", alike[0].kind)
    met = [(seam.one.piece.name, seam.other.piece.name, edge_names.of_seam(plan, seam)) for seam in alike]
    named = max(len({(one, names[0]) for one, _, names in met}), len({(other, names[1]) for _, other, names in met}))
    times = len(alike) // named
    return speech.say("seam.kind.times", kind=kind, times=times) if times > 1 else kind


def _edge(speech: Speech, piece: PiecePlan, name: EdgeName) -> str:
    """An edge by the name that people give it: "front, left shoulder"."""
    return speech.say("run.of", piece=piece.name, edge=speech.named_by("edge", name.key))


def edges_of(speech: Speech, plan: Plan, alike: list[PlannedSeam]) -> tuple[str, str]:
    """The edges at both sides of seams that are told together (a list of ``seam_words.grouped``), in the language of
    ``speech``: "front, left shoulder", several as one listing."""
    named = [edge_names.of_seam(plan, seam) for seam in alike]
    sides = (
        [(seam.one.piece, names[0]) for seam, names in zip(alike, named, strict=True)],
        [(seam.other.piece, names[1]) for seam, names in zip(alike, named, strict=True)],
    )
    one, other = (
        speech.language.listed([_edge(speech, *placed) for placed in edge_names.together(side)]) for side in sides
    )
    return one, other


def _crowns(speech: Speech, plan: Plan) -> Iterator[str]:
    """How the crown of a hat is gathered: on a tail once as long as its edge, and a usual tail more. Common practice,
    no source."""
    gathered = [one.stretch for opening in openings.of(plan) if opening.gathered for one in opening.stretches]
    for stretch in {one.piece.name: one for one in gathered}.values():
        piece = stretch.piece
        if stretch.length < stretch.run.length:
            continue  # part of it is sewn
        tail = speech.figure(handy(stretch.length + plan.pattern.allowance.tail, plan.pattern.units))
        if stretch.run.name != "last":
            yield speech.say("crown.rows", piece=piece.name, tail=tail, n=piece.row_count)
            continue
        row = piece.rows[-1]
        yield speech.say("crown", piece=piece.name, tail=tail, n=row.counts.dc + row.counts.tch, row=row.number)


def _meeting(speech: Speech, plan: Plan, alike: list[PlannedSeam]) -> str:
    """Which edges meet, with the row numbers in the order they meet, or with the clusters, and how long each is."""
    one, other = edges_of(speech, plan, alike)
    rows, met = seam_words.rows_met(alike[0])
    unit = plan.pattern.units
    counted, across = _counted(speech, alike[0].one, rows, unit), _counted(speech, alike[0].other, met, unit)
    return speech.say("seam.meeting", one=one, counted=counted, other=other, met=across)


def _counted(speech: Speech, side: SeamSide, rows: tuple[int, int] | None, unit: Unit) -> str:
    long = speech.taped(side.length, unit)
    if rows is None:
        told, inset = f"{_clusters(speech, side.count)}, {long}", easing.inset(side)
        return speech.say("seam.inset", clusters=told, inset=_clusters(speech, inset)) if inset else told
    told = speech.say("seam.row" if rows[0] == rows[1] else "seam.rows", first=rows[0], last=rows[1])
    told = speech.say("seam.step", rows=told, clusters=_clusters(speech, side.steps)) if side.steps else told
    return f"{told}, {long}"


def _clusters(speech: Speech, count: Fraction) -> str:
    """ "7.5 clusters"."""
    form = "one" if count == 1 else "many"
    return speech.say(f"seam.clusters.{form}", n=speech.figure(plain(seam_words.to_half(count))))


def _evenly(speech: Speech, seam: PlannedSeam) -> str:
    """How a seam is sewn evenly whose sides differ in number; empty where that says nothing."""
    found = easing.evenly(seam)
    if found is None or not (seam.agrees or seam_words.eases_in(seam)):
        return ""
    many, few = _units(speech, found.many, found.each), _units(speech, found.few, 1)
    if not found.times:
        return speech.say("seam.evenly", many=many, few=few)
    if found.times == 1:
        return speech.say("seam.evenly.once", many=many, few=few, other=found.other)
    every = speech.say(f"seam.unit.{found.few.replace(' ', '_')}", nth=speech.nth(found.every))
    return speech.say(
        "seam.evenly.often", many=many, few=few, every=every, other=found.other, times=found.times
    )  # fmt: skip


def _units(speech: Speech, unit: easing.Unit, number: int) -> str:
    """ "2 rows", "1 cluster", "3 half clusters"."""
    if unit == "row":
        return speech.count("counted.row", number)
    return speech.count("seam.clusters" if unit == "cluster" else "seam.halves", number)


def _apart(speech: Speech, plan: Plan, seam: PlannedSeam) -> str:
    """By how much the sides of a seam differ, as its lengths are told, and what to do; empty where it is nothing."""
    unit, names = plan.pattern.units, edges_of(speech, plan, [seam])
    difference = seam_words.to_half(seam.difference or Fraction(0))
    rows = seam.one.unit == "rows"
    more = speech.count("counted.row", int(abs(difference))) if rows else _clusters(speech, abs(difference))
    off = taped(seam.one.length, unit) - taped(seam.other.length, unit)
    if not off:
        return speech.say("seam.as_long", edge=names[difference <= 0], more=more) if difference else ""
    by = ".by" if seam_words.has_more(seam) else ""
    eased, length = "eased" if seam_words.eases_in(seam) else "left", speech.taped(abs(off), unit)
    return speech.say(f"seam.longer.{eased}{by}", edge=names[off <= 0], length=length, more=more)


# --------------------------------------------------------------------------------------------------- border


def _bordering(speech: Speech, plan: Plan) -> Iterator[str]:
    if plan.pattern.edgings:
        yield from edging_words.lines(speech, plan)
        yield _edging_yarn(speech, plan)
        return
    found = borders.edgings(plan)
    if found:
        yield speech.say("border.how", sc_full=speech.full("sc"), corner=SC_IN_A_CORNER)
    for one in found:
        kind = speech.named_by("kind", one.kind)
        name = speech.say("run.of", piece=one.piece, edge=kind) if one.piece else kind
        sides = "; ".join(_sides(speech, one.border))
        key = "border.times" if one.count > 1 else "border"
        length = speech.taped(one.border.length, plan.pattern.units)
        yield speech.say(key, name=name, times=one.count, sides=sides, n=one.border.stitches, length=length)
    if found:
        yield _border_yarn(speech, plan)


def _sides(speech: Speech, worked: Border) -> Iterator[str]:
    alike = Counter((side.piece, side.edge, side.stitches, side.how) for side in worked.sides)
    for (piece, edge, stitches, how), times in alike.items():
        edge_name = speech.named_by("edge", edge)
        name = speech.say("run.of", piece=piece, edge=edge_name) if piece else edge_name
        key = "border.side.times" if times > 1 else "border.side"
        yield speech.say(key, edge=name, times=times, n=stitches, how=_spread(speech, how))
    if worked.corners:
        form = "one" if worked.corners == 1 else "many"
        yield speech.say(f"border.corners.{form}", corner=SC_IN_A_CORNER, n=worked.corners)


def _spread(speech: Speech, how: Spread) -> str:
    told = speech.say(f"border.{how.along.replace(' ', '_')}", n=SC_TO_A_ROW_END)
    return speech.say("border.steps", how=told, n=how.steps) if how.steps else told


def _border_yarn(speech: Speech, plan: Plan) -> str:
    grams = borders.border_grams(plan)
    if grams is None:
        return speech.say("border.yarn.unknown")
    amount = _amount(speech, plan, borders.border_yarn(plan), grams)
    return speech.say("border.yarn", amount=amount, margin=speech.figure(plain(yarn.margin_of(plan.pattern))))


def _edging_yarn(speech: Speech, plan: Plan) -> str:
    amounts = [_amount(speech, plan, used, grams) for used, grams in yarn.edging_of(plan)]
    if not amounts:
        return speech.say("border.yarn.unknown")
    amount, margin = speech.language.listed(amounts), speech.figure(plain(yarn.margin_of(plan.pattern)))
    return speech.say("edging.yarn", amount=amount, margin=margin)


def _amount(speech: Speech, plan: Plan, used: Yarn | None, grams: Fraction) -> str:
    amount = f"{ceil(grams)} g"
    if used:
        amount = speech.say("border.yarn.of", weight=amount, yarn=used.name)
    if used and used.metres_per_100g:
        amount += f", {materials.long(grams * used.metres_per_100g / 100, plan.pattern.units)}"
    return amount


# ----------------------------------------------------------------------------------------------------- ends


def _ends(speech: Speech, plan: Plan) -> Iterator[str]:
    cut = [(piece.name, 2 * stripes(piece) * piece.count) for piece in plan.pieces]
    each = ", ".join(f"{name} {count}" for name, count in cut)
    yield speech.say("ends.cut.each" if len(cut) > 1 else "ends.cut", n=sum(count for _, count in cut), each=each)
    carried = sum(carrying.ends(piece, carrying.carry_of(plan, piece)) * piece.count for piece in plan.pieces)
    if carried < ends(plan):
        yield speech.say("ends.carried", n=carried)
    yield speech.say("ends.tails", tail=speech.figure(handy(plan.pattern.allowance.tail, plan.pattern.units)))
