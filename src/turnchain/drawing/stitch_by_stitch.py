"""An edge worked stitch by stitch: as a moving picture, and as a strip of numbered panels for print.

In: a planned piece, rows and a side. Out: a ``MovingPicture``, or the ``Scene`` of the strip. The rows below are there
from the beginning; of the rows asked for, every step adds what is made, drawn in the colour of shaping while it is new,
with a ring where the hook goes in and the words of the step.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence

from turnchain.drawing import bands, heading
from turnchain.drawing.bands import corners
from turnchain.drawing.definitions import Definitions
from turnchain.drawing.detail import MOST_ROWS, QUIET, Asked
from turnchain.drawing.folds import Folds, Span
from turnchain.drawing.heading import HeadingPlace, PictureHeading
from turnchain.drawing.key import by_words
from turnchain.drawing.looks import Look
from turnchain.drawing.setting import Setting, setting
from turnchain.drawing.sheet import POST, STRIP, Sheet, heights, strip_of
from turnchain.drawing.stitch_definitions import HEAD, IN_SPACE, IN_STITCH
from turnchain.errors import MakerError
from turnchain.fabric.grid import Into
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.lettering.measuring import wrapped
from turnchain.numbers import rounded
from turnchain.records import frozen, replace
from turnchain.scene import Group, Item, MovingPicture, Path, Scene, Text, Use, arrow, ellipse, polyline, rectangle
from turnchain.style import INK_LIGHT, mixed
from turnchain.wording.edge_steps import StitchStep, of_edge
from turnchain.wording.tables import language_of

BELOW = 2  # rows shown below those asked for, where there is room
AIR = 1.6  # half pitches shown beyond the innermost stitch worked
OUTSIDE = 3.4  # of the words: left free outside the edge, for the numbers of rows
ABOVE = 0.25  # rows left free above the last one
LEADING = 1.24  # from line to line, of the words
LAST = 2.5  # seconds that the finished edge stays, beside its words
LEAST_SECONDS, SECONDS_A_WORD = 1.0, 0.4  # common practice, no source: 150 words a minute, as instructions are read
COLUMNS, STRIP_WIDTH = 3, 1600  # of the strip for print: panels side by side, and px
PANEL = 0.82  # height of a panel's drawing over its width


@frozen
class Stage:
    """A ``step`` of ``row``, which is the ``number``-th, from 1, of ``whole`` steps."""

    row: Row
    step: StitchStep
    number: int
    whole: int

    @property
    def words(self) -> str:
        """What is done, in the language of the pattern."""
        return self.step.words


@frozen
class DrawingPlace:
    """The part of a page that a drawing fills, in px from the left and the top of the page."""

    left: float
    top: float
    width: float
    height: float


def moving(plan: Plan, name: str, asked: Asked, size: tuple[int, int], look: Look | None = None) -> MovingPicture:
    """The edge of the piece ``name`` worked stitch by stitch, ``size`` px wide and high.

    Raises KeyError where the plan has no piece ``name``; MakerError for rows that the piece does not have or more than
    ``detail.MOST_ROWS`` of them, or where a file of symbols cannot be read.
    """
    edge = _Edge(plan, name, asked, look or Look())
    scenes = tuple(_scenes(edge, size))
    seconds = reading_times(edge.stages)
    return MovingPicture(scenes, seconds, edge.told())


def reading_times(stages: Sequence[Stage]) -> tuple[float, ...]:
    """How long each of ``stages`` (at least one) is shown, in seconds: ``LEAST_SECONDS``, and ``SECONDS_A_WORD`` for
    every word unless the stage before is of the same row and ``part``, whose words were just read; the last stays
    ``LAST`` seconds more."""
    seconds = []
    for before, stage in zip([None, *stages], stages, strict=False):
        read = before is not None and before.row == stage.row and before.step.part == stage.step.part
        seconds.append(round(LEAST_SECONDS + (0 if read else SECONDS_A_WORD * len(stage.words.split())), 2))
    return (*seconds[:-1], seconds[-1] + LAST)


def strip(plan: Plan, name: str, asked: Asked, look: Look | None = None) -> Scene:
    """The same steps side by side in numbered panels, 1600 px wide and as high as they need. Raises as ``moving``
    does."""
    edge = _Edge(plan, name, asked, look or Look())
    unit = STRIP_WIDTH / POST.reference * 0.72
    margin, words = POST.margin * unit, POST.words * unit
    theme = edge.found.look.theme
    place = HeadingPlace(margin, 0.5 * margin, STRIP_WIDTH - 2 * margin, words, theme)
    items, y = heading.drawn(edge.heading(*edge.rows), place, post=True)
    y += words
    columns = min(COLUMNS, len(edge.stages))
    width = (STRIP_WIDTH - 2 * margin - (COLUMNS - 1) * words) / COLUMNS
    drawing = _Drawing.measured(edge, DrawingPlace(0, 0, width, PANEL * width), unit, STRIP_WIDTH).trimmed()
    high = drawing.frame.height
    room = width - 2.1 * words
    for first in range(0, len(edge.stages), columns):
        line = edge.stages[first : first + columns]
        lines = [wrapped(stage.words, room, words) for stage in line]
        for nth, (stage, said) in enumerate(zip(line, lines, strict=True)):
            x = margin + nth * (width + words)
            panel = drawing.at(round(x), round(y)).stage(stage)
            items += [Group((*panel, *_said(edge, stage, said, (x, y + high + 0.3 * words), words)),
                            f"step-{stage.number}", stage.words)]  # fmt: skip
        y += high + (max(len(said) for said in lines) * LEADING + 1.2) * words
    return _scene(edge, (STRIP_WIDTH, round(y + 0.4 * words)), drawing.definitions, items, edge.told())


def _scenes(edge: _Edge, size: tuple[int, int]) -> Iterator[Scene]:
    """One scene for each step; only the drawing and the words change."""
    unit = min(size) / POST.reference
    margin, words = POST.margin * unit, POST.words * unit
    place = HeadingPlace(margin, 0.5 * margin, size[0] - 2 * margin, words, edge.found.look.theme)
    heads = [heading.drawn(edge.heading(stage.row), place, post=True) for stage in edge.stages]
    top = max(foot for _, foot in heads)
    lines = [wrapped(stage.words, size[0] - 2 * margin - 2.1 * words, words) for stage in edge.stages]
    foot = size[1] - 0.6 * margin - max(len(said) for said in lines) * LEADING * words
    place_of_drawing = DrawingPlace(0, top + 0.3 * words, size[0], foot - top - 0.7 * words)
    drawing = _Drawing.measured(edge, place_of_drawing, unit, size[0])
    for (head, _), stage, said in zip(heads, edge.stages, lines, strict=True):
        items = [*head, *drawing.stage(stage), *_said(edge, stage, said, (margin, foot), words, counted=True)]
        yield _scene(edge, size, drawing.definitions, items, f"{stage.number}/{stage.whole}: {stage.words}.")


def _said(
    edge: _Edge, stage: Stage, lines: list[str], at: tuple[float, float], words: float, counted: bool = False
) -> list[Item]:
    """The number of a step on a disc, and its words beside it."""
    theme, (x, y) = edge.found.look.theme, at
    radius = 0.72 * words
    middle = (x + radius, y + 0.75 * words)
    small = rounded((0.94 if stage.number < 10 else 0.8) * words)
    items: list[Item] = [
        Path(ellipse(*middle, radius, radius), fill=theme.shaping),
        Text(rounded(middle[0]), rounded(middle[1] + 0.36 * small), str(stage.number), small, INK_LIGHT, "semibold",
             "middle"),
    ]  # fmt: skip
    for nth, line in enumerate(lines, start=1):
        items.append(Text(rounded(x + 2.0 * words), rounded(y + (nth * LEADING - 0.2) * words), line, rounded(words),
                          theme.ink))  # fmt: skip
    return [Group(tuple(items), "caption")] if counted else items


def _scene(
    edge: _Edge, size: tuple[int, int], definitions: Definitions, items: list[Item], words: str
) -> Scene:
    found = edge.found
    return Scene(
        width=size[0],
        height=size[1],
        title=found.speech.say(
            "moving.title", title=found.pattern.title, piece=found.piece.name, n=edge.asked.first
        ),
        words=words,
        language=language_of(found.pattern).tag,
        definitions=definitions.made,
        items=tuple(items),
        background=found.look.background,
    )


class _Edge:
    """The rows asked for and their steps. Of the piece, only what is worked by then is there."""

    def __init__(self, plan: Plan, name: str, asked: Asked, look: Look) -> None:
        found = setting(plan, name, look)
        _check(found.piece, asked)
        self.asked, self.outwards = asked, -1 if asked.at == "left" else 1
        worked = tuple(row for row in found.piece.rows if row.number <= asked.last)
        self.found = replace(found, piece=replace(found.piece, rows=worked))
        self.rows = self._at_edge()
        steps = [(row, step) for row in self.rows for step in self._steps(found.piece, row)]
        self.stages = [Stage(row, step, nth, len(steps)) for nth, (row, step) in enumerate(steps, start=1)]

    def _steps(self, piece: PiecePlan, row: Row) -> tuple[StitchStep, ...]:
        return of_edge(self.found.speech, piece, row, self.asked.at)

    def _at_edge(self) -> list[Row]:
        """The rows asked for; where two have one number beside a neck, the one at the edge."""
        outermost: dict[int, Row] = {}
        for row in self.found.piece.rows:
            if row.number >= self.asked.first:
                had = outermost.get(row.number, row)
                outer = (row.edge(self.asked.at).at - had.edge(self.asked.at).at) * self.outwards >= 0
                outermost[row.number] = row if outer else had
        return [outermost[number] for number in sorted(outermost)]

    def heading(self, *rows: Row) -> PictureHeading:
        """What it belongs to, which ``rows`` they are, and, of a single one, where."""
        pattern = self.found.pattern
        over, titles = f"{pattern.title}  ·  {self.found.piece.name}", [self._title(row) for row in rows]
        return PictureHeading(
            over, "; ".join(titles), self._where(rows[0]) if len(rows) == 1 else "", by_words(pattern)
        )

    def _title(self, row: Row) -> str:
        say = self.found.speech.say
        move = say("caption.foundation" if row.number == 1 else f"move.{row.edge(self.asked.at).move}")
        return say("detail.row", n=row.number, what=move)

    def _numbers(self) -> str:
        first, last = self.asked.first, self.asked.last
        return str(first) if first == last else f"{first}-{last}"

    def _where(self, row: Row) -> str:
        say = self.found.speech.say
        facing = say("facing.right" if row.number % 2 else "facing.wrong")
        where = "detail.starts" if row.starts == self.asked.at else "detail.ends"
        hand = f", {say('chart.left_handed')}" if self.found.look.hand == "left" else ""
        return say(where, side=say(f"at.{self.asked.at}"), facing=facing) + hand

    def told(self) -> str:
        """The alt text: every step in its order."""
        steps = " ".join(f"{stage.number}. {stage.words}." for stage in self.stages)
        return self.found.speech.say(
            "moving.alt", n=self._numbers(), piece=self.found.piece.name, title=self.found.pattern.title,
            where=self._where(self.rows[0]), count=len(self.stages), steps=steps,
        )  # fmt: skip

    def outermost(self, low: int) -> int:
        """How far out the edge reaches from row ``low`` on."""
        furthest = min if self.asked.at == "left" else max
        return furthest(row.edge(self.asked.at).at for row in self.found.piece.rows if row.number >= low)

    def reach(self, low: int) -> float:
        """Half pitches from the outermost edge to a little beyond the innermost stitch that is worked."""
        places: list[float] = []
        for stage in self.stages:
            made = self.found.grid.row(stage.row)
            places += [*made.head[stage.step.first : stage.step.stop], *made.foot[stage.step.first : stage.step.stop]]
        inner = max(places) if self.asked.at == "left" else min(places)
        return abs(self.outermost(low) - inner) + AIR


def _check(piece: PiecePlan, asked: Asked) -> None:
    rows = piece.row_count
    if not 1 <= asked.first <= asked.last <= rows:
        raise MakerError(
            f'piece "{piece.name}": there are no rows {asked.first} to {asked.last}; it has rows 1 to {rows}'
        )
    if asked.last - asked.first >= MOST_ROWS:
        raise MakerError(f"stitch by stitch shows {MOST_ROWS} rows at most")


def _sheet(edge: _Edge, frame: DrawingPlace, unit: float, page: int) -> Sheet:
    """As large as the rows fill the frame and all that is worked is seen."""
    piece, asked, look = edge.found.piece, edge.asked, edge.found.look
    free = OUTSIDE * POST.words * unit
    low = max(1, asked.first - BELOW)
    rows = asked.last - low + 1 + ABOVE + strip_of(piece) * (low == 1)
    half = max(1, int(min(frame.height / rows * 1000 / look.rise(piece, 1000), (frame.width - free) / edge.reach(low))))
    rise = look.rise(piece, half)
    while low > 1 and (asked.last - low + 2 + ABOVE + strip_of(piece) * (low == 2)) * rise <= frame.height:
        low -= 1
    outer = edge.outermost(low)
    shown = math.ceil((frame.width - free) / half) + (page == frame.width)
    inner, far = outer - edge.outwards * shown, piece.rightmost - piece.leftmost + shown + 100
    hidden = Span(inner + 1, inner + far) if asked.at == "left" else Span(inner - far, inner)
    folds = Folds(hidden, window=Span(low, asked.last))
    sheet = Sheet(
        width=page, unit=unit, half=half, rise=rise, zero=0, ground=0, heights=heights(piece, rise, folds),
        chart_left=0, chart_right=page, key_beside=False, theme=look.theme, folds=folds, frame=POST,
        strip=strip_of(piece),
    )  # fmt: skip
    wanted = frame.left + (frame.width - free if asked.at == "right" else free)
    used = sheet.heights[-1] + (ABOVE + sheet.strip * (low == 1)) * rise
    ground = frame.top + (frame.height - used) / 2 + ABOVE * rise + sheet.heights[-1]
    return replace(sheet, zero=round(wanted - sheet.side(outer, asked.at)), ground=round(ground))


@frozen(slots=False)
class _Drawing:
    """The edge in a ``frame`` of a page ``page`` px wide, at any stage; ``definitions`` were made on a sheet of the
    same size, wherever it lay."""

    edge: _Edge
    frame: DrawingPlace
    unit: float
    page: int
    found: Setting
    definitions: Definitions

    @classmethod
    def measured(cls, edge: _Edge, frame: DrawingPlace, unit: float, page: int) -> _Drawing:
        """As large as the frame allows."""
        found = edge.found.on(_sheet(edge, frame, unit, page))
        definitions = Definitions(found.grid, found.sheet, found.look.symbols, runs=False)
        return cls(edge, frame, unit, page, found, definitions)

    def at(self, x: int, y: int) -> _Drawing:
        """The same drawing moved by whole px."""
        frame = replace(self.frame, left=self.frame.left + x, top=self.frame.top + y)
        sheet = replace(self.sheet, zero=self.sheet.zero + x, ground=self.sheet.ground + y)
        return replace(self, frame=frame, found=self.found.on(sheet))

    def trimmed(self) -> _Drawing:
        """The same in a frame that is no higher than the rows need."""
        rise = self.sheet.rise
        high = self.sheet.heights[-1] + (ABOVE + self.sheet.strip * self.found.founded) * rise
        moved = self.at(0, -round((self.frame.height - high) / 2))
        return replace(moved, frame=replace(self.frame, height=high))

    @property
    def sheet(self) -> Sheet:
        """The measured picture."""
        return self.found.sheet

    @property
    def words(self) -> float:
        """The px of the em."""
        return self.sheet.words

    # ------------------------------------------------------------------------------------------------ the picture

    def stage(self, stage: Stage) -> list[Item]:
        """The edge when the step of ``stage`` is done."""
        before = [row for row in self.found.rows if row.index < stage.row.index and self._seen(row)]
        items: list[Item] = [item for row in before for item in self._band(row, None)]
        items += self._band(stage.row, stage.step.stop)
        if self.found.founded:
            items += self._foundation()
        for row in before:
            items += self._uses(row, 0, len(self.found.grid.row(row)), self._ink(row))
        items += self._uses(stage.row, 0, stage.step.first, self._ink(stage.row))
        done = [stage.row] if stage.step.stop == len(self.found.grid.row(stage.row)) else []
        items += [item for row in (*before, *done) for item in self._edge_line(row)]
        items += self._uses(stage.row, stage.step.first, stage.step.stop, self.found.theme.shaping)
        return [Group((*items, *self._ring(stage), *self._numbers(stage)), f"drawing-{stage.number}")]

    def _seen(self, row: Row) -> bool:
        """Whether any of ``row`` lies in the frame."""
        left, right = self.sheet.side(row.left.at, "left"), self.sheet.side(row.right.at, "right")
        return left < self.frame.left + self.frame.width and right > self.frame.left

    def _within(self, x: float) -> float:
        return rounded(min(max(x, self.frame.left), self.frame.left + self.frame.width))

    def _strong(self, row: Row) -> bool:
        return row.number >= self.edge.asked.first

    def _ink(self, row: Row) -> str:
        colours = self.found.colours
        return colours.ink(row) if self._strong(row) else mixed(colours.ink(row), colours.tint(row), 1 - 0.5 * QUIET)

    def _band(self, row: Row, stop: int | None) -> list[Item]:
        """The cloth of a row; as far as its stitches before number ``stop`` reach."""
        (low_left, high_left), (low_right, high_right) = (
            corners(self.found.piece, self.sheet, row, side) for side in ("left", "right")
        )
        points: list[tuple[float, float]] = [low_left, high_left, high_right, low_right]
        made = self.found.grid.row(row)
        if stop is not None and stop < len(made):
            rightwards = row.starts == "left"
            reach = made.head[stop - 1] + (0.6 if rightwards else -0.6) * self.found.grid.pace
            end = self.sheet.x(reach)
            points = [(min(x, end) if rightwards else max(x, end), y) for x, y in points]
        shown: list[tuple[float, float]] = [(self._within(x), y) for x, y in points]
        items: list[Item] = [Path(polyline(shown, closed=True), fill=self.found.colours.tint(row))]
        items += self.found.colours.hatched(row, shown, self.unit)
        if row.number > self.found.rows[0].number:
            line = mixed(self.found.colours.ink(row), self.found.colours.tint(row), 0.25)
            thin = rounded(0.022 * self.sheet.rise)
            items.append(Path(polyline([shown[0], shown[3]]), stroke=line, width=thin, cap="butt"))
        return [*items, *self._strip(row)]

    def _strip(self, row: Row) -> Iterator[Path]:
        """The cloth under the chains or the slip stitches of a step."""
        box = bands.step_strip(self.found, row)
        if box is not None:
            left, right = (self._within(x) for x in box[:2])
            if left < right:
                box_of = rectangle(left, box[2], rounded(right - left), rounded(box[3] - box[2]))
                yield Path(box_of, fill=self.found.colours.tint(row))

    def _foundation(self) -> list[Item]:
        first = self.found.piece.rows[0]
        ink = self._ink(first)
        left, right = (self._within(self.sheet.side(first.edge(side).at, side)) for side in ("left", "right"))
        box = rectangle(left, self.sheet.ground, rounded(right - left), rounded(self.sheet.strip * self.sheet.rise))
        made = self.definitions.sheet
        right, down = self.sheet.zero - made.zero, self.sheet.ground - made.ground
        chains = [replace(use, x=rounded(use.x + right), y=use.y + down) for use in self.definitions.foundation(ink)]
        return [Path(box, fill=self.found.colours.tint(first)), *(use for use in chains if self._inside(use))]

    def _uses(self, row: Row, first: int, stop: int, ink: str) -> list[Item]:
        """Stitches of a row where they stand."""
        x, y = self.sheet.x(row.left.at), self.sheet.top(row.number)
        uses = (Use(use.name, rounded(x + use.x), y, ink) for use in self.definitions.part(row, first, stop))
        return [use for use in uses if self._inside(use)]

    def _inside(self, use: Use) -> bool:
        """Whether a stitch stands whole in the frame, or at the side of the page."""
        room = self.sheet.half if self.frame.width == self.page else -0.1 * self.sheet.half
        return self.frame.left - room < use.x < self.frame.left + self.frame.width + room

    def _edge_line(self, row: Row) -> list[Item]:
        """The line along a shaped edge."""
        if row.edge(self.edge.asked.at).move == "straight":
            return []
        at = self.edge.asked.at
        line = bands.shaped_line(self.found, row, at) or list(corners(self.found.piece, self.sheet, row, at))
        colour = mixed(self.found.theme.shaping, self.found.colours.tint(row), 0.6)
        return [Path(polyline(line), stroke=colour, width=rounded(0.05 * self.sheet.rise))]

    def _ring(self, stage: Stage) -> list[Item]:
        """Where the hook goes in for the last stitch made."""
        made, place = self.found.grid.row(stage.row), stage.step.stop - 1
        into = Into(int(made.into[place]))
        if into is Into.AIR or place == 0:
            return []
        foot = self.definitions.on_drawn_head(stage.row, float(made.foot[place]), into)
        if into is Into.FOUNDATION:
            foot = self.definitions.chain_under(float(made.head[place]))
        depth = {Into.SPACE: IN_SPACE + 0.05, Into.FOUNDATION: 1 + self.sheet.strip / 2, Into.OWN_CHAIN: 1 + STRIP / 2}
        y = self.sheet.top(stage.row.number) + self.sheet.rise * depth.get(into, IN_STITCH + HEAD / 2)
        radius = 0.13 * self.sheet.rise
        steps = ellipse(rounded(self.sheet.x(foot)), rounded(y), rounded(radius), rounded(radius))
        return [Path(steps, stroke=self.found.theme.shaping, width=rounded(0.035 * self.sheet.rise))]

    def _numbers(self, stage: Stage) -> Iterator[Item]:
        """The number of the row in work with the way it is worked, and of rows that start at this edge."""
        theme, size, outwards = self.found.theme, self.words, self.edge.outwards
        inset = 0.5 * self.words
        x = self.frame.left + (self.frame.width - inset if outwards > 0 else inset)
        for row in self.found.rows:
            working = row == stage.row
            if row.index > stage.row.index or not (working or row.starts == self.edge.asked.at):
                continue
            y = self.sheet.middle(row.number)
            colour, own = (theme.ink, 1.2 * size) if working else (theme.soft, size)
            base = y if working else y + 0.35 * own
            yield Text(rounded(x), rounded(base), str(row.number), rounded(own), colour,
                       "semibold" if working else "regular", "end" if outwards > 0 else "start")  # fmt: skip
            if working:
                ends = [x - outwards * 1.5 * size, x]
                inner, outer = ends
                tail, tip = (outer, inner) if row.starts == self.edge.asked.at else (inner, outer)
                at = y + 0.55 * own
                yield Path(arrow((tail, at), (tip, at), 0.42 * size), stroke=theme.ink, width=rounded(0.09 * size))
