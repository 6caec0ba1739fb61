"""Single crochet along an armhole, on which a sleeve is begun: how many stitches go where.

In: a plan. Out: an ``AlongArmhole`` for every armhole, those alike told once, and in words. The stitches of row 1 are
shared out over all that the armhole meets by length, and along each of that spread evenly.
"""

from __future__ import annotations

from collections.abc import Iterator

from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import edge_names, seams
from turnchain.garment.edge_names import EdgeName
from turnchain.garment.edging import words as edging_words
from turnchain.garment.edging.places import Places, shared_out
from turnchain.records import frozen
from turnchain.wording.languages.language import Speech


@frozen
class AlongEdge:
    """What goes along one edge of a ``piece``, called ``name``: the ``places`` it is worked into."""

    piece: PiecePlan
    name: EdgeName
    places: tuple[Places, ...]

    @property
    def stitches(self) -> int:
        """All of them."""
        return sum(one.even.stitches for one in self.places)


@frozen
class AlongArmhole:
    """So many single crochet (US) ``stitches`` along the ``edges`` of an armhole for a ``sleeve``; ``each``: alike
    along each armhole, whose edges then have no side."""

    sleeve: PiecePlan
    stitches: int
    edges: tuple[AlongEdge, ...]
    each: bool


def of(plan: Plan) -> list[AlongArmhole]:
    """The first stitches of every sleeve that is begun along an armhole, in the order of the file."""
    found = []
    for sleeve in plan.pieces:
        if sleeve.picked_up is None:
            continue
        copies = [one for one in (_of_copy(plan, sleeve, copy) for copy in range(sleeve.count)) if one]
        alike = [tuple((edge.piece.name, edge.places) for edge in one) for one in copies]
        together = len(set(alike)) == 1
        for one in copies[:1] if together else copies:
            bare = (AlongEdge(edge.piece, EdgeName(edge.name.kind), edge.places) for edge in one)
            edges = tuple(bare) if together else one
            found.append(AlongArmhole(sleeve, sleeve.picked_up.counts.dc, edges, together))
    return found


def _of_copy(plan: Plan, sleeve: PiecePlan, copy: int) -> tuple[AlongEdge, ...]:
    """The edges that one of such sleeves is begun on, in the order of the pieces; none where no seam says so."""
    tops = [seam for seam in seams.of(plan) if seam.kind == "sleeve top" and seam.worked]
    mine = [seam for seam in tops if (seam.other.piece, seam.other.copy) == (sleeve, copy)]
    mine.sort(key=lambda seam: plan.pieces.index(seam.one.piece))
    if not mine or sleeve.picked_up is None:
        return ()
    stretches = [stretch for seam in mine for stretch in seam.one.stretches]
    places = iter(shared_out(stretches, sleeve.picked_up.counts.dc))
    return tuple(
        AlongEdge(
            seam.one.piece,
            edge_names.of_seam(plan, seam)[0],
            tuple(one for _ in seam.one.stretches for one in next(places)),
        )
        for seam in mine
    )


def lines(speech: Speech, plan: Plan) -> Iterator[str]:
    """How the first stitches of every sleeve are worked along its armhole, in the language of ``speech``."""
    for one in of(plan):
        key = "seam.armhole" if one.each else "seam.armhole.one"
        sides = "; ".join(_side(speech, edge) for edge in one.edges)
        yield speech.say(key, piece=one.sleeve.name, n=one.stitches, sides=sides)


def _side(speech: Speech, one: AlongEdge) -> str:
    edge = speech.say("run.of", piece=one.piece.name, edge=speech.named_by("edge", one.name.key))
    how = edging_words.how_spread(speech, one.places)
    return speech.say("edging.side", edge=edge, n=one.stitches, st=speech.stitch("sc"), how=how)
