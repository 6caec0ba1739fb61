"""Brackets of the short chart: what is shown once, and how many times it is worked.

In: a ``Setting`` whose sheet has folds. Out: scene items: the break, the box around the clusters that repeat with their
bracket and count, a bracket beside the rows that repeat with what follows them unshown.
"""

from __future__ import annotations

import math

from turnchain.drawing.breaks import Break
from turnchain.drawing.folds import Folds, Span
from turnchain.drawing.margins import Margins
from turnchain.drawing.marks import ROWS_WITH_ARROWS
from turnchain.drawing.setting import Setting
from turnchain.fabric.lattice import SIDES
from turnchain.lettering.measuring import measure
from turnchain.numbers import rounded
from turnchain.records import frozen
from turnchain.scene import Group, Item, Path, Steps, Text, polyline
from turnchain.wording.languages.language import Speech

HOOK = 0.45  # of the words: how far the ends of a bracket turn in
LEADING = 1.12  # from line to line, of the words


@frozen
class FoldedRows:
    """What stands beside folded rows: ``low`` to ``high`` (row numbers) are drawn once and worked ``times`` times in
    all; ``span`` are the rows folded away; ``stripes`` are the letters of their stripes from below, empty where the
    rows have no letters; ``one_line``: they stand in one, as pictures to post are wide enough for."""

    low: int
    high: int
    times: int
    span: Span
    stripes: str
    speech: Speech
    one_line: bool

    @property
    def lines(self) -> tuple[str, ...]:
        """The words of the bracket in three lines: which rows, how many times, up to which row."""
        assert self.low - 1 + self.times * (self.high - self.low + 1) == self.span.last
        say = self.speech.say
        return (
            say("bracket.rows", first=self.low, second=self.high),
            say("bracket.times", n=self.times),
            say("bracket.last", last=self.span.last),
        )

    @property
    def unshown(self) -> tuple[str, ...]:
        """The words of the strip above it, which rows and below that their stripes, in lines about as long as those of
        the bracket: what stands beside a chart makes it narrower. Empty where rows have no letters."""
        if not self.stripes:
            return ()
        rows = self.speech.say("bracket.unshown", first=self.span.first, last=self.span.last)
        if self.one_line:
            return rows, self.stripes
        return rows, *_broken(self.stripes, max(measure(line, 1.0) for line in (rows, *self.lines)))


def _broken(stripes: str, widest: float) -> list[str]:
    """Letters parted by commas in lines at most ``widest`` em long, where one of them fits at all."""
    lines: list[str] = []
    for letter in stripes.split(" "):
        if lines and measure(f"{lines[-1]} {letter}", 1.0) <= widest:
            lines[-1] += f" {letter}"
        else:
            lines.append(letter)
    return lines


def told(setting: Setting, folds: Folds, compact: bool) -> list[FoldedRows]:
    """What stands beside each stretch of folded rows, from the bottom up; empty where no rows are folded. ``compact``:
    that of the page's frame."""
    found = []
    for span, bands in zip(folds.rows, folds.bands, strict=False):
        low, high = span.first - folds.repeated, span.first - 1
        letters = _stripes(setting, bands, folds)
        found.append(FoldedRows(low, high, folds.times(span), span, letters, setting.speech, compact))
    return found


def _stripes(setting: Setting, bands: tuple[Span, ...], folds: Folds) -> str:
    by_number = {row.number: row for row in setting.piece.row_levels}
    letters = [
        "..." if folds.skips_row(band.first) else setting.colours.letter(by_number[band.first]) for band in bands
    ]
    return ", ".join(letters) if any(letters) else ""


def width(line: str, words: float) -> float:
    """The px that a line beside a bracket takes with the bracket, at ``words`` px to the em; 0 for an empty line."""
    return measure(line, words) + 1.2 * words if line else 0.0


def room(setting: Setting, folds: Folds, words: float) -> float:
    """The px that the widest of the words beside folded rows takes, at ``words`` px to the em; 0 where no rows are
    folded."""
    lines = [line for one in told(setting, folds, setting.sheet.frame.compact) for line in (*one.lines, *one.unshown)]
    return max((measure(line, words) for line in lines), default=0.0) + (1.6 * words if lines else 0.0)


def of(margins: Margins, boxes: bool = True) -> list[Item]:
    """The break and, with ``boxes``, all brackets, each a group with its repeat in words; empty where nothing is
    folded."""
    setting = margins.setting
    items: list[Item] = []
    torn, box = Break.of(setting), boxed(setting) if boxes else None
    if torn is not None:
        items += _break_lines(torn, setting.sheet.break_width)
    for side in SIDES:
        cut = Break.cut(setting, side)
        items += [] if cut is None else _break_lines(cut)
    if box is not None:
        items.append(_box(margins, box))
    foot = math.inf
    for one in told(setting, setting.sheet.folds, setting.sheet.frame.compact):
        group, foot = _beside(margins, one, foot)
        items.append(group)
    return items


def boxed(setting: Setting) -> Break | None:
    """Where the box around the clusters that repeat ends at the right: at the break or, where columns are cut away,
    beside the cut, or in the middle of what is drawn; None where no columns are left out."""
    folds = setting.sheet.folds
    if folds.right_cut is not None:
        left, right = folds.left_cut, folds.right_cut
        return Break.before(setting, right if left is None else (left + right + 2) // 2)
    return Break.of(setting) if folds.left_cut is None else Break.before(setting, folds.left_cut + 2)


def _break_lines(torn: Break, wide: int = 0) -> list[Item]:
    """The two sides of the break, ``wide`` px apart, through all rows that run into it; one line where it is a cut."""
    setting = torn.setting
    sheet = setting.sheet
    numbers = sorted({row.number for row in setting.rows if torn.runs_through(row)})
    items: list[Item] = []
    for low, high in _runs([number for number in numbers if not sheet.folds.skips_row(number)]):
        points = torn.points(low, high)
        if low == 1:
            points.append((points[-1][0], rounded(points[-1][1] + sheet.strip * sheet.rise)))
        lines = [points, *([[(rounded(x + wide), y) for x, y in points]] if wide else [])]
        steps = tuple(step for line in lines for step in polyline(line))
        items.append(Path(steps, stroke=sheet.theme.soft, width=rounded(max(0.9, 1.1 * sheet.unit))))
    return items


def _runs(numbers: list[int]) -> list[tuple[int, int]]:
    """Stretches of consecutive ``numbers``, as (first, last)."""
    found: list[tuple[int, int]] = []
    for number in numbers:
        if found and number == found[-1][1] + 1:
            found[-1] = (found[-1][0], number)
        else:
            found.append((number, number))
    return found


def boxed_rows(setting: Setting, torn: Break) -> tuple[int, int]:
    """The numbers of the two rows whose repeat is boxed: of those through which the break runs, the lowest two above
    row 1 (of one repeat alone: above its lowest row) that are drawn and follow each other; rows 1 and 2 where there are
    no others, one row twice where no two follow each other."""
    sheet = setting.sheet
    drawn = [
        row.number for row in setting.rows if torn.runs_through(row) and not sheet.folds.hides_row(row.number)
    ]
    pairs = [(low, low + 1) for low in sorted(set(drawn)) if low + 1 in drawn]
    above = min(drawn) if None not in (sheet.folds.left_cut, sheet.folds.right_cut) else 1
    return next((pair for pair in pairs if pair[0] > above), pairs[0] if pairs else (drawn[0], drawn[0]))


def _box(margins: Margins, torn: Break) -> Group:
    """The clusters that repeat, boxed in both kinds of row; below the chart their bracket, as wide, and its count."""
    setting = torn.setting
    sheet, size = setting.sheet, margins.words
    low, high = boxed_rows(setting, torn)
    right = torn.points(low, high)
    pitch = 2 * sheet.half
    outline = [*right, *((rounded(x - pitch), y) for x, y in reversed(right))]
    x0, x1 = min(x for x, _ in outline), max(x for x, _ in outline)
    thick = rounded(max(1.4 * sheet.unit, 0.045 * sheet.rise))
    box = Path(polyline(outline, closed=True), stroke=sheet.theme.shaping, width=thick)
    y = foot_line(margins) - HOOK * size
    bracket = polyline([(x0, y), (x0, rounded(y + HOOK * size)), (x1, rounded(y + HOOK * size)), (x1, y)])
    words = across_words(setting)
    x = bracket_middle(margins)
    label = Text(rounded(x), rounded(y + HOOK * size + 1.1 * size), words, rounded(size), sheet.theme.ink,
                 anchor="middle")
    return Group((box, _stroke(sheet.theme.accent, thick, bracket), label), "repeat-across", words)


def bracket_middle(margins: Margins) -> float:
    """The x, in px, of the middle of the words of the bracket across, moved so far that they stay on the page."""
    torn = boxed(margins.setting)
    assert torn is not None, "without a break there is no bracket"
    sheet = margins.setting.sheet
    low, high = boxed_rows(margins.setting, torn)
    xs = [x for x, _ in torn.points(low, high)]
    reach = measure(across_words(margins.setting), margins.words) / 2
    middle = (min(xs) + max(xs)) / 2 - sheet.half
    return min(max(middle, sheet.margin + reach), sheet.width - sheet.margin - reach)


def across_words(setting: Setting) -> str:
    """The words of the bracket across: how many times the cluster is worked, in all rows or, where the break does not
    run through every row, in those where it does; where columns are cut away, that it goes on."""
    folds, say = setting.sheet.folds, setting.speech.say
    torn, cut = Break.of(setting), [side for side in SIDES if folds.cut(side) is not None]
    if torn is None:
        return say("bracket.on" if len(cut) > 1 else f"bracket.on.{cut[0]}")
    every = all(torn.runs_through(row) for row in setting.rows)
    return say("bracket.across" if every else "bracket.across.some", n=folds.clusters + 1)


def foot_line(margins: Margins) -> float:
    """The y, in px, of the level line of the bracket below the chart."""
    sheet = margins.setting.sheet
    return rounded(sheet.foot + (0.35 + HOOK) * margins.words)


def _beside(margins: Margins, one: FoldedRows, foot: float) -> tuple[Group, float]:
    """Beside folded rows: which two rows they repeat, and how many times these are worked in all; above, what follows
    unshown. All words stand above ``foot``, the y where those of the rows below begin; with it where these begin."""
    setting, size = margins.setting, margins.words
    sheet = setting.sheet
    x = _right_of(margins, one)
    low, high = sheet.top(one.low - 1), sheet.top(one.high)
    hook = HOOK * size
    bracket = polyline([(rounded(x - hook), high), (x, high), (x, low), (rounded(x - hook), low)])
    thick = rounded(max(1.4 * sheet.unit, 0.045 * sheet.rise))
    left = rounded(x + 0.4 * size)
    middle = (low + high) / 2
    items: list[Item] = [_stroke(sheet.theme.accent, thick, bracket)]
    if one.low <= ROWS_WITH_ARROWS + 1:  # clear of what stands below the chart
        foot = sheet.ground
    half = len(one.lines) * LEADING * size / 2
    middle = min(middle, foot - half)
    items += _lines(one.lines, left, middle, size, sheet.theme.ink)
    if one.stripes:
        top = sheet.top(one.span.last)
        tall = len(one.unshown) * LEADING * size / 2
        above = min((top + high) / 2, middle - half - tall - 0.15 * size)
        items += _lines(one.unshown, left, above, size, sheet.theme.soft)
    words = f"{' '.join(one.lines)}" + (f"; {' '.join(one.unshown)}" if one.stripes else "")
    return Group(tuple(items), f"repeat-rows-{one.low}", words), (above - tall if one.stripes else middle - half)


def _lines(lines: tuple[str, ...], x: float, middle: float, size: float, colour: str) -> list[Item]:
    """Lines of words about the height ``middle``."""
    first = middle - (len(lines) - 1) * LEADING * size / 2 + 0.35 * size
    return [
        Text(x, rounded(first + nth * LEADING * size), words, rounded(size), colour) for nth, words in enumerate(lines)
    ]


def _right_of(margins: Margins, one: FoldedRows) -> float:
    """The x of the bracket: right of the marks of the rows it is about."""
    setting = margins.setting
    sheet = setting.sheet
    rows = [row for row in setting.piece.rows if one.low - 1 <= row.number <= one.span.last + 1]
    edge = max(sheet.side(row.right.at, "right") for row in rows)
    near = [row for row in setting.piece.rows if one.low - 3 <= row.number <= one.span.last + 2]
    shaped = any(row.right.move != "straight" for row in near)
    rooms = margins.rooms("right")
    beside = max(rooms.numbers + (rooms.wedges if shaped else 0.0), rooms.arrows if one.low <= 3 else 0.0)
    return rounded(edge + rooms.signs + beside + (0.5 + HOOK) * margins.words)


def sentences(setting: Setting) -> list[str]:
    """What the brackets mean, a sentence for each, and one for the strips of folded rows; empty where nothing is
    folded."""
    folds, speech = setting.sheet.folds, setting.speech
    said = []
    if folds.across is not None:
        said.append(speech.say("bracket.key.across", clusters=folds.clusters, n=folds.clusters + 1))
    for span in folds.rows:
        low, high = span.first - folds.repeated, span.first - 1
        said.append(speech.say("bracket.key.rows", first=low, second=high, n=folds.times(span), last=span.last))
    if folds.rows and setting.piece.rows[0].colour is not None:
        said.append(speech.say("bracket.key.strip"))
    return said


def _stroke(colour: str, thick: float, steps: Steps) -> Path:
    return Path(steps, stroke=colour, width=thick)
