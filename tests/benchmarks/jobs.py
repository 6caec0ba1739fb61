"""The jobs that are measured, and who can do each: turnchain from the pattern file, the others from the finished SVG.

In: a folder to work in. Out: ``Job``s. A peer that is not installed is left out, and named.
"""

from __future__ import annotations

import importlib.util
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from measuring import Command, python
from patterns import PANELS, Panel, blanket, many_pieces, of_sizes, slanted, with_neck, written, zigzag

HERE = Path(__file__).parent
CASES = HERE.parent / "cases"
A0_WIDTH = 9933  # px at 300 dpi
OURS = "turnchain"
#: Who draws our scene without SVG between: what drawing costs at least by a general library.
FLOORS = ("cairo", "skia")

CAIRO = "import cairosvg, sys; cairosvg.svg2{}(url=sys.argv[1], write_to=sys.argv[2], unsafe=True)"
RESVG = (
    "import resvg_py, sys; data = resvg_py.svg_to_bytes(svg_path=sys.argv[1], skip_system_fonts=True);"
    "open(sys.argv[2], 'wb').write(bytes(data))"
)


@dataclass
class Job:
    """``chart`` and ``to`` say what is made of what, in the words of the table; ``commands``: by who does it, the
    command and the file it writes; ``count``: how many patterns each makes."""

    chart: str
    to: str
    commands: dict[str, tuple[Command, Path | None]] = field(default_factory=dict)
    count: int = 1


def turnchain(*words: str | Path) -> list[str | Path]:
    """The command line of turnchain."""
    return [Path(sys.executable).with_name("turnchain"), *words]


def missing() -> list[str]:
    """The peers that cannot be measured here."""
    absent = [] if shutil.which("rsvg-convert") else ["librsvg (rsvg-convert)"]
    packages = {"resvg_py": "resvg_py", "cairosvg": "cairosvg", "cairocffi": "cairocffi", "skia": "skia-python"}
    return absent + [name for module, name in packages.items() if not importlib.util.find_spec(module)]


def pictures(folder: Path, names: list[str], quick: bool) -> Iterator[Job]:
    """The panels as PNG, narrow and (but for a ``quick`` run) as wide as an A0 sheet, and as an A0 page."""
    for name in names:
        panel = PANELS[name]
        pattern = written(panel, folder, name)
        words = f"{panel.rows} rows x {panel.clusters} clusters{panel.note}"
        for width in (panel.narrow, *(() if quick else (A0_WIDTH,))):
            drawing = _drawing(pattern, folder / f"{name}-{width}.svg", width)
            job = Job(words, f"PNG, {width} px wide")
            made = folder / "ours.png"
            job.commands[OURS] = _whole(pattern, made, width), made
            job.commands |= _png_peers(drawing, folder)
            for library, module in zip(FLOORS, ("cairocffi", "skia"), strict=True):
                if importlib.util.find_spec(module):
                    floor = folder / f"{library}.png"
                    command = [sys.executable, HERE / "floor.py", library, pattern, str(width), floor]
                    job.commands[f"{library}, our scene"] = command, floor
            yield job
        page = Job(words, "PDF, A0")
        made = folder / "ours.pdf"
        page.commands[OURS] = turnchain("print", pattern, "--piece", "panel", "--paper", "A0", "-o", made), made
        page.commands |= _pdf_peers(folder / f"{name}-{panel.narrow}.svg", folder)
        yield page


def _whole(pattern: Path, made: Path, width: int) -> list[str | Path]:
    """The command that draws every cluster of the panel: left to itself, a wide chart shows once what repeats."""
    return turnchain("chart", pattern, "--piece", "panel", "--whole", "-o", made, "--width", str(width))


def _drawing(pattern: Path, made: Path, width: int) -> Path:
    subprocess.run(list(map(str, _whole(pattern, made, width))), check=True, stdout=subprocess.DEVNULL)
    return made


def _png_peers(drawing: Path, folder: Path) -> dict[str, tuple[Command, Path | None]]:
    peers: dict[str, tuple[Command, Path | None]] = {}
    if shutil.which("rsvg-convert"):
        made = folder / "librsvg.png"
        peers["librsvg"] = ["rsvg-convert", "--unlimited", drawing, "-o", made], made
    for name, module, code in (("resvg", "resvg_py", RESVG), ("cairosvg", "cairosvg", CAIRO.format("png"))):
        if importlib.util.find_spec(module):
            made = folder / f"{name}.png"
            peers[name] = python(code, drawing, made), made
    return peers


def _pdf_peers(drawing: Path, folder: Path) -> dict[str, tuple[Command, Path | None]]:
    peers: dict[str, tuple[Command, Path | None]] = {}
    if shutil.which("rsvg-convert"):
        made = folder / "librsvg.pdf"
        peers["librsvg"] = ["rsvg-convert", "--unlimited", "-f", "pdf", drawing, "-o", made], made
    if importlib.util.find_spec("cairosvg"):
        made = folder / "cairosvg.pdf"
        peers["cairosvg"] = python(CAIRO.format("pdf"), drawing, made), made
    return peers


def starts(folder: Path, quick: bool) -> Iterator[Job]:
    """What makers wait for, which nobody else does: each beside bare Python. Many patterns are fewer in a ``quick``
    run."""
    case = CASES / "heron_top.toml"
    made = folder / "made"
    for words, command in {
        "`turnchain --help`": turnchain("--help"),
        "`turnchain check`, a three-piece top": turnchain("check", case),
        "`turnchain make`, the same, into a new folder": _anew(made, turnchain("make", case, "-o", made)),
        "`turnchain make`, the same again, nothing changed": turnchain("make", case, "-o", made),
        "`turnchain make`, the same, one colour changed": _recoloured(folder, case, made),
    }.items():
        yield Job(words, "", {OURS: (command, None), "python": (python("pass"), None)})
    count = 20 if quick else 100
    command = _anew(made, turnchain("make", _slipovers(folder / "slipovers", count), "-o", made))
    words = f"`turnchain make`, {count} slipovers of as many widths, each"
    yield Job(words, "", {OURS: (command, None), "python": (python("pass"), None)}, count)


def _slipovers(folder: Path, count: int) -> Path:
    """A folder of patterns as a designer may have them: a garment by ``turnchain new``, each for another body."""
    folder.mkdir()
    for nth in range(count):
        wearer = ["--garment", "slipover", "--table", "woman", "--size", "M", "--measure", f"bust={80 + nth * 0.5:g}"]
        new = turnchain("new", folder / f"slipover {nth}.toml", *wearer)
        subprocess.run(list(map(str, new)), check=True, stdout=subprocess.DEVNULL)
    return folder


def _anew(folder: Path, command: list[str | Path]) -> list[str | Path]:
    return ["sh", "-c", 'rm -rf "$0" && exec "$@"', folder, *command]


def _recoloured(folder: Path, case: Path, made: Path) -> list[str | Path]:
    """Makes ``case`` where it was made before, after its first colour was changed, and when run again changed back."""
    named, other = folder / case.name, folder / "other.toml"
    named.write_text(case.read_text("utf-8"), "utf-8")
    first = re.search(r'(?m)^colour = "(.*?)"', case.read_text("utf-8"))
    assert first is not None
    other.write_text(case.read_text("utf-8").replace(first[1], "#345678"), "utf-8")
    swap = 'mv "$0" "$0.held" && mv "$1" "$0" && mv "$0.held" "$1" && shift && exec "$@"'
    return ["sh", "-c", swap, named, other, *turnchain("make", named, "-o", made)]


def growth(folder: Path) -> Iterator[tuple[str, str, int, Command, Path | None]]:
    """What is made larger and larger: what of, the command in words, how large, the command, its file."""
    sizes = (10, 50, 200, 800, 2000)
    for rows in sizes:
        yield "rows, 30 clusters each", "chart --whole", rows, *_chart(Panel(rows, 30), folder)
    for clusters in sizes:
        wide = _chart(Panel(30, clusters), folder, max(1600, 12 * clusters))
        yield "clusters, 30 rows of them", "chart --whole", clusters, *wide
    for name, sizes, text in (
        ("rows of a panel, most of them shaped", (50, 200, 800, 1600), slanted),
        ("cm of a body with a round neck", (20, 40, 80, 160), with_neck),
        ("cm of a zigzag outline", (30, 60, 120, 240, 480), zigzag),
        ("yarns from the stash, 120 rows", (3, 6, 12, 24, 40), blanket),
        ("pieces", (1, 5, 20, 50, 100), many_pieces),
        ("sizes of a body with a round neck", (1, 2, 4, 6, 9), of_sizes),
    ):
        for size in sizes:
            file = folder / f"{text.__name__}-{size}.toml"
            file.write_text(text(size))
            yield name, "check", size, turnchain("check", file), None


def _chart(panel: Panel, folder: Path, width: int = 1600) -> tuple[Command, Path]:
    pattern = written(panel, folder, f"growth-{panel.rows}-{panel.clusters}")
    made = pattern.with_suffix(".png")  # a name for each, so that no other's alt text stands beside it
    return _whole(pattern, made, width), made
