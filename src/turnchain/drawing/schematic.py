"""The schematic: every piece to scale with every worked measure, and all pieces laid out as sewn.

In: a plan. Out: scenes 1600 px wide. Pieces stand as worn, right side facing, at the true proportion of the gauge and
all of a scene to one scale; figures are the plan's own. The foundation is a row of chains, shaped edges are accented,
seams carry the letters of ``seams``.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from fractions import Fraction

from turnchain import file_names, style
from turnchain.drawing import assembly, drafting, heading, key
from turnchain.drawing.assembly import Set
from turnchain.drawing.drafting import ACCENT, INK, PAPER, SOFT, Px
from turnchain.drawing.to_scale import TIER, Drawing, figures, hundredths, measure_words, summary_of, tiers_above
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.garment import body, dimensions, edges, finishing, seams
from turnchain.garment.body import BodyMeasure
from turnchain.garment.edges import Point
from turnchain.garment.seams import PlannedSeam
from turnchain.lettering.measuring import measure, wrapped
from turnchain.records import frozen
from turnchain.scene import Group, Item, Path, Scene, arrow, polyline
from turnchain.units import Unit
from turnchain.wording.languages.language import Speech
from turnchain.wording.tables import language_of, speech_of

WIDTH = style.REFERENCE_WIDTH
MARGIN = 48  # px, left and right
GAP = 26  # px between drawings
UNITS: tuple[Unit, ...] = ("cm", "in")
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
    made = {file_names.SCHEMATIC: schematic(plan)}
    if seams.of(plan):
        made[file_names.AS_SEWN] = as_sewn(plan)
    return made


def told(plan: Plan) -> dict[str, str]:
    """The alt texts of the same scenes under the same names, without drawing them."""
    words = {file_names.SCHEMATIC: _schematic_words(plan)}
    if seams.of(plan):
        words[file_names.AS_SEWN] = _sewn_words(plan)
    return words


# ------------------------------------------------------------------------------------------------ the pieces apart


def schematic(plan: Plan) -> Scene:
    """Every piece apart with its measures, 1600 px wide; measures without room stand in words at the foot."""
    found, speech = seams.of(plan), speech_of(plan.pattern)
    rooms = {piece.name: _room(plan, piece) for piece in plan.pieces}
    scale = _scale(plan.pieces, rooms)
    shelves = _shelves(plan.pieces, rooms, scale)
    items, y = _header(plan, speech.say("schematic"), speech.say("schematic.scale"))
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
    items.append(_scale_bar(speech, scale, y))
    foot, height = _legend(plan, y + 70, untold)
    items += foot
    return _scene(plan, speech.say("schematic.title", title=plan.pattern.title), _schematic_words(plan), items, height)


def _wide(shelf: list[PiecePlan], rooms: dict[str, Room], scale: float) -> float:
    return math.fsum(rooms[piece.name].wide(scale) for piece in shelf) + GAP * (len(shelf) - 1)


def _room(plan: Plan, piece: PiecePlan) -> Room:
    """What a piece's labels need around it: sides as wide as their labels, tiers above and below."""
    measures, speech = dimensions.of(plan, piece), speech_of(plan.pattern)
    side = {
        place: max((drafting.label_width(speech.measure(one.name), figures(plan.pattern, one.cm))
                    for one in measures if one.place == place), default=0.0)
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


# ------------------------------------------------------------------------------------------------ laid out as sewn


def as_sewn(plan: Plan) -> Scene:
    """All pieces that seams join, as they meet, 1600 px wide: opened out flat, each seam along both its edges. Raises
    ValueError for a plan without seams."""
    found, speech = seams.of(plan), speech_of(plan.pattern)
    sets = assembly.laid(plan, found)
    (left, low), (right, high) = assembly.box(sets)
    levels = _levels(plan, sets)
    wide, tall = right - left, high - low
    scale = min((WIDTH - 2 * MARGIN - 320) / wide, (TALLEST - 300) / tall, LARGEST_SCALE)
    items, top = _header(plan, speech.say("sewn"), speech.say("sewn.scale"))
    corner = ((WIDTH - wide * scale) / 2, top + 10)
    for one in sets:
        drawing = Drawing(plan, one.piece, scale, corner, _shift(one, left, high))
        items.append(Group((*drawing.cloth(chains_inside=True), *_name_of(drawing)), "", one.piece.name))
    letters: list[tuple[Px, str]] = []
    for one in sets:
        drawing = Drawing(plan, one.piece, scale, corner, _shift(one, left, high))
        items += drawing.ticks(found, one.copy)
        # Both sides of a seam carry its letter; where they lie together, it stands once.
        letters += [here for here in drawing.lettered(found, one.copy) if not any(_near(here, had) for had in letters)]
    for at, letter in letters:
        items += drafting.badge(at, letter)
    y = corner[1] + tall * scale
    for name, level, front in levels:
        items += _level(plan, name, level, scale, (corner, left, high), front)
        y = max(y, corner[1] + (high - level[0]) * scale)
    items.append(_scale_bar(speech, scale, y + 30))
    foot, height = _legend(plan, y + 100)
    items += foot
    return _scene(plan, speech.say("sewn.title", title=plan.pattern.title), _sewn_words(plan), items, height)


def _sewn_words(plan: Plan) -> str:
    speech = speech_of(plan.pattern)
    sewn = " ".join(speech.say("schematic.seam", seam=said) for said in _seam_lines(plan))
    return speech.say("sewn.alt", title=plan.pattern.title, seams=sewn)


def _near(one: tuple[Px, str], other: tuple[Px, str]) -> bool:
    """Whether two letters are the same and would run into one another."""
    return one[1] == other[1] and abs(one[0][0] - other[0][0]) + abs(one[0][1] - other[0][1]) < 3 * drafting.BADGE


def _shift(one: Set, left: float, high: float) -> Callable[[Point], tuple[float, float]]:
    return lambda point: (one.at(point)[0] - left, one.at(point)[1] - high)


def _name_of(drawing: Drawing) -> Iterator[Item]:
    """The name in the middle of a piece and, below it, which way it is worked."""
    piece = drawing.piece
    x, y = drawing.px(drawing.turn(drawing.centre))
    above = 42 if _level_arrow(drawing) else 78
    yield drafting.words((x, y - above), piece.name, 26, INK, "semibold", "middle")
    yield from drawing.direction()


def _level_arrow(drawing: Drawing) -> bool:
    """Whether the arrow of the direction of work lies level."""
    across, up = drawing.centre
    one, other = drawing.turn((across, up)), drawing.turn((across, up + 1))
    return abs(one[0] - other[0]) > abs(one[1] - other[1])


def _levels(plan: Plan, sets: list[Set]) -> list[tuple[str, tuple[float, BodyMeasure], Set]]:
    """Waist, hip and knee of the wearer, in cm of the layout, on the first piece: the front."""
    wearer = plan.pattern.wearer
    found: list[tuple[str, tuple[float, BodyMeasure], Set]] = []
    if wearer is None or not sets or assembly.front(plan) is None:
        return []
    top = assembly.top(sets[0])
    for name in body.LEVELS:
        at = body.level(wearer, name)
        if at is not None:
            found.append((name, (top - float(at.middle), at), sets[0]))
            if float(at.middle) > float(dimensions.body_length(sets[0].piece)):
                break  # one level below the edge is enough
    return found


def _level(
    plan: Plan, name: str, at: tuple[float, BodyMeasure], scale: float, frame: tuple[Px, float, float], front: Set
) -> Iterator[Item]:
    corner, left, high = frame
    ends = [float(x) for x, _ in (front.at(point) for run in edges.around(front.piece) for point in run.points)]
    y = corner[1] + (high - at[0]) * scale
    x0, x1 = (corner[0] + (x - left) * scale for x in (min(ends), max(ends)))
    yield drafting.hair((x0 - 18, y), (x1 + 18, y), dash=(9.0, 6.0))
    speech = speech_of(plan.pattern)
    below = speech.say("schematic.nape", length=" / ".join(figures(plan.pattern, at[1].middle)))
    yield drafting.words((x1 + 26, y - 3), speech.say(f"level.{name}"), 17, INK, "semibold")
    yield drafting.words((x1 + 26, y + 17), below, 15, SOFT)


# ------------------------------------------------------------------------------------------------- around it all


def _header(plan: Plan, title: str, facts: str) -> tuple[list[Item], float]:
    """The heading, and the y from which the drawings stand."""
    return heading.of_page(heading.PictureHeading(plan.pattern.title, title, facts), WIDTH, style.LIGHT, MARGIN)


def _scale_bar(speech: Speech, scale: float, y: float) -> Group:
    """A bar as long as 10 cm (100 where that would be short) in the scale of the drawing."""
    cm = 10 if scale >= 4 else 50 if scale >= 1 else 100
    long = cm * scale
    x = WIDTH - MARGIN - long
    bar = polyline(hundredths([(x, y - 7), (x, y), (x + long, y), (x + long, y - 7)]))
    said = f"{cm} cm  /  {speech.length(Fraction(cm), 'in')}"
    items = (
        Path(bar, stroke=INK, width=2.0, cap="butt"),
        drafting.words((x + long / 2, y + 20), said, 16, SOFT, "regular", "middle"),
    )
    return Group(items, "scale-bar", speech.say("schematic.bar", n=cm))


def _legend(plan: Plan, y: float, untold: Iterable[str] = ()) -> tuple[list[Item], int]:
    """Measures that found no room, the seams by their letters and the credit line; and the height of the page."""
    items: list[Item] = []
    for said in untold:
        for words in wrapped(said, WIDTH - 2 * MARGIN - 200, 17):
            items.append(drafting.words((MARGIN, y), words, 17))
            y += 24
        y += 14
    told = _seam_lines(plan)
    if told:
        items.append(drafting.words((MARGIN, y), speech_of(plan.pattern).say("finishing.seams"), 21, INK, "semibold"))
        items.append(drafting.hair((MARGIN, y + 11), (WIDTH - MARGIN, y + 11)))
        y += 40
        for said in told:
            letter, _, rest = said.partition(" ")
            items += drafting.badge((MARGIN + 16, y - 6), letter)
            for words in wrapped(rest, WIDTH - 2 * MARGIN - 44, 19):
                items.append(drafting.words((MARGIN + 44, y), words, 19))
                y += 26
            y += 10
        y += 8
    items += list(_signs(speech_of(plan.pattern), y))
    y += 50
    for line in wrapped(key.credit(plan.pattern), WIDTH - 2 * MARGIN, 17):
        items.append(drafting.words((MARGIN, y), line, 17, SOFT))
        y += 24
    return items, round(y + 16)


def _signs(speech: Speech, y: float) -> Iterator[Item]:
    """What the lines of the drawings mean."""
    x = float(MARGIN)
    yield drafting.chains((x, y), (x + 60, y), (0.0, -1.0))
    yield drafting.words((x + 72, y), speech.say("schematic.chain"), 17, SOFT)
    x += 250
    yield Path(polyline([(x, y - 6), (x + 60, y - 6)]), stroke=ACCENT, width=3.4)
    yield drafting.words((x + 72, y), speech.say("schematic.shaped"), 17, SOFT)
    x += 220
    yield Path(arrow((x, y - 6), (x + 60, y - 6), 13), stroke=INK, width=3.0)
    yield drafting.words((x + 72, y), speech.say("schematic.arrow"), 17, SOFT)


def _seam_lines(plan: Plan) -> list[str]:
    """One line to a letter: what is sewn to what."""
    told: dict[str, list[str]] = {}
    sewn, speech = seams.of(plan), speech_of(plan.pattern)
    for kind in seams.ORDER:
        found: dict[str, list[PlannedSeam]] = {}
        for seam in sewn:
            if seam.kind == kind:
                found.setdefault(seam.letter, []).append(seam)
        for letter, alike in found.items():
            met = _edges_met(speech, plan, alike)
            told.setdefault(letter, []).append(f"{speech.named_by('kind', kind)}: {met}")
    return [f"{letter} {'; '.join(said)}" for letter, said in told.items()]


def _edges_met(speech: Speech, plan: Plan, alike: list[PlannedSeam]) -> str:
    one, other = finishing.edges_of(speech, plan, alike)
    return speech.say("seam.edges", one=one, other=other)


def _schematic_words(plan: Plan) -> str:
    """The alt text of the schematic: every piece with its measures in both units."""
    speech, told = speech_of(plan.pattern), []
    for piece in plan.pieces:
        measures = ", ".join(measure_words(plan.pattern, one) for one in dimensions.of(plan, piece))
        told.append(f"{piece.name}: {measures}; {summary_of(plan.pattern, piece).replace('  ·  ', ', ')}.")
    sewn = [speech.say("schematic.seam", seam=said) for said in _seam_lines(plan)]
    return " ".join([speech.say("schematic.alt", title=plan.pattern.title), *told, *sewn])


def _scene(plan: Plan, title: str, words: str, items: list[Item], height: int) -> Scene:
    return Scene(
        width=WIDTH,
        height=height,
        title=title,
        words=words,
        language=language_of(plan.pattern).tag,
        definitions={},
        items=tuple(items),
        background=PAPER,
    )
