"""The pictures of the page beside the work: charts and cloth whose colours a reader can change.

In: a plan and a look. Out: inline SVG, as text for an HTML page. Every colour that can change is a CSS variable
(--y1 for the first yarn, --i1 for the ink on it, --t1 for its tint, --paper, --ink and so on for the page), so one
change of a variable repaints everything. Stitches are gathered into blocks that are drawn as one outline each: a
browser keeps thousands of clusters in a few hundred elements.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from itertools import islice

from turnchain import style
from turnchain.drawing import bands, loops, margins, placement
from turnchain.drawing.chart import foot
from turnchain.drawing.cloth import Tabletop
from turnchain.drawing.colours import Colours
from turnchain.drawing.definitions import Definitions
from turnchain.drawing.folds import NO_FOLDS
from turnchain.drawing.glyphs import merge
from turnchain.drawing.looks import Look
from turnchain.drawing.margins import Margins
from turnchain.drawing.placement import Placed, Scale
from turnchain.drawing.preview import STEP
from turnchain.drawing.setting import Setting
from turnchain.drawing.sheet import Frame
from turnchain.drawing.sizing import block, exact, measured
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.numbers import rounded
from turnchain.pages.beside.petals import DUSK, SHADE, SHINE, Petals
from turnchain.records import frozen, replace
from turnchain.scene import INK, Group, Item, Path, Scene, Step, Use, polyline
from turnchain.style import Theme
from turnchain.wording.tables import language_of
from turnchain.writers import svg
from turnchain.yarns.carrying import carry_of, changes

FRAME = Frame(reference=700, margin=8, words=17.0)
HALF = 6  # px to half a pitch at the least: places are rounded to hundredths of a px
BLOCK = 24  # stitches, or groups of them, drawn as one
CLOTH = 1440  # px wide
TALLEST = 0.9  # the cloth is at most this many times as high as wide
AIR = 12  # px around the cloth

THEME = Theme(*(f"var(--{name})" for name in ("paper", "ink", "soft", "hair", "accent", "accent")))
HAIRLINE = 0.25  # opacity, 0 to 1, of the ink between rows


class Painted(Colours):
    """The colours of rows as CSS variables, "var(--y1)", "var(--i1)" and "var(--t1)" for the first yarn, the ink on it
    and its tint; 0 stands for rows of a pattern that names no yarn."""

    def number(self, row: Row) -> int:
        """The number of the row's yarn, from 1; 0 where it has none."""
        return 0 if row.colour is None else self._index[row.colour] + 1

    def of(self, row: Row) -> str:
        """The variable of the yarn's own colour."""
        return f"var(--y{self.number(row)})"

    def tint(self, row: Row) -> str:
        """The variable of the tint of the row's band."""
        return f"var(--t{self.number(row)})"

    def ink(self, row: Row) -> str:
        """The variable of the one ink that can be read on all tints."""
        return "var(--stitch)"

    def ink_of_letter(self, row: Row) -> str:
        """The variable of the ink that can be read on the yarn's own colour."""
        return f"var(--i{self.number(row)})"

    def between(self, row: Row, under: Row) -> str:
        """The ink of the line between ``row`` and the row ``under`` it."""
        return self.ink(row)

    def against(self, row: Row, paper: str) -> str | None:
        """Always None: no line is drawn between a row and the page, since either may change its colour."""
        return None


@frozen
class ToDraw:
    """What is drawn of one size: the ``plan``, its ``pieces`` for a maker of the look's hand, and what all names in the
    pictures begin with, ``ids``."""

    plan: Plan
    pieces: tuple[PiecePlan, ...]
    ids: str = ""


@frozen
class Drawn:
    """The pictures of one size as text of inline SVG: a chart for every piece in the order given, the cloth."""

    charts: tuple[str, ...]
    cloth: str


def row_name(number: int, row: Row) -> str:
    """The id of a row in the chart of the piece of that ``number``, from 1: "p1-r12"."""
    return f"p{number}-r{row.index + 1}"


def drawn(sizes: Sequence[ToDraw], look: Look) -> tuple[str, list[Drawn]]:
    """The charts of the pieces and the cloth of every size, and before them the definitions that all of them share, to
    stand before all on the page."""
    made: dict[str, tuple[Item, ...]] = {}
    groups: list[tuple[Group, int, int]] = []
    for one in sizes:
        charts = [
            _chart(_set(one.plan, piece, look), number, made, one.ids) for number, piece in enumerate(one.pieces, 1)
        ]
        cloth = _cloth(one.plan, Painted(one.plan.pattern), made, one.ids)
        for index, (items, width, height) in enumerate([*charts, cloth]):
            groups.append((Group(items, f"{one.ids}picture-{index}"), width, height))
    language = language_of(sizes[0].plan.pattern).tag
    whole = Scene(1, 1, "", "", language, made, tuple(group for group, *_ in groups), background=None)
    shared, found = svg.inline(whole)
    shared = f'<svg class="shared" width="0" height="0" aria-hidden="true">{shared}</svg>'
    pictures = iter([_picture(group, *size) for group, (_, *size) in zip(found, groups, strict=True)])
    return shared, [Drawn(tuple(islice(pictures, len(one.pieces))), next(pictures)) for one in sizes]


_Sized = tuple[tuple[Item, ...], int, int]


# --------------------------------------------------------------------------------------------------------- charts


def _chart(setting: Setting, number: int, made: dict[str, tuple[Item, ...]], ids: str) -> _Sized:
    """The chart with its width and height; each row with its stripe and stitches in one group."""
    sheet, piece = setting.sheet, setting.piece
    definitions = Definitions(setting.grid, sheet, setting.look.symbols, runs=False)  # it has blocks of its own
    blocks = Blocks(definitions.made, made, f"{ids}p{number}-")
    rows = (
        Group(tuple(_row(setting, row, definitions, blocks)), f"{ids}{row_name(number, row)}") for row in piece.rows
    )
    beside = Margins.on(setting)
    left = sheet.chart_left - block(setting, sheet.half, FRAME, sheet.unit, NO_FOLDS).left
    groups: list[list[Item]] = [
        bands.strips(setting),
        _foundation(setting, definitions, blocks, number),
        bands.edges(setting),
        loops.drawn(setting, beside.loops),
        margins.signs(beside),
        margins.wedges(beside),
        margins.row_numbers(beside),
        margins.ruler(beside, left),
        margins.edge_names(beside),
        foot(beside, definitions)[0],
    ]
    height = math.ceil(foot(beside, definitions)[1] + 6 * sheet.unit)
    return (*rows, *(Group(tuple(items)) for items in groups)), sheet.width, height


def _set(plan: Plan, piece: PiecePlan, look: Look) -> Setting:
    """What the chart of a piece is drawn from: no wider than a page, or as wide as its clusters need."""
    found = Setting(plan, piece, look, Painted(plan.pattern), changes(piece, carry_of(plan, piece)))
    sheet = exact(found, HALF, FRAME)
    if sheet.width < FRAME.reference:
        limit = round(style.LARGEST_HALF_PITCH)
        sheet = measured(found, FRAME.reference, FRAME, limit=limit, fixed=True)
    above = (1.6 if len(piece.sections) > 1 else 0.6) * sheet.words
    return found.on(replace(sheet, theme=THEME).grounded(round(above) + sheet.heights[-1]))


def _row(setting: Setting, row: Row, definitions: Definitions, blocks: Blocks) -> list[Item]:
    sheet = setting.sheet
    lines = [replace(line, opacity=HAIRLINE) for line in bands.hairline(setting, row)]
    use = Use(
        blocks.row(definitions.row(row)), rounded(sheet.x(row.left.at)), sheet.top(row.number), setting.colours.ink(row)
    )
    return [*bands.bands(setting, row), *lines, use]


def _foundation(setting: Setting, definitions: Definitions, blocks: Blocks, number: int) -> list[Item]:
    uses = definitions.foundation(setting.colours.ink(setting.piece.rows[0]))
    name = f"chains-{number}"
    definitions.made[name] = tuple(replace(use, y=0.0, ink=INK) for use in uses)
    return [Use(blocks.row(name), 0.0, uses[0].y, uses[0].ink)]


class Blocks:
    """Definitions drawn anew in blocks of up to ``BLOCK`` uses, as one outline each: ``source`` has rows as uses of
    stitches, ``made`` gets rows and blocks under names that begin with ``prefix``.

    Rows are cut from the left, so rows of one shape but of other lengths share all blocks but the last.
    """

    def __init__(
        self, source: dict[str, tuple[Item, ...]], made: dict[str, tuple[Item, ...]], prefix: str
    ) -> None:
        self.source, self.made, self.prefix = source, made, prefix
        self._blocks: dict[tuple[Use, ...], str] = {}
        self._flat: dict[str, tuple[Path, ...]] = {}
        self._at: dict[Use, list[Path]] = {}

    def row(self, name: str) -> str:
        """The name in ``made`` of the row that ``source`` calls ``name``; it is made when first wanted. KeyError where
        ``source`` has no such row."""
        own = f"{self.prefix}{name}"
        if own not in self.made:
            uses = [item for item in self.source[name] if isinstance(item, Use)]
            cuts = (uses[start : start + BLOCK] for start in range(0, len(uses), BLOCK))
            placed = tuple(Use(self._block(cut), cut[0].x, cut[0].y, INK) for cut in cuts)
            self.made[own] = placed
        return own

    def _block(self, uses: list[Use]) -> str:
        """The outline of ``uses`` about the first of them."""
        x, y = uses[0].x, uses[0].y
        about = tuple(Use(use.name, rounded(use.x - x), rounded(use.y - y), INK) for use in uses)
        name = self._blocks.get(about)  # once, since it is long
        if name is None:
            name = self._blocks[about] = f"{self.prefix}block-{len(self._blocks) + 1}"
            self.made[name] = merge(path for use in about for path in self._placed(use))
        return name

    def _placed(self, use: Use) -> list[Path]:
        found = self._at.get(use)
        if found is None:
            found = self._at[use] = [
                replace(path, steps=tuple([_moved(step, use.x, use.y) for step in path.steps]))
                for path in self._of(use)
            ]
        return found

    def _of(self, use: Use) -> tuple[Path, ...]:
        """All paths of a definition, those of the definitions in it included."""
        if use.name not in self._flat:
            paths: list[Path] = []
            for item in self.source[use.name]:
                paths += self._placed(item) if isinstance(item, Use) else [item] if isinstance(item, Path) else []
            self._flat[use.name] = tuple(paths)
        return self._flat[use.name]


def _moved(step: Step, x: float, y: float) -> Step:
    letter, *numbers = step
    moved = [rounded(number + (y if place % 2 else x)) for place, number in enumerate(numbers)]
    return (letter, *moved)  # type: ignore[return-value]  # as many numbers as before


# ---------------------------------------------------------------------------------------------------------- cloth


def _cloth(plan: Plan, colours: Painted, made: dict[str, tuple[Item, ...]], ids: str) -> _Sized:
    """All pieces as worn, with the width and height of the picture; copies of a piece are drawn once."""
    laid = _laid(plan)
    across, down = max(one.x + one.size[0] for one in laid), max(one.size[1] for one in laid)
    weaver = PaintedPetals(Tabletop(round((CLOTH - across) / 2), AIR), colours)
    blocks = Blocks(weaver.made, made, f"{ids}w-")
    items: list[Item] = []
    first: dict[tuple[str, int], tuple[str, Placed]] = {}
    for one in laid:
        alike = (one.piece.name, one.quarters)
        if alike not in first:
            first[alike] = (f"{ids}cloth-{len(first) + 1}", one)
            made[first[alike][0]] = tuple(weaver.woven(one, blocks))
        name, model = first[alike]
        items.append(Use(name, rounded(one.x - model.x), rounded(model.y - one.y), INK))
    return tuple(items), CLOTH, math.ceil(down) + 2 * AIR


def _laid(plan: Plan) -> list[Placed]:
    """The pieces laid out in px, as large as fits."""
    row = float(plan.gauge.row / plan.gauge.half)
    whole = placement.laid_out(plan, Scale(1.0, row))
    across, down = max(one.x + one.size[0] for one in whole), max(one.size[1] for one in whole)
    scale = min((CLOTH - 2 * AIR) / across, TALLEST * CLOTH / down)
    # whole steps make blocks alike: rounding cannot set them apart
    half, high = (max(STEP, math.floor(length / STEP) * STEP) for length in (scale, scale * row))
    return placement.laid_out(plan, Scale(half, high))


class PaintedPetals(Petals):
    """Cloth whose shadows and lights are see-through, so that one colour paints all of a row. Its ``colours`` must be
    ``Painted``."""

    def woven(self, laid: Placed, blocks: Blocks) -> list[Item]:
        """The cloth of one piece in px of the picture: the bands of its rows, one shadow over all of them, then
        clusters with their light, as uses of rows in ``blocks``."""
        colours = self.colours
        assert isinstance(colours, Painted)
        ground: list[Item] = []
        shadow: list[Step] = []
        clusters: list[Item] = []
        for row in laid.piece.cloth_rows:
            colour, steps = colours.of(row), polyline(self._corners(laid, row), closed=True)
            ground.append(Path(steps, fill=colour, stroke=colour, width=0.5))
            shadow += steps
            x, y = self.table.px(laid.at(row.left.at, float(laid.piece.level(row.number))))
            for part, ink in (("body", colour), ("shine", LIGHT)):
                clusters.append(Use(blocks.row(self._row(laid, row, part)), x, y, ink))
        return [*ground, Path(tuple(shadow), fill=SHADOW), *clusters]


def _veil(colour: str, share: float) -> str:
    """``colour`` as a see-through veil that takes a ``share`` (0 to 1)."""
    red, green, blue = (int(colour[i : i + 2], 16) for i in (1, 3, 5))
    return f"rgba({red},{green},{blue},{share:.2f})"


SHADOW, LIGHT = _veil(DUSK, 1 - SHADE), _veil("#ffffff", 1 - SHINE)


# ------------------------------------------------------------------------------------------------------------ SVG


def _picture(group: str, width: int, height: int) -> str:
    return f'<svg viewBox="0 0 {width} {height}" aria-hidden="true" stroke-linejoin="round">{group}</svg>'
