"""What is made of a pattern file, part by part, and digests of it.

Each file is told in one of the languages and drawn in one of the looks, in turn. Drawings are held as SVG, no px.
"""

from __future__ import annotations

import hashlib
import io
from collections.abc import Iterator
from functools import cache
from pathlib import Path

from turnchain import plan_json
from turnchain.drawing import nested, posting, schematic, stitch_by_stitch, worn
from turnchain.drawing.chart import chart
from turnchain.drawing.detail import detail, series
from turnchain.drawing.folds import NO_FOLDS, folded
from turnchain.drawing.looks import Look, for_hand
from turnchain.drawing.preview import preview
from turnchain.errors import MakerError
from turnchain.fabric.plan import PiecePlan, Plan
from turnchain.pages import blog
from turnchain.pages.report import report
from turnchain.pages.sizes_report import report_of_sizes
from turnchain.planning.planner import plan_pattern, plan_sizes
from turnchain.reading.pattern_file import read_sizes
from turnchain.scene import Scene
from turnchain.wording.tables import told_in
from turnchain.writers import svg

from .patterns import ONLY_WRITTEN, UNDRAWN, patterns

KEPT = Path(__file__).with_name("kept.txt")
LANGUAGES = ("US", "UK", "de", "fr")
LOOKS = (
    Look(), Look("left", "full"), Look("right", "mono"), Look("left", "tint", "dark", "true"), Look("right", "full"),
)  # fmt: skip
POSTS = ("phone", "square", "blog", "film", "tall")
TOLD = ("file", "plan", "report", "words", "problems")
_DIGITS = 8  # of a digest: one change in four milliards goes unseen

Made = Iterator[tuple[str, str]]


def parts(name: str) -> dict[str, str]:
    """Every part that is made of the file called ``name``, by its name."""
    return told(name) | drawn(name)


def told(name: str) -> dict[str, str]:
    """The file itself, its plan, its report and its words; an error that its maker is told ends them."""
    found = {"file": patterns()[name]()}
    if not name.startswith(ONLY_WRITTEN):
        _add(found, _told(name), "problems")
    return found


def drawn(name: str) -> dict[str, str]:
    """Its drawings; an error that its maker is told ends them."""
    found: dict[str, str] = {}
    if not name.startswith((*ONLY_WRITTEN, *UNDRAWN)):
        _add(found, _drawn(name), "problems of drawings")
    return found


def digests(made: dict[str, str]) -> dict[str, str]:
    """A digest of each part."""
    return {part: hashlib.sha256(one.encode()).hexdigest()[:_DIGITS] for part, one in made.items()}


def _add(found: dict[str, str], made: Made, problems: str) -> None:
    try:
        for part, one in made:
            found[part] = found.get(part, "") + one
    except MakerError as error:
        found[problems] = str(error)


def _number(name: str) -> int:
    return list(patterns()).index(name)


@cache
def _plans(name: str) -> tuple[Plan, ...]:
    read = read_sizes(patterns()[name](), "x.toml")
    plans = plan_sizes(read, "x.toml") if len(read) > 1 else (plan_pattern(read[0], "x.toml"),)
    language = LANGUAGES[_number(name) % len(LANGUAGES)]
    return tuple(told_in(plan, language) for plan in plans)


def _told(name: str) -> Made:
    plans = _plans(name)
    for plan in plans:
        yield "plan", plan_json.plan_text(plan)
    yield "report", report_of_sizes(plans) if len(plans) > 1 else report(plans[0])
    yield "words", blog.markdown_of_sizes(plans) if len(plans) > 1 else blog.markdown(plans[0])


def _drawn(name: str) -> Made:
    plans, nth = _plans(name), _number(name)
    yield from _pictures(plans[nth % len(plans)], nth)
    if len(plans) > 1:
        for piece in plans[0].pieces:
            yield "in all sizes", _svg(nested.nested(plans, piece.name))


def _pictures(plan: Plan, nth: int) -> Made:
    look = LOOKS[nth % len(LOOKS)]
    for name, scene in schematic.scenes(plan).items():
        yield name, _svg(scene)
    yield "stripes", _svg(preview(plan, None, 800, look, lambda *_: None))
    for piece in plan.pieces:
        yield "charts", _svg(chart(plan, piece.name, look=look))
        if folded(piece) != NO_FOLDS:
            yield "short charts", _svg(chart(plan, piece.name, None, look, short=True))
    yield from _close(plan, plan.pieces[nth % len(plan.pieces)], look)
    one = plan.pieces[nth % len(plan.pieces)]
    yield "for a post", _svg(posting.post(plan, one.name, POSTS[nth % len(POSTS)], look))
    if plan.pattern.wearer is not None and worn.is_wearer_known(plan):
        yield "on a figure", _svg(worn.worn(plan, 800, look, fits=lambda *_: None))


def _close(plan: Plan, piece: PiecePlan, look: Look) -> Made:
    """The close-ups of a piece, and the first of them stitch by stitch."""
    for nth, asked in enumerate(series(for_hand(piece, look.hand))):
        yield "close-ups", _svg(detail(plan, piece.name, asked, (1080, 1080), look))
        if nth == 0:
            yield "stitch by stitch", _svg(stitch_by_stitch.strip(plan, piece.name, asked, look))


def _svg(scene: Scene) -> str:
    stream = io.BytesIO()
    svg.write(scene, stream)
    return f"{stream.getvalue().decode()}\n{scene.words}\n"


# ------------------------------------------------------------------------------------------------------ as it is kept


@cache
def kept() -> dict[str, dict[str, str]]:
    """The digests that are kept, by the names of files and parts."""
    lines = KEPT.read_text("utf-8").splitlines() if KEPT.exists() else []
    return {name: dict(one.split("=") for one in said) for name, *said in (line.split("\t") for line in lines)}


def keep(found: dict[str, dict[str, str]]) -> None:
    """Keeps these."""
    lines = ["\t".join([name, *(f"{part}={digest}" for part, digest in of.items())]) for name, of in found.items()]
    KEPT.write_text("\n".join(lines) + "\n", "utf-8")


def changed(name: str, found: dict[str, str], before: dict[str, str]) -> Iterator[str]:
    """What of the digests of a file is other than before, in words."""
    if not before or not found:
        yield f"{name}: {'this file is new' if found else 'this file is no more'}"
        return
    for part in {**before, **found}:
        if part not in found:
            yield f"{name}: {part} is made no more"
        elif part not in before:
            yield f"{name}: {part} is new"
        elif found[part] != before[part]:
            yield f"{name}: {part} is another"
