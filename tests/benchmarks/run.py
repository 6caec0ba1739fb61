"""How fast charts are made, beside general renderers that draw the same SVG.

    python tests/benchmarks/run.py [--runs 3] [--limit 600] [--only small medium] [-o table.md]

Needs turnchain to be installed; librsvg's rsvg-convert and the packages resvg_py and cairosvg (extra "bench") are
measured where they are to be had. Prints Markdown. Not part of the tests, and nothing here fails for being slow:
compare ratios of one run, since seconds are those of one machine on one day.
"""

from __future__ import annotations

import argparse
import importlib.util
import platform
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

from measuring import Asked, Cost, cost, python
from patterns import GROWING, PANELS, Panel, written

CASES = Path(__file__).parent.parent / "cases"
TABLES = ("paper", "growth", "start")
A0_WIDTH = 9933  # px at 300 dpi

CAIRO_PNG = "import cairosvg, sys; cairosvg.svg2png(url=sys.argv[1], write_to=sys.argv[2], unsafe=True)"
CAIRO_PDF = "import cairosvg, sys; cairosvg.svg2pdf(url=sys.argv[1], write_to=sys.argv[2], unsafe=True)"
RESVG_PNG = (
    "import resvg_py, sys; data = resvg_py.svg_to_bytes(svg_path=sys.argv[1], skip_system_fonts=True);"
    "open(sys.argv[2], 'wb').write(bytes(data))"
)
PLAN = (
    "import sys, pathlib; from turnchain.making import planned; plan = planned(pathlib.Path(sys.argv[1]));"
    "assert plan.pieces"
)
# As few steps as can be between the px of a picture and the file: they are copied once and deflated.
FLOOR = """
import sys, time
import numpy as np
from isal import isal_zlib
from PIL import Image
Image.MAX_IMAGE_PIXELS = None
picture = np.asarray(Image.open(sys.argv[1]))
start = time.process_time()
packer = isal_zlib.compressobj(2)
size = 0
for top in range(0, len(picture), 400):
    size += len(packer.compress(np.ascontiguousarray(picture[top : top + 400]).copy().data))
size += len(packer.flush())
print(time.process_time() - start)
"""

FAIR = """
**Like for like:** every figure is a whole process, from its start to the finished file, in seconds of processor
time (median of three; once where it takes over 10 s) and MB at the peak; the general
renderers draw the SVG that turnchain wrote, to as many px.

**Not like for like:** turnchain starts from the pattern file and plans the stitches, the others start from the
finished drawing. Its indexed PNG holds blends in steps (16 or more from black to white; 99.9 % of the px within 16
levels of 255 of cairo's), the others' is full colour; drawings with many colours ("shaped") are full colour from
turnchain too. It deflates with isal, for speed, where the others pack slower, or smaller. A general renderer can
draw any SVG; turnchain draws its own scenes only, knows that a row may be worked again, and lays rows on whole px.
"""


def main() -> None:
    """Measures and prints."""
    arguments = argparse.ArgumentParser(description=(__doc__ or "").split("\n", 1)[0])
    arguments.add_argument("--runs", type=int, default=3)
    arguments.add_argument("--limit", type=int, default=600, help="s of processor time after which one is ended")
    arguments.add_argument("--only", nargs="+", choices=[*PANELS, *TABLES], help="measure only these")
    arguments.add_argument("-o", "--output", type=Path, help="write the tables here as well")
    asked = arguments.parse_args()
    wanted = asked.only or [*PANELS, *TABLES]
    output = asked.output.open("w") if asked.output else None
    with tempfile.TemporaryDirectory() as folder:
        for line in _report(wanted, Path(folder), Asked(asked.runs, asked.limit)):
            print(line, flush=True)
            if output:
                print(line, file=output, flush=True)


def _report(wanted: list[str], folder: Path, asked: Asked) -> Iterator[str]:
    yield f"# turnchain beside general renderers, {platform.machine()}, Python {platform.python_version()}\n"
    yield from (f"- not measured, since it is not installed: {name}" for name in _missing())
    yield FAIR
    panels = {name: PANELS[name] for name in PANELS if name in wanted}
    if panels:
        yield "| chart | to | ours: s, MB, size | librsvg | resvg | cairosvg | ours : fastest |"
        yield "|---|---|---|---|---|---|---|"
        found = {name: _Measured() for name in panels}
        for name, panel in panels.items():
            yield from _panel(name, panel, folder, asked, found[name])
        yield from _shaped(found)
    if "paper" in wanted:
        yield "\n| medium chart as PNG at 300 dpi | s, MB, size |\n|---|---|"
        yield from _papers(folder, asked)
    if "growth" in wanted:
        yield "\n| dc | plan | SVG | PNG 9933 px wide | PDF, A0 sheets |\n|---|---|---|---|---|"
        for name, panel in GROWING.items():
            yield _growth(name, panel, folder, asked)
    if "start" in wanted:
        yield "\n| to start | s of processor time, MB | s on the clock |\n|---|---|---|"
        yield from _start(folder, asked)


def _missing() -> list[str]:
    missing = [] if shutil.which("rsvg-convert") else ["librsvg (rsvg-convert)"]
    return missing + [name for name in ("resvg_py", "cairosvg") if not importlib.util.find_spec(name)]


def _turnchain(*words: str | Path) -> list[str | Path]:
    return [Path(sys.executable).with_name("turnchain"), *words]


def _chart(pattern: Path, made: Path, width: int, asked: Asked) -> Cost:
    command = _turnchain("chart", pattern, "--piece", "panel", "-o", made, "--width", str(width))
    return cost(command, made, asked)


class _Measured(dict[str, Cost]):
    """What a panel took, by what was made of it."""


def _panel(name: str, panel: Panel, folder: Path, asked: Asked, found: _Measured) -> Iterator[str]:
    pattern = written(panel, folder, name)
    label = f"{name}: {panel.rows} x {panel.clusters}, {panel.dc:,} dc"
    found["plan"] = cost(python(PLAN, pattern), None, asked)
    yield _row(label, "plan", found["plan"], {})
    for width in (panel.narrow, A0_WIDTH):
        drawing, picture = folder / f"{name}-{width}.svg", folder / f"{name}-{width}.png"
        found[f"SVG {width}"] = ours = _chart(pattern, drawing, width, asked)
        yield _row(label, f"SVG, {width} px wide", ours, {})
        if ours.failed:
            continue
        others = _renderers(drawing, folder, asked)
        found[f"PNG {width}"] = _chart(pattern, picture, width, asked)
        yield _row(label, f"PNG, {width} px wide", found[f"PNG {width}"], others)
    yield from _sheets(name, label, pattern, folder, asked, found)
    if (folder / f"{name}-{A0_WIDTH}.png").exists():
        yield _floor(label, folder / f"{name}-{A0_WIDTH}.png")


def _sheets(
    name: str, label: str, pattern: Path, folder: Path, asked: Asked, found: _Measured
) -> Iterator[str]:
    """One A0 sheet as PNG and PDF, and a poster, beside cairosvg's one page."""
    theirs, drawing = folder / "theirs.pdf", folder / f"{name}-{A0_WIDTH}.svg"
    cairo = {}
    if importlib.util.find_spec("cairosvg") and drawing.exists():
        cairo = {"cairosvg": cost(python(CAIRO_PDF, drawing, theirs), theirs, asked)}
    sheet = ("print", pattern, "--piece", "panel", "--paper")
    for to, made, words in (
        ("PNG, A0 at 300 dpi", folder / f"{name}-a0.png", (*sheet, "A0")),
        ("PDF, A0", folder / f"{name}-a0.pdf", (*sheet, "A0")),
        ("PDF, A4 poster", folder / f"{name}-poster.pdf", (*sheet, "A4", "--poster")),
    ):
        found[to] = cost(_turnchain(*words, "-o", made), made, asked)
        yield _row(label, to, found[to], cairo if made.suffix == ".pdf" else {})


def _shaped(found: dict[str, _Measured]) -> Iterator[str]:
    """What shaping costs: the shaped panel beside the large one, which has as many rows and as wide a picture."""
    if not {"shaped", "large"} <= found.keys():
        return
    shaped, plain = found["shaped"], found["large"]
    for to in [to for to in shaped if to in plain and not shaped[to].failed]:
        longer, more = shaped[to].cpu / plain[to].cpu, shaped[to].memory / plain[to].memory
        yield f"| shaped beside large | {to} | {longer:.1f} times the time, {more:.1f} times the MB | | | | |"


def _papers(folder: Path, asked: Asked) -> Iterator[str]:
    """One chart on larger and larger sheets: time goes with the px, memory stays."""
    pattern = written(PANELS["medium"], folder, "paper")
    for paper in ("A4", "A3", "A2", "A1", "A0"):
        made = folder / f"paper-{paper}.png"
        ours = cost(_turnchain("print", pattern, "--piece", "panel", "--paper", paper, "-o", made), made, asked)
        yield f"| {paper} | {_shown(ours)} |"


def _renderers(drawing: Path, folder: Path, asked: Asked) -> dict[str, Cost]:
    """What the general renderers take to draw ``drawing``."""
    made = folder / "theirs.png"
    commands: dict[str, list[str | Path]] = {}
    if shutil.which("rsvg-convert"):
        commands["librsvg"] = ["rsvg-convert", "--unlimited", drawing, "-o", made]
    if importlib.util.find_spec("resvg_py"):
        commands["resvg"] = python(RESVG_PNG, drawing, made)
    if importlib.util.find_spec("cairosvg"):
        commands["cairosvg"] = python(CAIRO_PNG, drawing, made)
    return {name: cost(command, made, asked) for name, command in commands.items()}


def _row(label: str, to: str, ours: Cost, others: dict[str, Cost]) -> str:
    shown = [_shown(others[name]) if name in others else "" for name in ("librsvg", "resvg", "cairosvg")]
    times = [each.cpu for each in others.values() if not each.failed]
    ratio = f"1 : {min(times) / ours.cpu:.1f}" if times and not ours.failed else ""
    sizes = [each.size for each in others.values() if not each.failed and to.startswith("PDF")]
    if sizes and not ours.failed:
        ratio += f", size 1 : {min(sizes) / ours.size:.0f}"
    return f"| {label} | {to} | {_shown(ours)} | {' | '.join(shown)} | {ratio} |"


def _shown(measured: Cost) -> str:
    if measured.failed:
        return f"{measured.failed} ({measured.cpu:.1f} s, {measured.memory:.0f} MB)"
    size = f", {measured.size / 1000:,.0f} kB" if measured.size else ""
    return f"{measured.cpu:.2f}, {measured.memory:.0f}{size}"


def _floor(label: str, picture: Path) -> str:
    """The limit: copying and deflating the px of ``picture``, and nothing else."""
    run = subprocess.run([sys.executable, "-c", FLOOR, str(picture)], capture_output=True, text=True, check=False)
    seconds = f"{float(run.stdout):.2f}" if run.returncode == 0 else run.stderr.strip().splitlines()[-1]
    return f"| {label} | the limit: copying and deflating those px | {seconds} | | | | |"


def _growth(name: str, panel: Panel, folder: Path, asked: Asked) -> str:
    pattern = written(panel, folder, name)
    drawing, picture, sheets = (folder / f"growth.{ending}" for ending in ("svg", "png", "pdf"))
    plan = cost(python(PLAN, pattern), None, asked)
    charts = [_chart(pattern, made, A0_WIDTH, asked) for made in (drawing, picture)]
    paper = _turnchain("print", pattern, "--piece", "panel", "--paper", "A0", "--poster", "-o", sheets)
    costs = [plan, *charts, cost(paper, sheets, asked)]
    return f"| {name}: {panel.dc:,} | {' | '.join(map(_shown, costs))} |"


def _start(folder: Path, asked: Asked) -> Iterator[str]:
    case = CASES / "heron_top.toml"
    commands = {
        "python -c pass": python("pass"),
        "turnchain --help": _turnchain("--help"),
        f"turnchain check, {case.name}": _turnchain("check", case),
        f"turnchain make, {case.name}": _turnchain("make", case, "-o", folder / "made"),
    }
    for name, command in commands.items():
        measured = cost(command, None, asked)
        yield f"| {name} | {_shown(measured)} | {measured.wall:.2f} |"


if __name__ == "__main__":
    main()
