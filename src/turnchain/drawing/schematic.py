"""The schematic: every piece to scale with every worked measure, and all pieces laid out as sewn.

In: a plan. Out: scenes 1600 px wide. Pieces stand as worn, right side facing, at the true proportion of the gauge and
all of a scene to one scale; figures are the plan's own. The foundation is a row of chains, shaped edges are accented,
seams carry the letters of ``seams``.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from functools import partial

from turnchain import file_names
from turnchain.drawing import drafting, legend, sewn
from turnchain.drawing.legend import MARGIN, WIDTH
from turnchain.drawing.to_scale import BESIDE, TIER, Drawing, figure, measure_words, summary_of, tiers_above
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import dimensions, seams
from turnchain.lettering.measuring import measure
from turnchain.records import frozen
from turnchain.scene import Scene
from turnchain.wording.tables import speech_of

GAP = 26  # px between drawings
TALLEST = 1500  # px for the drawings of a page
LEAST_SIDE = 60  # px of the largest piece; the page of very many grows taller instead
LARGEST_SCALE = 22.0  # px to a cm


@frozen
class Room:
    """The px around a drawing that its dimensions need, the px across of its ``title``, and its own ``size`` in cm,
    across and up as worn."""

    left: float
    right: float
    above: float
    below: float
    title: float
    size: tuple[float, float]

    def wide(self, scale: float) -> float:
        """The px across at ``scale`` px to a cm: the drawing with its sides, or its title where that is wider."""
        return self.left + max(self.size[0] * scale + self.right, self.title)

    def high(self, scale: float) -> float:
        """The px down at ``scale`` px to a cm."""
        return self.above + self.size[1] * scale + self.below


def scenes(plan: Plan) -> dict[str, Scene]:
    """The scenes by the name of their file without its ending: "schematic", and "as-sewn" where there are seams."""
    return {name: draw() for name, draw in drawings(plan).items()}


def drawings(plan: Plan) -> dict[str, Callable[[], Scene]]:
    """What draws these scenes, under the same names."""
    drawn: dict[str, Callable[[], Scene]] = {file_names.SCHEMATIC: partial(schematic, plan)}
    if seams.of(plan):
        drawn[file_names.AS_SEWN] = partial(sewn.as_sewn, plan)
    return drawn


def told(plan: Plan) -> dict[str, str]:
    """The alt texts of the same scenes under the same names, without drawing them."""
    words = {file_names.SCHEMATIC: _schematic_words(plan)}
    if seams.of(plan):
        words[file_names.AS_SEWN] = sewn.told(plan)
    return words


# ------------------------------------------------------------------------------------------------ the pieces apart


def schematic(plan: Plan) -> Scene:
    """Every piece apart with its measures, 1600 px wide; measures without room stand in words at the foot."""
    found, speech = seams.of(plan), speech_of(plan.pattern)
    rooms = {piece.name: _room(plan, piece) for piece in plan.pieces}
    scale = _scale(plan.pieces, rooms)
    shelves = _shelves(plan.pieces, rooms, scale)
    items, y = legend.header(plan, speech.say("schematic"), speech.say("schematic.scale", unit=plan.pattern.units))
    untold: list[str] = []
    for shelf in shelves:
        x = MARGIN + (WIDTH - 2 * MARGIN - _wide(shelf, rooms, scale)) / 2
        for piece in shelf:
            room = rooms[piece.name]
            drawing = Drawing(plan, piece, scale, (x + room.left, y + room.above))
            limits = (x, y, min(x + room.wide(scale), WIDTH - 10.0), y + room.high(scale))
            items.append(drawing.block(found, limits))
            said = ", ".join(measure_words(plan.pattern, one) for one in drawing.unplaced())
            untold += [speech.say("schematic.further", piece=piece.name, measures=said)] if said else []
            x += room.wide(scale) + GAP
        y += max(rooms[piece.name].high(scale) for piece in shelf) + GAP
    items.append(legend.scale_bar(speech, plan.pattern.units, scale, y))
    foot, height = legend.legend(plan, y + 70, untold)
    items += foot
    title = speech.say("schematic.title", title=plan.pattern.title)
    return legend.scene(plan, title, _schematic_words(plan), items, height)


def _wide(shelf: list[PiecePlan], rooms: dict[str, Room], scale: float) -> float:
    return math.fsum(rooms[piece.name].wide(scale) for piece in shelf) + GAP * (len(shelf) - 1)


def _room(plan: Plan, piece: PiecePlan) -> Room:
    """What a piece's labels need around it: sides as wide as their labels, tiers above and below."""
    measures, speech = dimensions.of(plan, piece), speech_of(plan.pattern)
    side = {
        place: max(0.0, sum(drafting.label_width(speech.measure(one.name), figure(plan.pattern, one.cm)) + BESIDE
                            for one in measures if one.place == place) - BESIDE)
        for place in ("left", "right")
    }  # fmt: skip
    above = len(tiers_above(measures)) * TIER
    below = TIER if any(one.place == "below" for one in measures) else 40.0
    title = max(measure(piece.name, 30, "semibold"), measure(summary_of(plan.pattern, piece), 18))
    right = side["right"] + 46 if side["right"] else 26.0
    (left, low), (far, high) = dimensions.box(piece)
    return Room(side["left"] + 52, right, above + 84, below, title, (float(far - left), float(high - low)))


def _scale(pieces: Iterable[PiecePlan], rooms: dict[str, Room]) -> float:
    """The largest px to a cm at which all pieces find room, to a tenth where it can be."""
    low, high = 0.0, LARGEST_SCALE
    for _ in range(40):
        middle = (low + high) / 2
        shelves = _shelves(pieces, rooms, middle)
        tall = math.fsum(max(rooms[piece.name].high(middle) for piece in shelf) + GAP for shelf in shelves)
        fits = all(_wide(shelf, rooms, middle) <= WIDTH - 2 * MARGIN for shelf in shelves) and tall <= TALLEST
        low, high = (middle, high) if fits else (low, middle)
    least = LEAST_SIDE / max(max(room.size) for room in rooms.values())
    return max(int(low * 10) / 10 if low >= 1 else low, least)


def _shelves(pieces: Iterable[PiecePlan], rooms: dict[str, Room], scale: float) -> list[list[PiecePlan]]:
    """The pieces in lines as wide as the page, in their order."""
    shelves: list[list[PiecePlan]] = []
    for piece in pieces:
        if shelves and _wide([*shelves[-1], piece], rooms, scale) <= WIDTH - 2 * MARGIN:
            shelves[-1].append(piece)
        else:
            shelves.append([piece])
    return shelves


def _schematic_words(plan: Plan) -> str:
    """The alt text of the schematic: every piece with its measures."""
    speech, told = speech_of(plan.pattern), []
    for piece in plan.pieces:
        measures = ", ".join(measure_words(plan.pattern, one) for one in dimensions.of(plan, piece))
        told.append(f"{piece.name}: {measures}; {summary_of(plan.pattern, piece).replace('  ·  ', ', ')}.")
    joined = [speech.say("schematic.seam", seam=said) for said in legend.seam_lines(plan)]
    return " ".join([speech.say("schematic.alt", title=plan.pattern.title), *told, *joined])
