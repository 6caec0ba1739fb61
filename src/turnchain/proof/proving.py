"""The proof: everything that is published of a plan, read back, worked, and compared with the plan row by row.

In: a plan. Out: a ``Proof``: by which paths (the words in every language, the charts) how many rows and stitches came
out as planned, or what disagrees; then how many printed figures were held against the worked cloth. Nothing is
written to disk.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from turnchain.drawing.chart import chart
from turnchain.errors import MakerError
from turnchain.fabric import stitches
from turnchain.fabric.plan import PiecePlan, Plan, Row
from turnchain.pages.report import report
from turnchain.proof import alternatives, figures, nearer, size_tables, worked_cloths
from turnchain.proof.chart.marks import UnreadableChart
from turnchain.proof.chart.picture import read_chart
from turnchain.proof.chart.working import work_chart
from turnchain.proof.hook.stitches import EdgeMade, Unworkable, WorkedRow
from turnchain.proof.words.text import Unreadable, WrittenPiece, read_words, work_piece
from turnchain.records import field, frozen, mutable
from turnchain.style import PLAIN_STRIPE
from turnchain.terminal import progress
from turnchain.wording import words
from turnchain.wording.tables import told_in

#: What is published in words, and how the report calls it.
LANGUAGES = {
    "US": "the words in US terms",
    "UK": "the words in UK terms",
    "de": "the words in German",
    "fr": "the words in French",
}
CHARTS = "the charts"


@frozen
class Worked:
    """What was worked on one ``path`` (as the report calls it): how many ``pieces``, ``rows`` and ``stitches`` came out
    as planned."""

    path: str
    pieces: int
    rows: int
    stitches: int


@frozen
class Proof:
    """What was proved by each path, ``figures`` that were held against the cloth, and ``reasons`` why the plan is not
    proved; ``unmade`` is what could not be published at all, so that there is nothing of it to be wrong."""

    worked: tuple[Worked, ...]
    figures: int
    reasons: tuple[str, ...]
    unmade: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Whether everything published comes out as planned."""
        return not self.reasons

    def report(self) -> str:
        """What was proved, a line for each path, ending in a line break; to be told where ``holds``."""
        told = [
            f"Worked from {one.path}: {_some(one.pieces, 'piece')}, {_some(one.rows, 'row')}, "
            f"{_some(one.stitches, 'stitch', 'stitches')}, all as planned."
            for one in self.worked
        ]
        left_out = [f"Not published, so not worked: {reason}" for reason in self.unmade]
        figures = [f"Figures, seams, yarn: as planned; {self.figures} printed figures held against the cloth."]
        return "\n".join([*told, *(figures if self.figures else []), *left_out]) + "\n"


def checked(plan: Plan, source: str) -> str:
    """What was proved of ``plan``, in words; raises MakerError with every reason where it is not. ``source`` names the
    pattern in messages."""
    proof = prove(plan, booklet=True, offers=True)
    if not proof.holds:
        raise MakerError("\n".join(f"{source}: not as planned: {reason}" for reason in proof.reasons))
    return proof.report()


def sizes_checked(plans: Sequence[Plan], text: str, source: str) -> str:
    """What was proved of the tables in ``text``, the report of all sizes, in a line; raises MakerError with every
    reason where they are not so. ``source`` names the pattern in messages."""
    looked, wrong = size_tables.held(plans, text, worked_from_words)
    if wrong:
        raise MakerError("\n".join(f"{source}: not as planned: {reason}" for reason in wrong))
    return f"Tables of {len(plans)} sizes: as planned; {looked} printed figures held against the cloth of each.\n"


def prove(plan: Plan, measured: bool = True, booklet: bool = False, offers: bool = False) -> Proof:
    """Works everything that is published of ``plan``; then, if it is to be ``measured``, holds every printed figure
    against what was worked, those of its ``booklet`` if that is asked for, and works the other plans that its report
    ``offers``, if these are. What disagrees is among the reasons; raises MakerError only where the booklet cannot be
    made."""
    plan = told_in(plan, plan.pattern.terms)  # the words are read in every language besides
    made: list[Worked] = []
    reasons: list[str] = []
    unmade: list[str] = []
    words_found = {}
    for number, language in enumerate(LANGUAGES):
        progress(LANGUAGES[language], number, len(LANGUAGES))
        words_found[language] = words_of(plan, language, words.pattern_text(plan, language))
    pictures = dict(_pictures(plan, unmade))
    charts = charts_of(plan, pictures)
    for path, found in (*((LANGUAGES[key], found) for key, found in words_found.items()), (CHARTS, charts)):
        made += _worked(path, found)
        reasons += found.told(path)
    looked_at = 0
    if measured and not reasons:
        progress("the printed figures", 0, 1)
        worked = next(iter(words_found.values())).cloth
        held = figures.hold(plan, worked, figures.printed(plan, pictures, booklet))
        looked_at, reasons = held.figures, held.reasons
        if offers:
            for of in (alternatives.held, alternatives.begun_as_planned, nearer.held):
                tried, wrong = of(plan, report(plan), worked_from_words)
                looked_at, reasons = looked_at + tried, [*reasons, *wrong]
    return Proof(tuple(made), looked_at, tuple(reasons), tuple(unmade))


def worked_from_words(plan: Plan) -> tuple[worked_cloths.WorkedPieces, list[str]]:
    """The rows of every piece of ``plan`` as its finished words in US terms are worked, and what is wrong with them."""
    found = words_of(plan, "US", words.pattern_text(plan, "US"))
    return found.cloth, list(found.told("words"))


@mutable
class Found:
    """The outcome of one path: how many ``pieces``, ``rows`` and ``stitches`` came out as planned, ``reasons`` where
    others did not (None: none), and in ``cloth``, by the names of pieces, the rows as worked from words, each with its
    yarn (None: of a pattern that names none)."""

    pieces: int = 0
    rows: int = 0
    stitches: int = 0
    reasons: list[str] | None = None
    cloth: dict[str, list[tuple[WorkedRow, str | None]]] = field(default_factory=dict)

    def told(self, path: str) -> Iterator[str]:
        """Each reason with ``path`` before it."""
        for reason in self.reasons or ():
            yield f"{path}: {reason}"

    def add(self, rows: Sequence[WorkedRow], reasons: list[str]) -> None:
        """Counts another piece; one that has ``reasons`` is not counted."""
        if reasons:
            self.reasons = [*(self.reasons or ()), *reasons]
            return
        self.pieces += 1
        self.rows += len(rows)
        self.stitches += sum(len(row.stitches) for row in rows)


def _worked(path: str, found: Found) -> list[Worked]:
    return [Worked(path, found.pieces, found.rows, found.stitches)] if found.pieces else []


# ---------------------------------------------------------------------------------------------------- the words


def words_of(plan: Plan, language: str, text: str) -> Found:
    """The finished ``text`` of ``plan``, in a ``language`` of ``LANGUAGES``, worked and compared with the plan."""
    found = Found()
    yarns = [yarn.name for yarn in plan.pattern.yarns]
    try:
        written = read_words(text, language, yarns, [piece.name for piece in plan.pieces])
    except Unreadable as error:
        return Found(reasons=[str(error)])
    recipe, craft = plan.recipe, written.craft
    made_of = (recipe.worked, recipe.inner, recipe.gap, recipe.stitch.turning, recipe.stitch.counts)
    told_of = (craft.cluster, craft.inner, craft.gap, craft.turning, craft.counts)
    if (*told_of, craft.stacked, written.stitch) != (*made_of, recipe.stacked, recipe.stitch.name):
        return Found(reasons=[f"a fabric of {craft.cluster} {written.stitch} and {craft.gap} ch is told"])
    for piece, told in zip(plan.pieces, written.pieces, strict=True):
        try:
            made = work_piece(written.craft, told)
        except (Unreadable, Unworkable) as error:
            found.add([], [f'piece "{piece.name}": {error}'])
            continue
        reasons = [*_about_differs(piece, told), *_differs(piece, [one.row for one in made])]
        reasons += _yarns_differ(piece, [one.yarn for one in made], lambda row: row.colour)
        found.cloth[piece.name] = [(one.row, one.yarn) for one in made]
        found.add([one.row for one in made], [f'piece "{piece.name}": {reason}' for reason in reasons])
    return found


def _about_differs(piece: PiecePlan, told: WrittenPiece) -> Iterator[str]:
    """Where a piece is told of as another."""
    start = piece.rows[0].edge(piece.rows[0].starts).kind
    sections = [("body" if one.after is None else f"{one.name} shoulder", len(one.rows)) for one in told.sections]
    says: dict[str, tuple[object, object]] = {
        "rows": (piece.row_count, told.row_count),
        "way": (piece.worked, told.worked),
        "pieces alike": (piece.count, told.count),
        "foundation": (piece.foundation_chain, told.chains),
        "begun on": (piece.begun_on, told.begun_on.replace("\\", "")),
        "turning chain": (stitches.first_turning(piece.recipe, start), told.turning),
        "parts": ([(name, len(piece.section(name))) for name in piece.sections], sections),
    }
    yield from _compared("", says)


# --------------------------------------------------------------------------------------------------- the charts


def charts_of(plan: Plan, pictures: dict[str, bytes]) -> Found:
    """The charts of pieces worked and compared with ``plan``; ``pictures`` are SVG files by the names of pieces."""
    found = Found()
    for number, (name, picture) in enumerate(pictures.items()):
        progress(f"{CHARTS}: {name}", number, len(pictures))
        rows, reasons = chart_of(plan, plan.piece(name), picture)
        found.add(rows, reasons)
    return found


def _pictures(plan: Plan, unmade: list[str]) -> Iterator[tuple[str, bytes]]:
    """The chart of every piece; ``unmade`` takes those that are refused."""
    for piece in plan.pieces:
        try:
            yield piece.name, svg_of(plan, piece.name)
        except MakerError as error:
            unmade.append(f"the chart of {error}")


def svg_of(plan: Plan, name: str) -> bytes:
    """The whole chart of the piece ``name`` as an SVG file. Raises MakerError where it cannot be drawn."""
    return figures.svg_of(chart(plan, name))


def chart_of(plan: Plan, piece: PiecePlan, picture: bytes) -> tuple[list[WorkedRow], list[str]]:
    """The rows worked from the ``picture`` (an SVG file) of ``piece``, and in words where they are not its plan; no
    rows where it cannot be read or worked."""
    try:
        drawn = read_chart(picture)
        made = work_chart(drawn)
    except (UnreadableChart, Unworkable) as error:
        return [], [f'piece "{piece.name}": {error}']
    rows = [one.row for one in made]
    colours = {yarn.name: yarn.colour for yarn in plan.pattern.yarns}
    turning = rows[0].turning
    reasons = [*_compared("", {"foundation": (piece.foundation_chain, len(drawn.foundation) + turning)})]
    reasons += _compared("", {"begun with": ("sc" if piece.begun_on == "armhole" else "ch", drawn.founded_on)})
    reasons += _compared("", {"dc to a cluster": (piece.recipe.worked, drawn.k)})
    reasons += _compared("", {"stitch": (piece.recipe.stitch.name, drawn.stitch)})
    reasons += _differs(piece, rows)
    reasons += _yarns_differ(
        piece, [one.colour for one in made], lambda row: PLAIN_STRIPE if row.colour is None else colours[row.colour]
    )
    return rows, [f'piece "{piece.name}": {reason}' for reason in reasons]


# ------------------------------------------------------------------------------------------- against the plan


def _differs(piece: PiecePlan, rows: Sequence[WorkedRow]) -> Iterator[str]:
    """Where the rows as worked are not the plan's, in the order worked."""
    if len(rows) != len(piece.rows):
        yield f"{len(piece.rows)} rows planned, {len(rows)} worked"
        return
    for row, made in zip(piece.rows, rows, strict=True):
        yield from _compared(f"row {row.number}, ", _row_says(piece, row, made))


def _row_says(piece: PiecePlan, row: Row, made: WorkedRow) -> dict[str, tuple[object, object]]:
    """What the plan says of a row, and what came out."""
    below, counts = piece.below(row), row.counts
    spaced = (row.left.kind == "spaced") + (row.right.kind == "spaced")
    went = (0, 0) if below is None else (row.left.at - below.left.at, below.right.at - row.right.at)
    return {
        "number": (row.number, made.number),
        "starts": (row.starts, "left" if made.towards == 1 else "right"),
        "left edge": ((row.left.at, row.left.kind, went[0]), _edge(made.left)),
        "right edge": ((row.right.at, row.right.kind, went[1]), _edge(made.right)),
        "clusters": (row.clusters, made.clusters),
        "stitches": (
            (counts.dc, counts.ch, counts.sl_st, counts.tch),
            (made.count("dc"), made.count("ch"), made.count("sl st"), made.count("tch")),
        ),
        "stitches across": (stitches.base(piece.recipe, len(row.centres), spaced), made.wide),
        "kind": (row.kind, made.kind),
        "turning chain": (piece.recipe.rule(row.kind).turning, made.top),
    }


def _edge(edge: EdgeMade) -> tuple[int, str, int]:
    return edge.at, edge.kind, edge.inwards


def _yarns_differ(piece: PiecePlan, made: Sequence[str | None], of: Callable[[Row], str | None]) -> Iterator[str]:
    for row, yarn in zip(piece.rows, made, strict=False):
        yield from _compared(f"row {row.number}, ", {"yarn": (of(row), yarn)})


def _compared(where: str, says: dict[str, tuple[object, object]]) -> Iterator[str]:
    for name, (planned, made) in says.items():
        if planned != made:
            yield f"{where}{name}: {planned} planned, {made} worked"


def _some(number: int, one: str, many: str = "") -> str:
    return f"{number} {one if number == 1 else many or one + 's'}"
