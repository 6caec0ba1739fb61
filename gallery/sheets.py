"""Six sheets at the size at which makers see them: three on a phone, three printed on A4.

In: the patterns of the gallery. Out: ``sheets/*.png``: 780 px wide, as a phone of 390 px shows them with two px to each
of its own, and A4 at 150 dots per inch. ``python gallery/sheets.py`` makes them, to be looked at after a change of how
charts look.
"""

from __future__ import annotations

import io
from collections.abc import Iterator
from pathlib import Path

from PIL import Image

from turnchain.drawing import posting
from turnchain.drawing.detail import detail, series
from turnchain.drawing.looks import Look
from turnchain.fabric.plan import Plan
from turnchain.making import planned
from turnchain.printing.sheets import picture
from turnchain.scene import Scene
from turnchain.writers.formats import PICTURES

HERE = Path(__file__).parent
FOLDER = HERE / "sheets"
PHONE = 780  # px across: 390 of a phone's own
DPI = 150  # of the printed sheets
COLOURS = 128  # of a picture: the files travel with the code
BODY, CUSHION, BAG = "fallow_lane_slipover", "orchard_gate_cushion", "thimble_beck_bag"


def sheets() -> Iterator[tuple[str, Scene]]:
    """The name of each sheet and its picture."""
    plans = {name: planned(HERE / "patterns" / f"{name}.toml") for name in (BODY, CUSHION, BAG)}
    pieces = {name: plan.pieces[0] for name, plan in plans.items()}
    yield "phone-chart", posting.post(plans[BODY], pieces[BODY].name, "phone")
    yield "phone-post", _shaped(plans[BAG])
    close_up = list(series(pieces[BODY]))[-1]
    yield "phone-close-up", detail(plans[BODY], pieces[BODY].name, close_up, (1080, 1080))
    for name, plan in plans.items():
        yield f"a4-{pieces[name].name}", picture(plan, pieces[name].name, "A4", DPI, Look())


def _shaped(plan: Plan) -> Scene:
    """A picture of the series that shows a shaped edge."""
    made = posting.series(plan, plan.pieces[0].name, "square")
    return made[-2]  # before the stripes


def build() -> list[Path]:
    """Writes the sheets; the files written."""
    FOLDER.mkdir(exist_ok=True)
    return [_written(name, scene) for name, scene in sheets()]


def _written(name: str, scene: Scene) -> Path:
    """A sheet at its true size, in few colours."""
    stream = io.BytesIO()
    PICTURES[".png"].write(scene, stream)
    seen = Image.open(stream).convert("RGB")
    if name.startswith("phone"):
        seen = seen.resize((PHONE, round(seen.height * PHONE / seen.width)), Image.Resampling.LANCZOS)
    path = FOLDER / f"{name}.png"
    seen.quantize(COLOURS, Image.Quantize.MAXCOVERAGE, dither=Image.Dither.NONE).save(path, optimize=True)
    return path


if __name__ == "__main__":
    for path in build():
        print(path, path.stat().st_size)
