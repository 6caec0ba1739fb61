"""A colour picked on the design page: the chart and the cloth show it at once, by the program's own rules.

The page's rules are held against the program's on colours drawn by a seed, and a picture that is recoloured against the
same picture drawn anew.
"""

from __future__ import annotations

import pickle
from pathlib import Path
from random import Random
from typing import Any

import pytest

import turnchain
from design_page import HERON
from turnchain import style
from turnchain.drawing.cloth import LIGHTER, shades
from turnchain.drawing.colours import AGAINST_PAGE, Colours, touching
from turnchain.drawing.toned import Toned, toned
from turnchain.fabric.plan import Row
from turnchain.records import replace

PALETTES = 60


def palettes(seed: int, names: list[str]) -> list[dict[str, str]]:
    """Colours by name, among them dark, pale and grey ones, and some that are nearly alike."""
    rng = Random(seed)

    def one() -> str:
        base = rng.choice(((0, 255), (0, 60), (190, 255)))
        channels = [rng.randint(*base) for _ in range(3)]
        return "#" + "".join(f"{part:02x}" for part in (channels if rng.random() < 0.8 else [channels[0]] * 3))

    made = [{name: one() for name in names} for _ in range(PALETTES)]
    fixed = [dict.fromkeys(names, colour) for colour in ("#000000", "#ffffff", "#808080", "#ff0000", "#0000ff")]
    return made + fixed


def made(colours: Colours, rows: dict[str, Row], how: str, name: str, other: str = "") -> str:
    """The colour that the program makes of the yarn ``name`` in the way ``how``."""
    row = rows[name]
    match how:
        case "yarn":
            return colours.of(row)
        case "tint":
            return colours.tint(row)
        case "ink":
            return colours.ink_of_letter(row)
        case "against":
            return style.mixed(style.INK_DARK, colours.tint(row), AGAINST_PAGE)
        case "between":
            return colours.between(row, rows[other])
        case _:
            return str(getattr(shades(colours.of(row)), other))


def test_tints_inks_and_shades_on_the_page_are_those_of_the_program(page: Any) -> None:
    """Every way in which a colour comes from a yarn's, each in every palette, to the last digit."""
    plan = turnchain.plan(turnchain.load(HERON))
    rows = {row.colour: row for row in plan.pieces[0].rows if row.colour is not None}
    names, pairs = list(rows), touching(plan.pieces)
    hows = [[how, name] for how in ("yarn", "tint", "ink", "against") for name in names]
    hows += [["between", one, other] for pair in pairs for one, other in (pair, pair[::-1])]
    hows += [["shade", name, shade] for name in names for shade in LIGHTER]
    scene = {"tones": [["", *how] for how in hows], "yarns": dict.fromkeys(names, "none"), "touching": pairs}
    drawn, expected = palettes(7, names), []
    for palette in drawn:
        yarns = tuple(replace(yarn, colour=palette[yarn.name]) for yarn in plan.pattern.yarns)
        colours = Colours(replace(plan.pattern, yarns=yarns), "tint", plan.pieces)
        expected.append([str(made(colours, rows, *how)) for how in hows])
    shown = page.evaluate(
        """async ([scene, all]) => {
            const { tonesOf } = await import('/colours.js');
            return all.map((colours) => tonesOf(scene, colours));
        }""",
        [scene, drawn],
    )
    assert shown == expected


@pytest.mark.quick(0)
@pytest.mark.parametrize("want", ["chart", "short", "preview"])
def test_a_picture_in_another_colour_is_as_one_drawn_anew(page: Any, want: str) -> None:
    """Some lines that tell pale rows from the page come and go with the tints; all else is the same px for px."""
    off = page.evaluate(
        """async ([text, want]) => {
            const { Drawing } = await import('/scene.js');
            const { ask } = await import('/engine.js');
            const other = text.replace(/colour = "#[0-9a-f]{6}"/, 'colour = "#3a6ea5"');
            const [one, two] = await Promise.all([text, other].map((words) => ask({ text: words, want: [want] })));
            const px = (drawing) => {
                const canvas = new OffscreenCanvas(drawing.scene.width, drawing.scene.height);
                const context = canvas.getContext('2d');
                drawing.draw(context);
                return context.getImageData(0, 0, canvas.width, canvas.height).data;
            };
            const drawing = new Drawing(one[want]);
            const before = px(drawing);
            const started = performance.now();
            drawing.recolour(two[want].yarns);
            const after = px(drawing);
            const took = performance.now() - started;
            const wanted = px(new Drawing(two[want]));
            const apart = (px) => px.filter((part, at) => Math.abs(part - wanted[at]) > 2).length / px.length;
            return [apart(before), apart(after), took];
        }""",
        [HERON.read_text("utf-8"), want],
    )
    print(f"{want}: recoloured and drawn in {off[2]:.0f} ms")
    assert off[0] > 0.01
    assert off[1] < 0.002


def test_a_colour_that_is_picked_is_shown_before_any_reply(page: Any, pattern_file: Path) -> None:
    """The program answers nothing at all: chart, cloth, ladder and chips are in the new colour."""
    page.evaluate("() => { window.own = window.fetch; window.fetch = () => new Promise(() => {}); }")
    shown = """(colour) => {
        const canvas = document.querySelector('.picture canvas');
        const { data } = canvas.getContext('2d').getImageData(0, 0, canvas.width, canvas.height);
        const wanted = [1, 3, 5].map((at) => parseInt(colour.slice(at, at + 2), 16));
        let count = 0;
        for (let at = 0; at < data.length; at += 4) count += wanted.every((one, part) => data[at + part] === one);
        return count;
    }"""
    page.locator(".ball input").first.fill("#c3dba5")
    page.wait_for_timeout(200)
    assert page.evaluate(shown, "#c3dba5") > 500
    assert page.locator('.table polygon[fill="#c3dba5"]').count() > 5


@pytest.mark.quick(0)
def test_colours_of_a_scene_know_their_yarn() -> None:
    plan = turnchain.plan(turnchain.load(HERON))
    colours = Colours(plan.pattern, "tint", plan.pieces)
    row = plan.pieces[0].rows[0]
    tint = colours.tint(row)
    assert isinstance(tint, Toned)
    assert tint.how == ("tint", row.colour)
    again = pickle.loads(pickle.dumps(tint))  # drawn by a second process
    assert (again, again.how) == (tint, tint.how)
    assert shades(toned("#336699", "yarn", "Reed")) == shades("#336699")
    assert not isinstance(Colours(plan.pattern, "mono", plan.pieces).tint(row), Toned)
