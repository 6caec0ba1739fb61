"""Stitch symbols: what is shipped, what is read, what is refused, and where it lands."""

from __future__ import annotations

import math
from collections.abc import Sequence
from pathlib import Path as FilePath

import cairosvg
import numpy as np
import pytest

from pictures import check_alike, opened, ours
from turnchain.drawing import glyphs
from turnchain.errors import MakerError
from turnchain.scene import INK, Path, Scene, Use

SHIPPED = ("ch", "dc", "hdc", "sc", "sc_leaning", "sl_st", "tr")
FOLDER = FilePath(__file__).parents[1] / "symbols"
ANCHORS = '<circle id="foot" cx="5" cy="9"/><circle id="head" cx="5" cy="1" r="0"/>'


def drawing(body: str = "", style: str = 'fill="none" stroke="currentColor"', anchors: str = ANCHORS) -> bytes:
    head = f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 10" {style}>'
    return f"{head}{body}{anchors}</svg>".encode()


def parsed(body: str, **options: str) -> glyphs.Glyph:
    return glyphs.parse("own", "own.svg", drawing(body, **options))


def points(path: Path) -> list[tuple[float, ...]]:
    return [step[-2:] for step in path.steps if len(step) > 1]


def pairs(places: Sequence[tuple[float, ...]]) -> list[Sequence[tuple[float, ...]]]:
    return [places[nth : nth + 2] for nth in range(0, len(places), 2)]


def test_every_shipped_file_is_known_here() -> None:
    assert tuple(sorted(file.stem for file in FOLDER.glob("*.svg"))) == SHIPPED


@pytest.mark.quick(4)
@pytest.mark.parametrize("name", SHIPPED)
def test_a_symbol_is_drawn_as_any_renderer_draws_its_file(name: str) -> None:
    symbol = glyphs.load(name)
    scale, fine = 10, 8
    large = opened(cairosvg.svg2png(url=str(FOLDER / f"{name}.svg"), scale=scale * fine, background_color="white"))
    height, width = large.shape[0] // fine, large.shape[1] // fine
    picture = large.reshape(height, fine, width, fine, 3).mean(axis=(1, 3)).round().astype(np.uint8)
    foot, head = ((x * scale, y * scale) for x, y in (symbol.foot, symbol.head))
    items = glyphs.place(symbol, foot, head, 1.6 * scale)
    scene = Scene(width, height, "", "", "en", {"own": items}, (Use("own", 0, 0, "#000000"),))
    check_alike(picture, ours(scene), mean=0.3, near=1)


@pytest.mark.parametrize("name", SHIPPED)
def test_foot_and_head_stand_in_the_box_and_strokes_make_one_path(name: str) -> None:
    symbol = glyphs.load(name)
    assert len(symbol.strokes) == 1
    assert {symbol.strokes[0].fill, symbol.strokes[0].stroke} == {INK, None}


def test_place_lands_on_foot_and_head() -> None:
    (path,) = glyphs.place(glyphs.load("dc"), (100, 200), (130, 160), 2)
    stem = points(path)[:2]
    assert stem == [(100, 200), (130, 160)]
    assert path.width == 2
    assert path.stroke == INK


@pytest.mark.parametrize("across", [None, 0.4, -0.4, 3.0])
def test_the_bar_stays_at_right_angles_and_takes_the_scale_across(across: float | None) -> None:
    foot, head = (10, 80), (70, 0)
    (path,) = glyphs.place(glyphs.load("dc"), foot, head, 2, across)
    (x0, y0), (x1, y1) = points(path)[2:4]
    stem = (head[0] - foot[0], head[1] - foot[1])
    assert (x1 - x0) * stem[0] + (y1 - y0) * stem[1] == pytest.approx(0, abs=1)  # numbers are rounded
    scale = math.hypot(*stem) / 30
    assert math.dist((x0, y0), (x1, y1)) == pytest.approx(10 * abs(scale if across is None else across), abs=0.02)
    # the box is not turned over unless asked: looking from foot to head, the bar runs from left to right
    assert ((x1 - x0) * -stem[1] + (y1 - y0) * stem[0] > 0) == (across is None or across > 0)


@pytest.mark.parametrize("name", ["hdc", "dc", "tr"])
@pytest.mark.parametrize("lean", range(-60, 61, 5))
def test_slashes_cross_their_stem_however_it_leans(name: str, lean: int) -> None:
    """A stem 50 px high; the bar lies level and each slash keeps its form: 7.4 wide, 4.6 high (symbols/README.md)."""
    (path,) = glyphs.stand(glyphs.load(name), (100, 150), (100 + lean, 100), 2, 1.0)
    (foot, head), bar, *slashes = pairs(points(path))
    assert (foot, head) == ((100, 150), (100 + lean, 100))
    assert bar[0][1] == bar[1][1]
    assert len(slashes) == {"hdc": 0, "dc": 1, "tr": 2}[name]
    for one, other in slashes:
        assert (abs(other[0] - one[0]), abs(other[1] - one[1])) == pytest.approx((7.4, 4.6), abs=0.02)
        way, stem = math.atan2(other[1] - one[1], other[0] - one[0]), math.atan2(-50, lean)
        crossing = math.degrees(way - stem) % 180
        assert min(crossing, 180 - crossing) > 23.5


def test_place_refuses_one_place_for_both() -> None:
    with pytest.raises(ValueError, match="coincide"):
        glyphs.place(glyphs.load("dc"), (1, 1), (1, 1), 2)


def test_numbers_are_short() -> None:
    for path in glyphs.place(glyphs.load("ch"), (0, 0), (1 / 3, 1 / 7), 1):
        assert all(
            n == round(n, 2) and math.copysign(1, n) == (1 if n == 0 else math.copysign(1, n))
            for step in path.steps
            for n in step[1:]
        )


def test_merge_joins_equal_styles_only() -> None:
    dc, sl_st = (glyphs.place(glyphs.load(name), (0, 0), (0, -9), 2) for name in ("dc", "sl_st"))
    merged = glyphs.merge([*dc, *sl_st, *dc])
    assert [len(path.steps) for path in merged] == [2 * len(dc[0].steps), len(sl_st[0].steps)]


def test_a_makers_own_symbol_wins_and_others_are_shipped(tmp_path: FilePath) -> None:
    (tmp_path / "dc.svg").write_bytes(drawing('<line x1="5" y1="9" x2="5" y2="1"/>'))
    assert glyphs.load("dc", tmp_path).foot == (5, 9)
    assert glyphs.load("ch", tmp_path) == glyphs.load("ch")


def test_every_allowed_element_is_read() -> None:
    symbol = parsed(
        "<title>own</title><desc>words</desc><!-- a comment -->"
        '<path d="M 1 1 H 3 V2.5 L 4,4 C 1 2 3 4 5 6 Z" stroke-linecap="round"/>'
        '<polyline points="0,0 1,1 2,0" stroke-linecap="round"/>'
        '<circle cx="2" cy="3" r="1" fill="currentColor" stroke="none"/>'
    )
    lines, dot = symbol.strokes
    assert [step[0] for step in lines.steps] == ["M", "L", "L", "L", "C", "Z", "M", "L", "L"]
    assert points(lines)[:4] == [(1, 1), (3, 1), (3, 2.5), (4, 4)]
    assert lines.cap == "round"
    assert (dot.fill, dot.stroke, dot.cap) == (INK, None, "butt")


@pytest.mark.parametrize(
    ("body", "message"),
    [
        ("<script>1</script>", "<script> is not allowed; allowed are path, line"),
        ("<g/>", "<g> is not allowed"),
        ("<text>a</text>", "<text> is not allowed"),
        ('<image href="http://a/b.png"/>', "<image> is not allowed"),
        ('<path d="M 0 0" transform="scale(2)"/>', "<path> has transform; allowed there: d, fill"),
        ('<path d="M 0 0" style="fill:red"/>', "has style"),
        ('<path d="M 0 0" onload="x"/>', "has onload"),
        ('<path d="m 1 1"/>', "has m with 2 numbers in d; allowed are M with 2"),
        ('<path d="M 1 1 2 2"/>', "has M with 4 numbers"),
        ('<path d="M 1 1 A 1 1 0 0 0 2 2"/>', "has A with 7 numbers"),
        ('<path d="L 1 1"/>', "a path begins with M"),
        ('<path d="M 1 1e5"/>', "has e with 1 numbers"),
        ('<path d="M 1 &#x663;"/>', "a plain number"),
        ("<path/>", "has no d"),
        ('<line x1="5px"/>', "has x1 '5px'; a plain number up to 10000 is needed"),
        (f'<line x1="{"9" * 400}"/>', "a plain number"),
        ('<polyline points="1 1"/>', "two or more points"),
        ('<line fill="red"/>', "has fill 'red'; say fill none or currentColor"),
        ('<line stroke="url(#a)"/>', "has stroke 'url"),
        ('<line stroke-linecap="square"/>', "allowed are round and butt"),
        ("<line><title>a</title></line>", "holds another element"),
        ('<circle id="knee"/>', "only the circles foot and head"),
        ('<line id="foot"/>', "only the circles foot and head"),
        ('<circle id="foot" r="2"/>', "never drawn"),
    ],
)
def test_what_lies_outside_the_rules_is_refused_by_name(body: str, message: str) -> None:
    with pytest.raises(MakerError) as caught:
        parsed(body)
    assert str(caught.value).startswith("own.svg: <")
    assert message in str(caught.value)


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b'<!DOCTYPE svg [<!ENTITY a "b">]>' + drawing(), "<!DOCTYPE is not allowed"),
        (b"<svg><![CDATA[x]]></svg>", "<![CDATA is not allowed"),
        (drawing().decode().encode("utf-16"), "UTF-8"),
        (drawing() + b" " * 70_000, "larger than 64 kB"),
        (b"<svg", "not well-formed"),
        (b"<svg/>", 'begin with <svg xmlns="http://www.w3.org/2000/svg"'),
        (drawing(style='fill="none" width="10"'), "<svg> has width"),
        (drawing("<line/>", style=""), "has fill 'black'"),
        (drawing(anchors='<circle id="foot"/>'), "has no head"),
        (drawing(anchors='<circle id="foot"/><circle id="head"/>'), "foot and head in one place"),
    ],
)
def test_files_that_are_no_symbols(data: bytes, message: str) -> None:
    with pytest.raises(MakerError) as caught:
        glyphs.parse("own", "own.svg", data)
    assert message in str(caught.value)


@pytest.mark.parametrize("name", ["../dc", "DC", "d c", "", "dc.svg", "/etc/passwd", "dc\n"])
def test_a_name_cannot_leave_the_folder(name: str, tmp_path: FilePath) -> None:
    with pytest.raises(MakerError, match="letters a to z and _"):
        glyphs.load(name, tmp_path)


def test_a_link_cannot_leave_the_folder(tmp_path: FilePath) -> None:
    folder = tmp_path / "own"
    folder.mkdir()
    (tmp_path / "secret.svg").write_bytes(drawing())
    (folder / "dc.svg").symlink_to(tmp_path / "secret.svg")
    with pytest.raises(MakerError, match="not a link out of it"):
        glyphs.load("dc", folder)


def test_unknown_symbols_and_folders_say_what_there_is(tmp_path: FilePath) -> None:
    with pytest.raises(MakerError, match="there are ch, dc, hdc, sc, sc_leaning, sl_st, tr"):
        glyphs.load("dtr")
    with pytest.raises(MakerError, match="no such folder"):
        glyphs.load("dc", tmp_path / "nowhere")
