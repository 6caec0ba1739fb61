"""End to end: from the text of a random pattern file to everything that is made of it, and what must hold there.

In: a seed. Out: what disagrees, in words. Each property is a generator of disagreements; ``PROPERTIES`` names them.
Hundreds of files are made in ``test_end_to_end``, tens of thousands by ``python -m tests.nightly``.

What must hold is from no source but from what the parts mean: a length is the same in inches; a plan told in words and
in figures is one plan; a left hand's chart is a right hand's in the mirror. Areas are worked out here a second time,
from plan.json alone. HTML is read by html5lib's strict parser, Markdown by markdown-it (CommonMark), PNG by Pillow.
"""

from __future__ import annotations

import io
import json
import re
from collections import Counter, defaultdict
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property
from itertools import chain, zip_longest
from random import Random
from typing import Any
from urllib.parse import unquote

import html5lib
import jsonschema
from lxml import etree
from markdown_it import MarkdownIt
from PIL import Image

import chart_reader
from random_files import File, file_at, slipped_at
from turnchain import plan_json
from turnchain.drawing.chart import chart
from turnchain.drawing.contact import contact_sheet
from turnchain.drawing.detail import Asked, detail, series
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.posting import SIZES, post
from turnchain.errors import MakerError, PatternError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.making import everything
from turnchain.pages import blog
from turnchain.pages import overview as page
from turnchain.pages.beside import page as beside
from turnchain.pages.report import report
from turnchain.planning.planner import plan_pattern
from turnchain.printing.booklet import booklet
from turnchain.printing.sheets import Printed, pages
from turnchain.proof.proving import prove
from turnchain.proof.words.text import read_words, work_piece
from turnchain.reading.pattern_file import read_text
from turnchain.scene import Scene
from turnchain.wording import words
from turnchain.writers import pdf, png, svg
from turnchain.yarns.figures import figures

Says = Iterator[str]
SOURCE = "random.toml"


def planned(file: File) -> Plan | None:
    """The plan of a file; None where it cannot be made, which its maker has been told."""
    try:
        return plan_pattern(read_text(file.text, SOURCE), SOURCE)
    except PatternError as error:
        if any(not (problem.found and problem.allowed) for problem in error.problems) or not error.problems:
            raise AssertionError("refused without a word why") from error
        return None


@dataclass(frozen=True)
class Sample:
    """One file with what is made of it."""

    file: File

    @property
    def rng(self) -> Random:
        """The same choices for the same file."""
        return Random(self.file.seed + 1)

    @cached_property
    def made(self) -> Plan | None:
        """The plan, where there is one."""
        return planned(self.file)

    @property
    def plan(self) -> Plan:
        """The plan."""
        assert self.made is not None
        return self.made

    @cached_property
    def json(self) -> dict[str, Any]:
        """plan.json, read back."""
        read: dict[str, Any] = json.loads(plan_json.plan_text(self.plan))
        return read

    def stitches(self, file: File) -> object:
        """Every row of another file as plan.json has it."""
        other = planned(file)
        return None if other is None else rows_of(json.loads(plan_json.plan_text(other)))

    @property
    def look(self) -> Look:
        """A look of those there are."""
        rng = self.rng
        choice = (rng.choice(("right", "left")), rng.choice(("colour", "colour", "mono")))
        return Look(*choice, rng.choice(("light", "dark", "clear")), rng.choice(("drawn", "true")))  # type: ignore[arg-type]


def rows_of(plan: dict[str, Any]) -> list[object]:
    """What is worked: foundations and rows."""
    return [(piece["name"], piece["foundation_chain"], piece["rows"]) for piece in plan["pieces"]]


def svg_of(scene: Scene) -> bytes:
    stream = io.BytesIO()
    svg.write(scene, stream)
    return stream.getvalue()


# ------------------------------------------------------------------------------------------- one plan, other words


def the_same_bytes_twice(sample: Sample) -> Says:
    """Read and planned again, drawn again: the same bytes."""
    again = planned(sample.file)
    name = sample.plan.pieces[0].name
    assert again is not None
    if plan_json.plan_text(again) != plan_json.plan_text(sample.plan):
        yield "plan.json is another the second time"
    if words.pattern_text(again) != words.pattern_text(sample.plan):
        yield "the words are others the second time"
    if svg_of(chart(again, name, look=sample.look)) != svg_of(chart(sample.plan, name, look=sample.look)):
        yield "the chart is another the second time"


def inches_are_centimetres(sample: Sample) -> Says:
    """The same lengths in the other unit, spelt otherwise: the same plan, to the last measure."""
    other = planned(sample.file.in_units("cm" if sample.file.units == "in" else "in"))
    if other is None:
        yield f"cannot be made in the other unit than {sample.file.units}"
        return
    if rows_of(plan_json.plan_data(other)) != rows_of(plan_json.plan_data(sample.plan)):
        yield f"other stitches in the other unit than {sample.file.units}"
    for one, same in zip(sample.plan.pieces, other.pieces, strict=True):
        if [(fit.wanted, fit.worked) for fit in one.fit] != [(fit.wanted, fit.worked) for fit in same.fit]:
            yield f"{one.name}: other measures in the other unit than {sample.file.units}"


def larger_is_the_same_stitches(sample: Sample) -> Says:
    """Swatch and measures larger by one factor: not a stitch changes. (Colours of stripes from the stash do: they hang
    on the weight of the fabric.)"""
    factor = sample.rng.choice((Fraction(2), Fraction(1, 2), Fraction(5, 4)))
    found = sample.stitches(sample.file.larger(factor))
    if found is None:
        yield f"cannot be made {factor} times as large"
    elif _colourless(found) != _colourless(rows_of(sample.json)):
        yield f"other stitches when {factor} times as large"


def _colourless(found: Any) -> list[object]:
    return [(name, chains, [{**row, "colour": None} for row in rows]) for name, chains, rows in found]


def terms_change_no_stitch(sample: Sample) -> Says:
    """UK terms for US ones: the same rows, and the German words as they were."""
    other = planned(sample.file.with_(terms="UK" if sample.plan.pattern.terms == "US" else "US"))
    assert other is not None
    if rows_of(plan_json.plan_data(other)) != rows_of(plan_json.plan_data(sample.plan)):
        yield "other stitches in other terms"
    if words.pattern_text(other, "de") != words.pattern_text(sample.plan, "de"):
        yield "other German words where English terms are others"


def left_and_right_change_about(sample: Sample) -> Says:
    """The mirrored wish comes out as near. Only steps out cannot be mirrored: they are made where a row starts, so that
    a neck cut from the other edge may take another number of rows, and a piece that meets it follows. Where rows are
    worked already, their foundation may have been chosen for its length."""
    other = planned(sample.file.mirrored())
    if other is None:
        yield "cannot be made with left and right changed about"
        return
    pairs = list(zip(sample.plan.pieces, other.pieces, strict=True))
    rows = [(one.row_count, image.row_count) for one, image in pairs]
    stepped = [any(map(_steps_out, pair)) for pair in pairs]
    led = {(ours, theirs) for (ours, theirs), steps in zip(rows, stepped, strict=True) if steps and ours != theirs}
    for (one, image), counts, steps in zip(pairs, rows, stepped, strict=True):
        if steps or counts in led or sample.plan.pattern.progress:
            continue
        if one.row_count != image.row_count:
            yield f"{one.name}: {one.row_count} rows, {image.row_count} with left and right changed about"
        elif (off := _distances(one)) != (turned := _distances(image)):
            yield f"{one.name}: off by {off}, with left and right changed about by {turned}"


def _steps_out(piece: PiecePlan) -> bool:
    return any(edge.move == "step_out" for row in piece.rows for edge in (row.left, row.right))


def _distances(piece: PiecePlan) -> list[tuple[str, float]]:
    """How far the width and the neck's measures are off; of an outline only the width in row 1 and at the top, since
    paths that come equally near may pass other points."""
    named = ("width", "length", "height", "shoulder", "neck depth", "neck width")
    return [(fit.measure, abs(float(fit.off))) for fit in piece.fit if fit.measure in named]


def wished_mirrors_are_given(sample: Sample) -> Says:
    """Shaped alike at both edges in alternate rows: every row lies about one middle. A slanting neck worked sideways
    reads the same from the top as from the bottom."""
    for piece, wanted in zip(sample.plan.pieces, sample.plan.pattern.pieces, strict=True):
        if piece.progress is not None or _steps_out(piece):
            continue
        centred = not wanted.left_outline and (wanted.outline and wanted.align == "centre") and not wanted.neck
        if centred and piece.row_plan == "alternate":
            middles = {row.left.at + row.right.at for row in piece.rows}
            if len(middles) > 1:
                yield f"{piece.name}: rows about {len(middles)} middles"
        if wanted.worked == "sideways" and wanted.neck and wanted.neck.shape == "slant":
            line = [row.edge(piece.top).at for row in piece.rows] if piece.top else []
            if [line[0], *line] != [line[0], *line][::-1]:
                yield f"{piece.name}: the neck {line} is not the same from both ends"


# ----------------------------------------------------------------------------------------------- figures that agree


def everything_is_proved(sample: Sample) -> Says:
    """Words in US and UK terms and in German, and every chart, worked stitch by stitch and compared with the plan."""
    yield from prove(sample.plan).reasons


@cache
def validator() -> Any:
    return jsonschema.Draft202012Validator(plan_json.schema())


def plan_json_is_what_the_words_say(sample: Sample) -> Says:
    """plan.json keeps its schema, and holds the rows that come out of the words."""
    yield from (f"plan.json: {error.message}" for error in validator().iter_errors(sample.json))
    language = sample.rng.choice(("US", "UK", "de"))
    yarns = [yarn.name for yarn in sample.plan.pattern.yarns]
    names = [piece.name for piece in sample.plan.pieces]
    read = read_words(words.pattern_text(sample.plan, language), language, yarns, names)
    for piece, told in zip(sample.json["pieces"], read.pieces, strict=True):
        made = work_piece(read.craft, told)
        for row, one in zip_longest(piece["rows"], made):
            worked = one.row
            says = {
                "row": worked.number, "left": worked.left.at, "right": worked.right.at, "clusters": worked.clusters,
                "left_edge": worked.left.kind, "right_edge": worked.right.kind, "colour": one.yarn,
            }  # fmt: skip
            wrong = {key: (row[key], value) for key, value in says.items() if row[key] != value}
            stitches = {kind: worked.count(kind.replace("_", " ")) for kind in row["stitches"]}
            if wrong or stitches != row["stitches"]:
                yield f"{piece['name']}, row {row['row']}: plan.json and {language} words: {wrong} {stitches}"


def yarn_adds_up(sample: Sample) -> Says:
    """The area of every row from plan.json, a trapezium on the row below; its sums are those of the yarn figures, for
    every yarn and piece and over all."""
    found = figures(sample.plan)
    areas: dict[tuple[str, str], float] = defaultdict(float)
    for piece, gauge in zip(sample.json["pieces"], [one.gauge for one in sample.plan.pieces], strict=True):
        for row in piece["rows"]:
            area = _area(piece["rows"], row) * float(gauge.pitch / 2 * gauge.row) * piece["count"]
            areas[row["colour"] or "yarn", piece["name"]] += area
    told = {(use.yarn, use.piece): float(use.area) for use in found.uses}
    if areas.keys() != told.keys() or any(abs(areas[key] - told[key]) > 1e-6 * told[key] for key in areas):
        yield f"areas: {dict(areas)} by plan.json, {told} told"
    for need in found.needs:
        of_it = [use for use in found.uses if use.yarn == need.yarn]
        whole = (sum((use.grams for use in of_it), Fraction(0)) + need.tails) * (1 + found.margin / 100) + need.kept
        if whole != need.needed or not need.low <= need.fabric <= need.high:
            yield f"{need.yarn}: {float(whole)} g by its parts, {float(need.needed)} g told"
        ball = next((one.ball for one in sample.plan.pattern.yarns if one.name == need.yarn), None)
        if ball and need.balls and not (need.balls - 1) * ball < need.needed <= need.balls * ball:
            yield f"{need.yarn}: {need.balls} balls of {ball} g for {float(need.needed)} g"


def _area(rows: list[dict[str, Any]], row: dict[str, Any]) -> float:
    """A row's area in half pitches times rows."""
    below = rows[row["under"]] if row["under"] is not None else row
    stands = ("step_in", "step_out")
    foot = {side: (row if row[f"{side}_move"] in stands else below)[side] for side in ("left", "right")}
    width: float = (row["right"] - row["left"] + foot["right"] - foot["left"]) / 2
    return width


def stripes_of_faced_pieces_meet(sample: Sample) -> Says:
    """A piece that faces another and has its stripes, begun at the same row, has its colours in every row."""
    if sample.plan.pattern.progress:
        return
    wanted = {piece.name: piece for piece in sample.plan.pattern.pieces}
    for piece in wanted.values():
        other = wanted.get(piece.faces or "")
        if other and (piece.stripes, piece.stripes_begin) == (other.stripes, other.stripes_begin):
            ours, theirs = ([row.colour for row in sample.plan.piece(one.name).row_levels] for one in (piece, other))
            if any(a != b for a, b in zip(ours, theirs, strict=False)):
                yield f"{piece.name} faces {other.name}: {ours} beside {theirs}"


# ------------------------------------------------------------------------------------------------------- pictures


def a_left_hand_sees_the_mirror_image(sample: Sample) -> Says:
    """Every symbol of the left-handed chart, read by its shape, lies where the right-handed one's lies in a mirror. The
    whole chart may lie lower: its heading says whom it is for, and may need a line more."""
    look = sample.look
    for piece in sample.plan.pieces:
        sides = []
        for hand in ("right", "left"):
            wanted = Look(hand, look.inks, look.page)  # type: ignore[arg-type]  # drawn: true ovals may lie
            sides.append(chart_reader.Chart(io.BytesIO(svg_of(chart(sample.plan, piece.name, look=wanted)))))  # type: ignore[arg-type]
        yield from (f"{piece.name}, {reason}" for reason in _mirrored(*sides))


def _mirrored(right: chart_reader.Chart, left: chart_reader.Chart) -> Says:
    if right.rows() != left.rows():
        yield f"{right.rows()} rows for the right hand, {left.rows()} for the left"
        return
    shift: chart_reader.Point | None = None
    for nth in range(1, right.rows() + 1):
        one, other = _symbols(right, nth, 1), _symbols(left, nth, -1)
        if [what for what, _ in one] != [what for what, _ in other]:
            yield f"row {nth}: {Counter(what for what, _ in one)} and {Counter(what for what, _ in other)}"
            return
        pairs = list(zip(*(chain.from_iterable(places for _, places in side) for side in (one, other)), strict=True))
        across, down = shift = shift or (pairs[0][0][0] - pairs[0][1][0], pairs[0][0][1] - pairs[0][1][1])
        apart = max(max(abs(a[0] - b[0] - across), abs(a[1] - b[1] - down)) for a, b in pairs)
        if apart > 0.1:
            yield f"row {nth}: symbols up to {apart:.2f} px from their place in the mirror"
            return


def _symbols(drawn: chart_reader.Chart, nth: int, way: int) -> list[tuple[str, tuple[chart_reader.Point, ...]]]:
    """What stands in a row, with its head and foot; ``way`` -1 turns it about a line at 0."""
    return sorted(
        (one.what, ((way * one.head[0], one.head[1]), (way * one.foot[0], one.foot[1]))) for one in drawn.row(nth)
    )


def pictures_can_be_made(sample: Sample) -> Says:
    """Whatever ``check`` takes, ``make`` makes: every picture, well-formed, in its size; and its words."""
    report(sample.plan, colours=True)
    names = []
    for name, scene in everything.scenes(sample.plan, None, sample.look):
        names.append(name)
        yield from (f"{name}: {reason}" for reason in _sound(scene))
    if twice := [name for name, times in Counter(name.casefold() for name in names).items() if times > 1]:
        yield f"two pictures would be called {twice}"
    if len(sample.plan.pattern.yarns) > 1:
        yield from (f"orders: {reason}" for reason in _sound(contact_sheet(sample.plan, look=sample.look)))


def _sound(scene: Scene) -> Says:
    root = etree.fromstring(svg_of(scene))
    if (root.get("width"), root.get("height")) != (f"{scene.width}px", f"{scene.height}px"):
        yield f"{root.get('width')} x {root.get('height')} for {scene.width} x {scene.height}"
    if not scene.words.strip():
        yield "no words"
    ids = {element.get("id") for element in root.iter() if element.get("id")}
    used = {link.removeprefix("#") for element in root.iter() if (link := element.get(chart_reader.HREF))}
    if used - ids:
        yield f"uses {used - ids}, which are not there"


def a_png_has_its_size(sample: Sample) -> Says:
    """One picture as PNG: opened by Pillow, as large as it should be and not blank."""
    name = sample.rng.choice(sample.plan.pieces).name
    scene = chart(sample.plan, name, 700, sample.look, short=sample.rng.random() < 0.5)
    stream = io.BytesIO()
    png.write(scene, stream)
    opened = Image.open(stream)
    opened.load()
    if opened.size != (scene.width, scene.height) or len(opened.getcolors(1 << 24) or ()) < 3:
        yield f"{opened.size} for {scene.width} x {scene.height}"


def posts_fit_their_sizes(sample: Sample) -> Says:
    """A chart for posting is just as large as it should be, or refused in words."""
    name = sample.rng.choice(sample.plan.pieces).name
    for size, (width, height) in SIZES.items():
        try:
            scene = post(sample.plan, name, size, sample.look)
        except MakerError:
            continue
        if (scene.width, scene.height) != (width, height or scene.height):
            yield f"{size}: {scene.width} x {scene.height}"
        yield from (f"{size}: {reason}" for reason in _sound(scene))


def close_ups_of_both_hands(sample: Sample) -> Says:
    """The close-ups of a series for either hand, and of any rows there are."""
    rng = sample.rng
    for piece in sample.plan.pieces:
        for hand in ("right", "left"):
            for asked in series(for_hand(piece, hand)):  # type: ignore[arg-type]
                yield from _sound(detail(sample.plan, piece.name, asked, (540, 540), Look(hand)))  # type: ignore[arg-type]
        row = rng.randint(1, piece.row_count)
        asked = Asked(row, row, rng.choice(("left", "right")))
        yield from _sound(detail(sample.plan, piece.name, asked, (540, 540), sample.look))


def paper_can_be_printed(sample: Sample) -> Says:
    """Sheet, poster, life size and booklet as PDF; refused in words where symbols would be too small."""
    kind = sample.rng.randrange(4)
    names = tuple(piece.name for piece in sample.plan.pieces)
    try:
        if kind == 3:
            paper, language = sample.rng.choice(("A4", "Letter")), sample.rng.choice((None, "de", "UK"))
            made = booklet(sample.plan, paper, sample.look, language)
        else:
            made = pages(sample.plan, Printed(names, "A4", poster=kind == 1, life_size=kind == 2, look=sample.look))
    except MakerError as error:
        if not str(error).strip():
            yield "refused without words"
        return
    stream = io.BytesIO()
    pdf.write(made, stream, title=sample.plan.pattern.title, language="en")
    if stream.getvalue()[:5] != b"%PDF-":
        yield "no PDF"


# ---------------------------------------------------------------------------------------------------------- pages


def pages_are_sound(sample: Sample) -> Says:
    """beside.html and index.html are HTML without a fault; index.html shows every picture once, with its words."""
    html5lib.HTMLParser(strict=True).parse(beside.page(sample.plan, sample.look))
    named = [(name, scene.words) for name, scene in everything.scenes(sample.plan, None, sample.look)]
    tree = html5lib.HTMLParser(strict=True, namespaceHTMLElements=False).parse(page.overview(sample.plan, named))
    shown = [(unquote(one.get("src")).removesuffix(".png"), one.get("alt")) for one in tree.iter("img")]
    if sorted(shown) != sorted(named):
        yield f"index.html: {Counter(name for name, _ in shown)} for {[name for name, _ in named]}"


def markdown_says_what_it_shows(sample: Sample) -> Says:
    """pattern.md, read by a CommonMark reader: its title, a heading for each piece, the pictures that are made with
    their words, and nothing that a name could have turned into a link or into HTML."""
    tokens = MarkdownIt("commonmark").enable("table").parse(blog.markdown(sample.plan))
    inline = [one for token in tokens for one in (token, *(token.children or ()))]
    if any(one.type in ("html_block", "html_inline", "link_open", "code_block", "fence") for one in inline):
        yield "pattern.md: names became links, code or HTML"
    heads = [tokens[nth + 1] for nth, token in enumerate(tokens) if token.type == "heading_open"]
    said = [_plain(head) for head in heads]
    if said[:1] != [_spaced(sample.plan.pattern.title)]:
        yield f"pattern.md: its title reads {said[:1]}"
    missing = [piece.name for piece in sample.plan.pieces if _spaced(piece.name) not in said]
    if missing:
        yield f"pattern.md: no headings {missing}"
    shown = [(unquote(one.attrs["src"]), one.content) for one in inline if one.type == "image"]
    alts = {f"{name}.png": alt for name, alt in blog.pictures(sample.plan).items()}
    if {name for name, _ in shown} != alts.keys():
        yield f"pattern.md: shows {shown}"
    for name, alt in shown:
        if name in alts and _spaced(_told(inline, name, alt)) != _spaced(alts[name]):
            yield f"pattern.md: {name} is told as {alt!r}"


def _plain(token: Any) -> str:
    return _spaced("".join(one.content for one in token.children or () if one.type in ("text", "text_special")))


def _told(inline: list[Any], name: str, alt: str) -> str:
    image = next(one for one in inline if one.type == "image" and unquote(one.attrs["src"]) == name)
    return "".join(one.content for one in image.children or ()) or alt


def _spaced(text: str) -> str:
    return re.sub(r"\s+", " ", text).strip()


# ----------------------------------------------------------------------------------------------- all of them, at a seed

Property = Callable[[Sample], Says]

#: By what they take: reading, planning and words; and drawing, which takes ten times as long.
QUICK: tuple[Property, ...] = (
    inches_are_centimetres, larger_is_the_same_stitches, terms_change_no_stitch, left_and_right_change_about,
    wished_mirrors_are_given, plan_json_is_what_the_words_say, yarn_adds_up, stripes_of_faced_pieces_meet,
    markdown_says_what_it_shows,
)  # fmt: skip
DRAWN: tuple[Property, ...] = (
    everything_is_proved, the_same_bytes_twice, a_left_hand_sees_the_mirror_image, pictures_can_be_made,
    a_png_has_its_size, posts_fit_their_sizes, close_ups_of_both_hands, paper_can_be_printed, pages_are_sound,
)  # fmt: skip
PROPERTIES = QUICK + DRAWN


def share(seed: int, quick: int, drawn: int) -> tuple[Property, ...]:
    """So many properties of each kind for the file of a seed, in turn: over many files each comes as often."""
    chosen = (QUICK[(seed * quick + nth) % len(QUICK)] for nth in range(quick))
    return (*chosen, *(DRAWN[(seed * drawn + nth) % len(DRAWN)] for nth in range(drawn)))


def disagreements(seed: int, properties: tuple[Property, ...], file: File | None = None) -> list[str] | None:
    """What does not hold at a seed, each with the property and the seed; None where the file cannot be made."""
    sample = Sample(file or file_at(seed))
    found: list[str] = []
    try:
        if sample.made is None:
            return None
    except Exception as error:  # whatever it is, the seed must be told
        return [f"seed {seed}: {type(error).__name__}: {error}"]
    for holds in properties:
        try:
            found += [f"seed {seed}, {holds.__name__}: {reason}" for reason in holds(sample)]
        except Exception as error:
            found.append(f"seed {seed}, {holds.__name__}: {type(error).__name__}: {error}")
    return found


def checked(seed: int) -> tuple[int, list[str]]:
    """For the nightly set: how many properties were looked at of a seed's file, and what disagrees."""
    properties = share(seed, len(QUICK), 2)
    found = disagreements(seed, properties)
    return (0, []) if found is None else (len(properties), found)


def slip(seed: int) -> tuple[int, list[str]]:
    """Whether (1 or 0) the slip of a seed was refused, and what came instead of a plan or words for its maker."""
    try:
        return int(planned(slipped_at(seed)) is None), []
    except Exception as error:
        return 0, [f"seed {seed}, a slip: {type(error).__name__}: {error}"]
