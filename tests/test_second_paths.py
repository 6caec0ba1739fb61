"""Second paths for tables of sizes, for yarns drawn as carried, for what stock is told to suffice, for the colours of a
photograph: what is printed is changed in turn, and each change must be seen. Values follow from the worked rows; areas
of the photograph from how it was painted."""

from __future__ import annotations

import re
from collections import Counter
from functools import cache
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from test_photograph import STASH, TABLE, photograph
from turnchain.fabric.plan import Plan
from turnchain.pages.report import report
from turnchain.pages.sizes_report import report_of_sizes
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.proof import proving, size_tables, worked_cloths
from turnchain.proof.compared import captions
from turnchain.proof.held import Held
from turnchain.proof.printed.picture import read_picture
from turnchain.reading.pattern_file import read_sizes, read_text
from turnchain.wording import words
from turnchain.yarns.photograph import colours_in

SIZES = """
title = "Hat"
sizes = ["small", "large"]
swatch = { clusters = 4, width = 10, rows = 8, height = 10, weight = 10 }
[[yarn]]
name = "Reed"
colour = "#33aa55"
stock = 40
ball = 25
[[yarn]]
name = "Silt"
colour = "#aa3355"
[stripes]
order = ["Reed", "Silt"]
[[piece]]
name = "hat"
width = "25 (30)"
length = "10 (12.5)"
"""


@cache
def sized() -> tuple[tuple[Plan, ...], str]:
    plans = plan_sizes(read_sizes(SIZES, "hat.toml"))
    return plans, report_of_sizes(plans)


def test_every_figure_of_a_table_of_sizes_is_looked_at() -> None:
    plans, text = sized()
    looked, wrong = size_tables.held(plans, text, proving.worked_from_words)
    assert (wrong, looked) == ([], 2 * (2 * 3 + 3 + 3 + 1))
    ends = (("\nhat ", "\ntold in"), ("\nyarn ", "  the stock"))
    tables = "".join(text[text.index(start) : text.index(end)] for start, end in ends)
    tried = 0
    for line in [line for line in tables.splitlines() if line.startswith(" ") and "at most" not in line]:
        start = text.index(line)
        for found in re.finditer(r"(?<=  )[+−]?\d+(?:\.\d+)?|(?<=  )exact", line):
            other = "+1 cm" if found[0] == "exact" else found[0][:-1] + str((int(found[0][-1]) + 1) % 10)
            changed = text[: start + found.start()] + other + text[start + found.end() :]
            tried += 1
            assert size_tables.held(plans, changed, proving.worked_from_words)[1], (line, other)
    assert tried == looked


SLEEVE = """
title = "Sleeve"
swatch = { clusters = 4, width = 10, rows = 8, height = 10 }
[[yarn]]
name = "Reed"
colour = "#33aa55"
[[yarn]]
name = "Silt"
colour = "#aa3355"
[stripes]
order = ["Reed", "Silt"]
rows = 2
carry = 4
[[piece]]
name = "sleeve"
outline = [[0, 20], [25, 40]]
"""


def test_yarns_carried_at_a_shaped_edge_are_drawn_and_nothing_else_is() -> None:
    """A sleeve of 20 rows in stripes of two rows: each of 8 stripes after the first two takes its yarn up again."""
    plan = plan_pattern(read_text(SLEEVE, "sleeve.toml"))
    cloth = worked_cloths.cloths(plan, proving.words_of(plan, "US", words.pattern_text(plan, "US")).cloth)["sleeve"]
    colours = {one.name: one.colour for one in plan.pattern.yarns}
    drawn = proving.svg_of(plan, "sleeve").decode()

    def reasons(picture: str) -> list[str]:
        return list(captions.loops(cloth, 4, colours, read_picture(picture.encode()).carried))

    assert reasons(drawn) == []
    assert len(read_picture(drawn.encode()).carried) == 8
    group = re.search(r'<g id="carried-yarns".*?</g>', drawn, re.S)
    assert group is not None
    lines = re.findall(r"<path.*?/>", group[0], re.S)
    assert len(lines) == 16
    for rim, line in zip(lines[::2], lines[1::2], strict=True):
        assert reasons(drawn.replace(rim, "").replace(line, "")), "one is left out"
        other = line.replace("#33aa55", "#aa3355") if "#33aa55" in line else line.replace("#aa3355", "#33aa55")
        assert reasons(drawn.replace(line, other)), "it is of another yarn"


STOCK = """
title = "Stash"
swatch = {{ clusters = 4, width = 10, rows = 8, height = 10, weight = 10 }}
[[yarn]]
name = "Reed"
colour = "#33aa55"
stock = {0}
[[yarn]]
name = "Silt"
colour = "#aa3355"
stock = 20
[stripes]
kind = "stash"
[[piece]]
name = "panel"
width = 30
length = 12.5
"""


@pytest.mark.parametrize("grams", [40, 5])
def test_stock_that_is_told_to_suffice_does(grams: int) -> None:
    """What suffices is told to fall short, and the other way about."""
    plans = {stock: plan_pattern(read_text(STOCK.format(stock), "stash.toml")) for stock in (40, 5)}
    plan, other = plans[grams], plans[45 - grams]
    cloths = worked_cloths.cloths(plan, proving.words_of(plan, "US", words.pattern_text(plan, "US")).cloth)
    lines = {stock: report(one).partition("\n\nstash\n")[2].partition("\n\n")[0] for stock, one in plans.items()}

    def reasons(text: str) -> list[str]:
        held = Held(plan, cloths)
        held.report(text)
        return held.reasons

    said = report(plan)
    assert reasons(said) == []
    assert "left after the margin" in lines[40]
    assert "falls short" in lines[5]
    assert any("suffice" in reason for reason in reasons(said.replace(lines[grams], lines[45 - grams])))
    assert other != plan


def test_a_piece_begun_keeps_to_the_stock_with_its_worked_rows() -> None:
    """Of the stock as told 8 rows were worked in stripes that left less of one yarn; all rows together are weighed."""
    begun = STOCK.format(40) + '[[progress]]\npiece = "panel"\nrows = 4\nheight = 5.4\n'
    plan = plan_pattern(read_text(begun, "stash.toml"))
    assert proving.prove(plan, offers=True).reasons == ()
    assert Counter(row.colour for row in plan.pieces[0].rows).total() == len(plan.pieces[0].rows)


def test_the_shares_of_a_photograph_are_the_areas_that_were_painted(tmp_path: Path) -> None:
    """Balls are discs of 118 px in 300 by 360 px each; the table is what is left. Besides, each px is given to the
    colour told that is nearest to it in sRGB, lightness apart, and counted."""
    path = photograph(tmp_path / "stash.png", STASH)
    found = colours_in(path)
    disc = np.pi * 118**2 / (300 * 360 * len(STASH))
    for one in found:
        assert one.share == pytest.approx(1 - len(STASH) * disc if one.table else disc, abs=0.02), one
    with Image.open(path) as picture:
        px = np.asarray(picture.convert("RGB"), dtype=float).reshape(-1, 3)
    told = np.array([[int(one.colour[at : at + 2], 16) for at in (1, 3, 5)] for one in found], dtype=float)

    def apart(colours: np.ndarray) -> np.ndarray:  # type: ignore[type-arg]
        return np.column_stack([colours / colours.sum(axis=1, keepdims=True), colours.sum(axis=1) / 3000])

    nearest = ((apart(px)[:, None] - apart(told)[None]) ** 2).sum(axis=2).argmin(axis=1)
    counted = np.bincount(nearest, minlength=len(found)) / len(px)
    assert [one.share for one in found] == pytest.approx(list(counted), abs=0.04)
    assert TABLE not in STASH
