"""A close-up: a few rows at one edge, to show how one decrease or increase is worked.

In: a planned piece, rows and a side. Out: a ``Scene``: heading, the rows in question strong and those around them
faint, marks that lead from the words below to the edge and to where the hook goes.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from turnchain import style
from turnchain.drawing import bands, heading
from turnchain.drawing.bands import corners
from turnchain.drawing.definitions import Definitions
from turnchain.drawing.folds import Folds, Span
from turnchain.drawing.heading import PictureHeading
from turnchain.drawing.key import by_words
from turnchain.drawing.looks import Look
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import CLOTH, POST, STRIP, Sheet, heights, strip_of
from turnchain.drawing.stitch_definitions import HEAD, IN_SPACE, IN_STITCH
from turnchain.errors import MakerError
from turnchain.fabric.grid import Grid, Into, Symbol
from turnchain.fabric.lattice import SIDES, Side
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.lettering.measuring import wrapped
from turnchain.numbers import rounded
from turnchain.records import frozen, replace
from turnchain.scene import Anchor, Group, Item, Path, Scene, Text, Use, Weight, arrow, ellipse, polyline, rectangle
from turnchain.wording import alt_texts, edge_captions, founding
from turnchain.wording.tables import language_of

BELOW, ABOVE = 2, 1  # rows shown around those asked for, at the least
MOST_ROWS = 12  # of those asked for
QUIET = 0.34  # how much of the ink is left in rows that are not looked at
PALE = 0.55  # how much of its colour
LEAST_ACROSS = 6.4  # half pitches shown at the least, with the margin outside the edge
CUT = 0.7  # half pitches that a cluster reaches from its middle
PAST = 1.3  # half pitches shown at the least beyond the place where the hook goes
OUTSIDE = 4.6  # of the words: left free outside the edge, for numbers and marks
OVAL_REACH = 0.1  # half pitches from the middle of a chain to its outside
FREE = 0.3  # of the words: left free above the steps
LEADING = 1.24  # from line to line, of the words
AIR = 0.3  # of the words: how far short of what it points at an arrow stops


@frozen
class Asked:
    """Rows ``first`` to ``last`` (numbers, both included) at the edge ``at``, a side of the chart as it is drawn."""

    first: int
    last: int
    at: Side


def series(piece: PiecePlan) -> Iterator[Asked]:
    """One close-up, of one row, for each kind of edge move that the section of row 1 uses at the start and at
    the end of a row: the first of each, from row 1 up. None where all edges are straight."""
    seen: set[tuple[str, bool]] = set()
    for row in piece.rows:
        for side in SIDES:
            kind = (row.edge(side).move, row.starts == side)
            if kind[0] != "straight" and kind not in seen and row.section == piece.rows[0].section:
                seen.add(kind)
                yield Asked(row.number, row.number, side)


def detail(plan: Plan, name: str, asked: Asked, size: tuple[int, int], look: Look | None = None) -> Scene:
    """The close-up of the piece ``name``, ``size`` px wide and high.

    Raises KeyError where the plan has no piece ``name``; MakerError for rows that the piece does not have, for more
    than ``MOST_ROWS`` of them, or where a file of symbols cannot be read.
    """
    found = setting(plan, name, look or Look())
    _check(found.piece, asked)
    return CloseUp(found, asked, size).scene()


def _check(piece: PiecePlan, asked: Asked) -> None:
    rows = piece.row_count
    if not 1 <= asked.first <= asked.last <= rows:
        raise MakerError(
            f'piece "{piece.name}": there are no rows {asked.first} to {asked.last}; it has rows 1 to {rows}'
        )
    if asked.last - asked.first >= MOST_ROWS:
        raise MakerError(f"a close-up shows {MOST_ROWS} rows at most; take the whole chart for more")


def subject_of(rows: list[Row], asked: Asked) -> Row:
    """The row of ``rows`` whose edge is explained: the first asked for that is shaped there, else the first asked
    for."""
    strong = [row for row in rows if asked.first <= row.number <= asked.last]
    # Beside a neck two rows have one number: the one at the edge asked for is meant.
    outer = min if asked.at == "left" else max
    ends = {row.number: [one.edge(asked.at).at for one in strong if one.number == row.number] for row in strong}
    at_edge = [row for row in strong if row.edge(asked.at).at == outer(ends[row.number])]
    return next((row for row in at_edge if row.edge(asked.at).move != "straight"), at_edge[0])


def first_cluster(grid: Grid, row: Row) -> int:
    """The number, from 0 in working order, of the first dc of the first cluster: past the turning chain and, at a
    closed start that is spaced, the extra dc."""
    made = grid.row(row)
    lead = made.symbol.index(Symbol.TURNING_CHAIN) + 1
    spaced = row.edge(row.starts).kind == "spaced"
    return lead + (grid.piece.recipe.filled - len(grid.start_gaps(row)) if spaced else 0)


class CloseUp:
    """The close-up of the rows ``asked`` for, ``size`` px wide and high; ``found`` need not be measured."""

    def __init__(self, found: Setting, asked: Asked, size: tuple[int, int]) -> None:
        self.asked, self.size = asked, size
        self.outwards = -1 if asked.at == "left" else 1
        self.unit = min(size) / 1080
        self.words = POST.words * self.unit
        self.margin = POST.margin * self.unit
        self.subject = subject_of(list(found.piece.rows), asked)
        self.caption = edge_captions.of_edge(found.pattern, found.piece, self.subject, asked.at)
        self.found = found
        self.head, self.top = self._heading()
        self.lines = self._lines()
        self.bottom = size[1] - 0.5 * self.margin - sum(len(lines) for _, lines in self.lines) * LEADING * self.words
        self.found = found.on(self._sheet())
        self.definitions = Definitions(found.grid, self.found.sheet, found.look.symbols, runs=False)
        self.rows = [row for row in self.found.rows if self._in_view(row)]

    @property
    def sheet(self) -> Sheet:
        """The measured picture."""
        return self.found.sheet

    # ------------------------------------------------------------------------------------------------ how large

    def _heading(self) -> tuple[list[Item], float]:
        pattern, piece, row = self.found.pattern, self.found.piece, self.subject
        _, _, what = self.caption[0].partition(": ")
        say = self.found.speech.say
        facing = say("facing.right" if row.number % 2 else "facing.wrong")
        where = "detail.starts" if row.starts == self.asked.at else "detail.ends"
        hand = f"  ·  {say('chart.left_handed')}" if self.found.look.hand == "left" else ""
        place = heading.HeadingPlace(
            self.margin, 0.5 * self.margin, self.size[0] - 2 * self.margin, self.words,
            self.found.look.theme,
        )
        said = PictureHeading(
            f"{pattern.title}  ·  {piece.name}",
            say("detail.row", n=row.number, what=what),
            say(where, side=say(f"at.{self.asked.at}"), facing=facing) + hand,
            by_words(pattern),
        )
        items, y = heading.drawn(said, place, post=True)
        return items, y + 0.05 * self.words

    def _lines(self) -> list[tuple[int, list[str]]]:
        """What is to be done, step by step: the number of each step and its lines."""
        room = self.size[0] - 2 * self.margin - 1.7 * self.words
        steps = edge_captions.edge_in_parts(self.found.pattern, self.found.piece, self.subject, self.asked.at)
        return [(nth, wrapped(one, room, self.words)) for nth, one in enumerate(steps, start=1)]

    def _sheet(self) -> Sheet:
        """As large as a few rows fill the picture between the heading and the words, and the edge is seen."""
        look, piece, asked = self.found.look, self.found.piece, self.asked
        room = self.bottom - self.top - FREE * self.words
        low, high, half = self._rows_and_half(room)
        rise = look.rise(piece, half)
        window = Span(low, high)
        ends = self._outer_ends(window)
        outer = min(ends) if asked.at == "left" else max(ends)
        # clusters that reach into the picture are drawn, and cut by its side; those beyond are not
        across = math.floor((self.size[0] - OUTSIDE * self.words) / half - CLOTH + CUT) + 1
        far = piece.rightmost - piece.leftmost + across + 100
        inner = outer - self.outwards * across
        hidden = Span(inner + 1, inner + far) if asked.at == "left" else Span(inner - far, inner)
        sheet = Sheet(
            width=self.size[0], unit=self.unit, half=half, rise=rise, zero=0, ground=0,
            heights=heights(piece, rise, Folds(window=window)), chart_left=0, chart_right=self.size[0],
            key_beside=False, theme=look.theme, folds=Folds(hidden, window=window), frame=POST,
            strip=strip_of(piece),
        )
        wanted = self.size[0] - OUTSIDE * self.words if asked.at == "right" else OUTSIDE * self.words
        used = sheet.heights[-1] + (sheet.strip * rise if low == 1 else 0.0)
        foot = self.top + (room - used) / 2 + sheet.heights[-1]
        return replace(sheet, zero=round(wanted - sheet.side(outer, asked.at)), ground=round(foot))

    def _rows_and_half(self, room: float) -> tuple[int, int, int]:
        """The rows from the lowest to the highest, as many as fill ``room`` px, and the px of half a pitch then."""
        piece, asked = self.found.piece, self.asked
        low, high = max(1, asked.first - BELOW), min(piece.row_count, asked.last + ABOVE)
        shape = self.found.look.rise(piece, 1000) / 1000
        while True:
            ends = self._outer_ends(Span(low, high))
            reach = abs((min(ends) if asked.at == "left" else max(ends)) - self._place()[0]) + PAST
            across = min(self.size[0] / LEAST_ACROSS, (self.size[0] - OUTSIDE * self.words) / reach)
            rows = high - low + 1 + (strip_of(piece) if low == 1 else 0.0)
            if rows * shape * across >= room or (low == 1 and high == piece.row_count):
                return low, high, max(1, int(min(room / rows / shape, across)))
            if (low > 1 and asked.first - low <= high - asked.last + 1) or high == piece.row_count:
                low -= 1
            else:
                high += 1

    def _outer_ends(self, window: Span) -> list[int]:
        """The edge asked for, of every row in the window; where a neck divides them, of the row at that side."""
        furthest = min if self.asked.at == "left" else max
        ends: dict[int, int] = {}
        for row in self.found.piece.rows:
            if window.first <= row.number <= window.last:
                at = row.edge(self.asked.at).at
                ends[row.number] = furthest(ends.get(row.number, at), at)
        return list(ends.values())

    def _in_view(self, row: Row) -> bool:
        """Whether any of ``row`` lies in the picture."""
        left, right = self.sheet.side(row.left.at, "left"), self.sheet.side(row.right.at, "right")
        if self.asked.at == "left":
            return left < self.size[0]
        return right > 0

    def _strong(self, row: Row) -> bool:
        return self.asked.first <= row.number <= self.asked.last

    # ------------------------------------------------------------------------------------------------ the picture

    def scene(self) -> Scene:
        """The finished picture."""
        found = self.found
        items: list[Item] = [*self.head]
        items.append(Group(tuple(item for row in self.rows for item in self._band(row)), "stripes"))
        items.append(Group(tuple(item for row in self.rows for item in self._strip(row)), "strips"))
        if found.founded:
            items += self._foundation()
        items += [self._stitches(row) for row in self.rows]
        items += [item for row in self.rows for item in self._edge(row)]
        items += [self._numbers(), *self._marks(), self._caption()]
        return Scene(
            width=self.size[0],
            height=self.size[1],
            title=found.speech.say(
                f"detail.{self.asked.at}", title=found.pattern.title, piece=found.piece.name, n=self.asked.first
            ),
            words=". ".join(self.caption),
            language=language_of(found.pattern).tag,
            definitions=self.definitions.made,
            items=tuple(items),
            background=found.look.background,
        )

    def _band(self, row: Row) -> list[Item]:
        corner = [
            self._within(point)
            for side in SIDES
            for point in corners(self.found.piece, self.sheet, row, side)[:: 1 if side == "left" else -1]
        ]
        colour = self._shade(row)
        fill = Path(polyline(corner, closed=True), fill=colour)
        hatched = self.found.colours.hatched(row, corner, self.unit) if self._strong(row) else []
        lines = [
            Path(polyline([self._within(corner[0]), self._within(corner[3])]), cap="butt",
                 stroke=style.mixed(self.found.colours.ink(row), colour, 0.25), width=rounded(0.022 * self.sheet.rise))
        ] if row.number > self.rows[0].number else []
        return [fill, *hatched, *lines]

    def _strip(self, row: Row) -> Iterator[Path]:
        """The cloth under the chains or the slip stitches of a step, as far as it lies in the picture."""
        box = bands.step_strip(self.found, row)
        if box is not None:
            left, right = (self._within((x, 0.0))[0] for x in box[:2])
            if left < right:
                yield Path(rectangle(left, box[2], right - left, rounded(box[3] - box[2])), fill=self._shade(row))

    def _shade(self, row: Row) -> str:
        """The colour of a band: one that is not looked at is part paper, whatever ground it comes to lie on."""
        colour = self.found.colours.tint(row)
        return colour if self._strong(row) else style.mixed(colour, self.found.theme.paper, PALE)

    def _ink(self, row: Row) -> str:
        if self._strong(row):
            return self.found.colours.ink(row)
        colour = self._shade(row)
        return style.mixed(style.ink_on(colour), colour, QUIET)

    def _within(self, point: tuple[float, float]) -> tuple[float, float]:
        """``point`` brought to the picture's side, if it lies beyond."""
        return min(max(point[0], 0.0), float(self.size[0])), point[1]

    def _foundation(self) -> list[Item]:
        first = self.found.piece.rows[0]
        left, right = (self._within((self.sheet.side(first.edge(side).at, side), 0.0))[0] for side in SIDES)
        y = self.sheet.ground
        strip = Path(
            rectangle(rounded(left), y, rounded(right - left), rounded(self.sheet.strip * self.sheet.rise)),
            fill=self._shade(first),
        )
        chains = [
            use for use in self.definitions.foundation(self._ink(first))
            if -self.sheet.half < use.x < self.size[0] + self.sheet.half
        ]
        told = founding.said(self.found.speech, "chart.foundation", self.found.piece)
        return [strip, Group(tuple(chains), "foundation", told)]

    def _stitches(self, row: Row) -> Item:
        name = self.definitions.row(row)
        use = Use(name, rounded(self.sheet.x(row.left.at)), self.sheet.top(row.number), self._ink(row))
        return Group((use,), f"row-of-stitches-{row.index + 1}", alt_texts.of_row(self.found.pattern, row))

    def _edge(self, row: Row) -> list[Item]:
        """The line along the edge of one row, and what lies outside it."""
        items: list[Item] = []
        low, high = corners(self.found.piece, self.sheet, row, self.asked.at)
        edge, strong = row.edge(self.asked.at), self._strong(row)
        if edge.move == "straight":
            outline = self.found.colours.against(row, self.found.theme.paper)
            if outline:
                items.append(Path(polyline([low, high]), stroke=outline, width=rounded(0.022 * self.sheet.rise)))
            return items
        colour = self.found.theme.shaping if strong else style.mixed(self.found.theme.shaping, self._shade(row), 0.4)
        line = bands.shaped_line(self.found, row, self.asked.at) or [low, high]
        items.append(Path(polyline(line), stroke=colour, width=rounded((0.075 if strong else 0.05) * self.sheet.rise)))
        return items

    def _numbers(self) -> Group:
        """The number of every row that starts at this edge, and which way the rows asked for are worked."""
        items: list[Item] = []
        theme, size = self.found.theme, self.words
        x = self.size[0] - self.margin if self.outwards > 0 else self.margin
        anchor: Anchor = "end" if self.outwards > 0 else "start"
        for row in self.rows:
            starts, strong = row.starts == self.asked.at, self._strong(row)
            y = self.sheet.middle(row.number)
            if not starts and not strong:
                continue
            colour = theme.ink if strong else theme.soft
            own = size * (1.2 if strong else 1.0)
            weight: Weight = "semibold" if strong else "regular"
            items.append(
                Text(rounded(x), rounded(y + (0.0 if strong else 0.35 * own)), str(row.number), rounded(own), colour,
                     weight, anchor)
            )
            if strong:
                wide = 1.5 * size
                inner, outer = x - self.outwards * wide, x
                tail, tip = (outer, inner) if starts else (inner, outer)
                way = arrow((tail, y + 0.55 * own), (tip, y + 0.55 * own), 0.42 * size)
                items.append(Path(way, stroke=theme.ink, width=rounded(0.09 * size)))
        return Group(tuple(items), "row-numbers")

    # ------------------------------------------------------------------------------------------------ words and marks

    def _marks(self) -> list[Item]:
        """The numbers of the steps where they are done, the last with an arrow to where the hook goes."""
        tip = self.hook()
        radius = 0.66 * self.words
        items: list[Item] = []
        if len(self.lines) > 1 and self.subject.starts == self.asked.at:
            low, high = corners(self.found.piece, self.sheet, self.subject, self.asked.at)
            x, y = (low[0] + high[0]) / 2 + self.outwards * 1.7 * radius, (low[1] + high[1]) / 2
            if low[0] != high[0]:
                x += self.outwards * 0.6 * radius
            if self.subject.number == 1:
                y = self.sheet.ground + self.sheet.strip / 2 * self.sheet.rise
            items += self._disc(x, y, 1)
            last = 2
        else:
            last = 1
        tail = self._tail(tip)
        length = math.dist(tail, tip)
        onto_chain = self._place()[1] in (Into.FOUNDATION, Into.OWN_CHAIN)
        stop = 1 - (AIR * self.words + OVAL_REACH * self.sheet.half * onto_chain) / length
        to = (tail[0] + (tip[0] - tail[0]) * stop, tail[1] + (tip[1] - tail[1]) * stop)
        steps = arrow(tail, to, 0.55 * self.words)
        halo = Path(steps, stroke=self.found.theme.paper, width=rounded(0.42 * self.words))
        line = Path(steps, stroke=self.found.theme.shaping, width=rounded(0.2 * self.words))
        items.append(Group((halo, line), "hook", self.found.speech.say("detail.hook")))
        items += self._disc(*tail, last)
        return items

    def hook(self) -> tuple[float, float]:
        """Where the hook goes, (x, y) in px: at the start of a row into the place of its first cluster, at the end of a
        row into that of the edge stitch."""
        foot, into, head = self._place()
        foot = self.definitions.on_drawn_head(self.subject, foot, into)
        if into is Into.FOUNDATION:
            foot = self.definitions.chain_under(head)
        depth = {Into.SPACE: IN_SPACE + 0.05, Into.FOUNDATION: 1 + self.sheet.strip / 2, Into.OWN_CHAIN: 1 + STRIP / 2}
        y = self.sheet.top(self.subject.number) + self.sheet.rise * depth.get(into, IN_STITCH + HEAD / 2)
        return self.sheet.x(foot), y

    def _place(self) -> tuple[float, Into, float]:
        """The foot, what it is worked into and the head of the stitch that the arrow is about."""
        made = self.found.grid.row(self.subject)
        starts = self.subject.starts == self.asked.at
        place = first_cluster(self.found.grid, self.subject) if starts else len(made) - 1
        return float(made.foot[place]), Into(int(made.into[place])), float(made.head[place])

    def _tail(self, tip: tuple[float, float]) -> tuple[float, float]:
        """Where the arrow begins: beside the stitch that it is about, in the middle of the row."""
        starts = self.subject.starts == self.asked.at
        into = float(self.found.grid.row(self.subject).into[0])
        if starts or into == Into.FOUNDATION:
            x = tip[0] + self.outwards * 0.72 * self.sheet.half
            down = 0.62 if starts else 0.1  # above the number of the row, where it ends on the foundation
            return x, self.sheet.top(self.subject.number) + down * self.sheet.rise
        x = tip[0] + self.outwards * 1.25 * self.sheet.half
        clear = self.margin + 2.4 * self.words  # of the numbers
        return min(max(x, clear), self.size[0] - clear), tip[1] + 0.55 * self.sheet.rise

    def _disc(self, x: float, y: float, number: int) -> list[Item]:
        """The number of a step on a disc."""
        theme, radius = self.found.theme, 0.66 * self.words
        circle = ellipse(x, y, radius, radius)
        size = 0.985 * self.words
        return [
            Path(circle, fill=theme.shaping, stroke=theme.paper, width=rounded(0.12 * self.words)),
            Text(
                rounded(x), rounded(y + 0.36 * size), str(number), rounded(size), style.INK_LIGHT, "semibold", "middle"
            ),
        ]

    def _caption(self) -> Group:
        """The steps in words, at the foot of the picture."""
        items: list[Item] = []
        y = self.bottom
        theme = self.found.theme
        marked = 2 if len(self.lines) > 1 and self.subject.starts == self.asked.at else 1
        for number, lines in self.lines:
            if number <= marked:
                items += self._disc(self.margin + 0.66 * self.words, y + 0.75 * self.words, number)
            for line in lines:
                y += LEADING * self.words
                at = rounded(self.margin + 1.7 * self.words), rounded(y - 0.2 * self.words)
                items.append(Text(*at, line, rounded(self.words), theme.ink))
        return Group(tuple(items), "caption")
