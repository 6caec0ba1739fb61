r"""The nightly set: tens of thousands of random patterns proved and of files made end to end, as many mutants looked
for, the random tests of pytest run from fresh seeds, and every reader fuzzed. The program's own code is changed by
``program_mutants``.

In: how many, and from which seed. Out: a line for everything that does not hold, with the seed that makes it again, and
a count of each kind; exit code 1 where anything failed. From the top of the repository, all of it or parts::

    python -m tests.nightly                 10 000 planned patterns, 20 000 walks, the figures of 2 000 files
                                            and 1 000 garments, 10 000 files, 20 000 slips,
                                            20 000 mutants, every reader fuzzed for half an
                                            hour; 1 100 patterns in several sizes, 6 000 of
                                            every fabric, 3 000 of rows of several kinds;
                                            the random tests of pytest from 5 fresh seeds
    python -m tests.nightly --patterns 500 --walks 500 --fabrics 300 --figures 100 --garments 100 \
        --files 100 --slips 500 --mutants 500 --fuzz 60
    python -m tests.nightly --seed 7 --jobs 2

Hundreds of the same patterns are proved in ``test_proof``, of the same files are made in ``test_end_to_end``; a
*file* is written by ``random_files``, a *slip* is a file with one thing wrong. A *planned* pattern is one that a maker
could write down (panels, necks of every shape, outlines, edges apart, steps, pieces begun), planned by the planner. A
*walk* goes round the planner: its edges wander by every move there is, natural or forced or by steps, whatever a
planner would choose, so that words and charts are proved for moves that plans seldom hold.
"""

from __future__ import annotations

import argparse
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from concurrent.futures import ProcessPoolExecutor
from fractions import Fraction
from functools import partial
from importlib.util import find_spec
from pathlib import Path
from random import Random

from turnchain.records import replace

sys.path.insert(0, str(Path(__file__).parent))

from mixed_rows import mixed_at
from random_files import File, file_at
from random_garments import form_at, garment_at, sideways_garment_at
from turnchain.errors import MakerError, PatternError
from turnchain.fabric import lattice, stitches
from turnchain.fabric.gauge import gauge_of
from turnchain.fabric.library import recipe_of
from turnchain.fabric.plan import Edge, Fit, PiecePlan, Plan, Row
from turnchain.pattern import Fabric, Neck, Pattern, Piece, Progress, Stripes, Swatch, Yarn
from turnchain.planning.planner import plan_pattern
from turnchain.proof.proving import prove

YARNS = (Yarn("Reed", "#b9b36a"), Yarn("Silt", "#e8dcc4"), Yarn("Kelp, wet (2)", "#2f6b5e"), Yarn("dc", "#6f8aa3"))
SHAPES = ("slant", "round", "vee", "square")

# ------------------------------------------------------------------------------------------------------ parts


def _length(rng: Random, least: float, most: float) -> Fraction:
    """A length in cm, in eighths."""
    return Fraction(rng.randint(int(least * 8), int(most * 8)), 8)


def _swatch(rng: Random) -> Swatch:
    """A pitch of 1 to 3 cm, 1.2 to 3 rows wide."""
    pitch, ratio = Fraction(rng.randint(8, 24), 8), Fraction(rng.randint(12, 30), 10)
    return Swatch(Fraction(1), pitch, ratio, pitch)


def _stripes(rng: Random) -> Stripes | None:
    if rng.random() < 0.2:
        return None
    order = tuple(rng.choice(YARNS).name for _ in range(rng.randint(1, 5)))
    return Stripes(order, tuple(rng.randint(1, 4) for _ in order))


def _fabric(rng: Random) -> Fabric:
    return Fabric(rng.choice([2, 3, 3, 4, 5]), rng.randint(0, 1))


def _pattern(rng: Random, swatch: Swatch, *pieces: Piece, **more: object) -> Pattern:
    stripes = _stripes(rng)
    yarns = YARNS if stripes else ()
    return Pattern("Random", (swatch,), pieces, _fabric(rng), yarns, stripes, **more)  # type: ignore[arg-type]


# --------------------------------------------------------------------------------------------- planned patterns


def _panel(rng: Random, pitch: Fraction, row: Fraction, rows: int, clusters: int) -> Piece:
    """A panel, half of them with a neck of some shape."""
    worked = rng.choice(("sideways", "upwards"))
    high, across = row * _length(rng, 1, rows), pitch * _length(rng, 1, clusters)
    width, length = (high, across) if worked == "sideways" else (across, high)
    neck = None
    if rng.random() < 0.6:
        shoulder = width * Fraction(rng.randint(4, 18), 40)
        neck = Neck(shoulder, length * Fraction(rng.randint(1, 30), 40), rng.choice(SHAPES))  # type: ignore[arg-type]
    edge = rng.choice(("left", "right")) if worked == "sideways" else "right"
    return Piece(
        "panel", worked, rng.randint(1, 3), width, length, neck, row_plan=_row_plan(rng), neck_edge=edge  # type: ignore[arg-type]
    )


def _row_plan(rng: Random) -> str:
    return rng.choice(("auto", "auto", "alike", "alternate"))


def _curve(rng: Random, high: Fraction, unit: Fraction, widest: int) -> tuple[tuple[Fraction, Fraction], ...]:
    """Heights and widths; two points may share a height: a step."""
    shares = sorted(rng.randint(1, 9) for _ in range(rng.randint(0, 3)))
    heights = [Fraction(0), *(high * share / 10 for share in shares), high]
    kept = [height for nth, height in enumerate(heights) if heights[max(0, nth - 2) : nth].count(height) < 2]
    return tuple((height, unit * _length(rng, 1, widest)) for height in kept)


def _outline(rng: Random, pitch: Fraction, row: Fraction, rows: int, clusters: int) -> Piece:
    high = row * _length(rng, 2, rows)
    if rng.random() < 0.6:
        curve = _curve(rng, high, pitch, clusters)
        align = rng.choice(("centre", "left", "right"))
        return Piece("outline", outline=curve, align=align, row_plan=_row_plan(rng))  # type: ignore[arg-type]
    left, right = (_curve(rng, high, pitch, max(1, clusters // 2)) for _ in range(2))
    return Piece("apart", left_outline=left, right_outline=right, row_plan=_row_plan(rng))  # type: ignore[arg-type]


def planned_at(seed: int, rows: int = 22, clusters: int = 10) -> Plan | None:
    """The planned pattern of a seed; None where that pattern cannot be planned, which the planner has said."""
    rng = Random(seed)
    swatch = _swatch(rng)
    gauge = gauge_of((swatch,))
    make = rng.choice((_panel, _outline))
    pattern = _pattern(rng, swatch, make(rng, gauge.pitch, gauge.row, rows, clusters))
    try:
        plan = plan_pattern(pattern)
        return plan_pattern(_begun(rng, pattern, plan)) if rng.random() < 0.3 else plan
    except PatternError:
        return None


def _begun(rng: Random, pattern: Pattern, plan: Plan) -> Pattern:
    """The pattern with some rows worked, a little looser or tighter than its swatch."""
    (piece,) = plan.pieces
    worked = rng.randint(1, len(piece.rows))
    off = Fraction(rng.randint(85, 115), 100)
    last = piece.rows[worked - 1]
    wide = (last.right.at - last.left.at) * piece.gauge.half * Fraction(rng.randint(85, 115), 100)
    progress = Progress(piece.name, worked, last.number * piece.gauge.row * off, wide if rng.random() < 0.5 else None)
    return replace(pattern, progress=(progress,))


# ------------------------------------------------------------------------------------------------------- walks

_STEPS = (0, 0, 0, 1, 1, -1, -1, 2, 3, 4, 5, 6, -2, -4, -6)


def walk_at(seed: int, rows: int = 12, clusters: int = 8) -> Plan:
    """A piece whose edges wander by every move there is."""
    rng = Random(seed)
    swatch = _swatch(rng)
    piece = Piece("walk", width=Fraction(10), length=Fraction(10))
    pattern = replace(_pattern(rng, swatch, piece), terms=rng.choice(("US", "UK")))
    gauge, recipe, phase = gauge_of(pattern.swatches), recipe_of(pattern.fabric), rng.randint(0, 1)
    made = list(_walk(rng, pattern, phase, rng.randint(1, rows), clusters))
    first = made[0]
    kinds = (first.edge(first.starts).kind, first.edge(first.ends).kind)
    fit = (
        Fit("width", Fraction(0), (first.right.at - first.left.at) * gauge.half),
        Fit("length", Fraction(0), len(made) * gauge.row),
    )
    planned = PiecePlan(
        name="walk", count=1, worked="upwards", recipe=recipe, gauge=gauge, phase=phase, row_plan="alike",
        foundation_chain=stitches.foundation(recipe, first.clusters, *kinds), rows=tuple(made), fit=fit,
        farthest=None, alternatives=(), warnings=(), top=None, free_outline=False, has_neck=False,
    )  # fmt: skip
    return Plan(pattern, gauge, (planned,), ())


def _walk(rng: Random, pattern: Pattern, phase: int, rows: int, clusters: int) -> Iterator[Row]:
    at = (0, rng.randint(3, 2 * clusters))
    while lattice.clusters(*at, 1 + phase) < 1:
        at = (0, rng.randint(3, 2 * clusters))
    below = _row(pattern, phase, 1, at, None)
    yield below
    for number in range(2, rows + 1):
        found = next((row for _ in range(20) if (row := _next(rng, pattern, phase, number, below))), None)
        if found is None:
            return
        below = found
        yield below


def _next(rng: Random, pattern: Pattern, phase: int, number: int, below: Row) -> Row | None:
    """A row by two random moves; None where they cannot be made together."""
    left, right = rng.choice(_STEPS), rng.choice(_STEPS)
    if lattice.starting_side(number) == "left":
        right = max(right, -1)  # a row cannot end with a step out
    else:
        left = max(left, -1)
    at = (below.left.at + left, below.right.at - right)
    inside = [below.left.at < place < below.right.at for place in at]
    fits = all(one or step < 2 for one, step in zip(inside, (left, right), strict=True))
    if not fits or at[1] - at[0] > 40 or lattice.clusters(*at, number + phase) < 1:
        return None
    return _row(pattern, phase, number, at, below)


def _row(pattern: Pattern, phase: int, number: int, at: tuple[int, int], below: Row | None) -> Row:
    recipe = recipe_of(pattern.fabric)
    edges = {}
    work = {}
    for side, place, inwards in (("left", at[0], 1), ("right", at[1], -1)):
        under = below.edge(side) if below else None  # type: ignore[arg-type]
        step = (place - under.at) * inwards if under else 0
        move = recipe.table.named(under.kind, step) if under else "straight"
        size = abs(step) if move in ("step_in", "step_out") else 0
        edges[side] = Edge(place, recipe.kind(place, number + phase), move, size)
        work[side] = stitches.EdgeWork(edges[side].kind, move, size, under.kind if under else None)
    starts = lattice.starting_side(number)
    ends = "left" if starts == "right" else "right"
    clusters = lattice.clusters(*at, number + phase)
    counts = stitches.count(recipe, clusters, work[starts], work[ends])
    place = ("body", number, number - 1, None if below is None else below.index, False)
    colour = pattern.yarns[number // 3 % len(pattern.yarns)].name if pattern.yarns else None
    return Row(*place, edges["left"], edges["right"], starts, clusters, colour, counts, (number + phase) % 2)


# ---------------------------------------------------------------------------------------------------- proving


def unproved(make: Callable[[int], Plan | None], seed: int, measured: bool = True) -> tuple[int, list[str]]:
    """How many rows were proved of the pattern of a seed, and what disagrees. A walk, which no shape was asked of, has
    no measures to be ``measured``."""
    plan = make(seed)
    if plan is None:
        return 0, []
    try:
        proof = prove(plan, measured)
    except Exception as error:  # whatever it is, the seed must be told
        return 0, [f"seed {seed}: {type(error).__name__}: {error}"]
    return sum(one.rows for one in proof.worked), [f"seed {seed}: {reason}" for reason in proof.reasons]


def fabric_proved(seed: int) -> tuple[int, list[str]]:
    """A pattern of any fabric, by its seed in turn planned, a walk, and a whole file."""
    from any_fabric import file_of_any, planned_of_any, planned_of_bare, walk_of_any, walk_of_bare
    from end_to_end import planned

    if seed % 3 == 1:
        return unproved(walk_of_any if seed % 2 else walk_of_bare, seed, measured=False)
    if seed % 6 == 0:
        return unproved(planned_of_bare, seed)
    return unproved(planned_of_any if seed % 3 == 0 else lambda one: planned(file_of_any(one)), seed)


def figures_of_file(seed: int) -> tuple[int, list[str]]:
    """How many printed figures of a random file were held against the cloth, and which are not so. Files have pieces in
    both directions, necks of every shape, outlines with steps, pieces begun, stripes from a stash, seams."""
    return _figures_of(file_at(seed))


def figures_of_garment(seed: int) -> tuple[int, list[str]]:
    """The same of a random garment, with armholes, caps, open fronts, edgings, wishes at its seams and fabrics of every
    kind."""
    return _figures_of(garment_at(seed))


def figures_of_form(seed: int) -> tuple[int, list[str]]:
    """The same of what is no top: skirts, cushions, bags, hats, cowls and shawls with edgings."""
    return _figures_of(form_at(seed))


def figures_of_sideways(seed: int) -> tuple[int, list[str]]:
    """The same of a garment worked sideways."""
    return _figures_of(sideways_garment_at(seed))


def _figures_of(file: File) -> tuple[int, list[str]]:
    from end_to_end import planned

    try:
        plan = planned(file)
        if plan is None:
            return 0, []
        proof = prove(plan, offers=True)
    except MakerError:  # an edging that finds no room says so in words
        return 0, []
    except Exception as error:  # whatever it is, the seed must be told
        return 0, [f"seed {file.seed}: {type(error).__name__}: {error}"]
    return proof.figures, [f"seed {file.seed}: {reason}" for reason in proof.reasons]


#: The parts of the set with how many there are of each; fuzzing by seconds for each reader, the robot at the
#: design page by seconds.
PARTS = {
    "patterns": 10_000, "mixed": 3_000, "walks": 20_000, "fabrics": 6_000, "figures": 2_000, "garments": 1_000,
    "sideways": 500, "forms": 1_000, "files": 10_000, "slips": 20_000, "mutants": 20_000, "fuzz": 1800, "robot": 600,
    "fresh": 5, "sizes": 1_100,
}  # fmt: skip


def main() -> int:
    """Runs the nightly set; the exit code."""
    asked = argparse.ArgumentParser(prog="python -m tests.nightly", description="Prove random patterns.")
    for part, number in PARTS.items():
        asked.add_argument(f"--{part}", type=int, default=number)
    asked.add_argument("--seed", type=int, default=1_000_000)
    asked.add_argument("--jobs", type=int, default=2)
    wanted = asked.parse_args()
    with ProcessPoolExecutor(wanted.jobs) as pool:
        failed = _each(pool, "planned", partial(unproved, planned_at), wanted.seed, wanted.patterns, _PROVED)
        failed += _each(pool, "mixed rows", partial(unproved, mixed_at), wanted.seed, wanted.mixed, _PROVED)
        failed += _each(pool, "walks", partial(unproved, walk_at, measured=False), wanted.seed, wanted.walks, _PROVED)
        failed += _each(pool, "fabrics", fabric_proved, wanted.seed, wanted.fabrics, _PROVED)
        failed += _each(pool, "figures", figures_of_file, wanted.seed, wanted.figures, _MEASURED)
        failed += _each(pool, "garments", figures_of_garment, wanted.seed, wanted.garments, _MEASURED)
        failed += _each(pool, "sideways", figures_of_sideways, wanted.seed, wanted.sideways, _MEASURED)
        failed += _each(pool, "forms", figures_of_form, wanted.seed, wanted.forms, _MEASURED)
        failed += _each(pool, "sizes", _merged, wanted.seed, wanted.sizes, "{} of {} told as one text, {} sizes chosen")
        failed += _each(pool, "files", _checked, wanted.seed, wanted.files, "{} of {} made, {} properties held")
        failed += _each(pool, "slips", _slip, wanted.seed, wanted.slips, "{2} of {1} refused in words, the others made")
        failed += _mutants(pool, wanted.seed, wanted.mutants)
    failed += sum(map(_fresh, range(wanted.seed, wanted.seed + wanted.fresh)))
    failed += wanted.fuzz and _fuzzed(wanted.seed, wanted.fuzz)
    failed += wanted.robot and _robot(wanted.seed, wanted.robot)
    return 1 if failed else 0


_PROVED = "{0} patterns, {2} rows proved by four paths"
_MEASURED = "{0} of {1} files made, {2} printed figures held against the worked cloth"


def _each(
    pool: ProcessPoolExecutor, name: str, one: Callable[[int], tuple[int, list[str]]], seed: int, number: int, told: str
) -> int:
    """Does ``one`` for so many seeds and tells what disagrees; how many failed."""
    held = made = failed = 0
    for good, reasons in pool.map(one, range(seed, seed + number), chunksize=20):
        held, made, failed = held + good, made + (good > 0), failed + bool(reasons)
        for reason in reasons[:3]:
            print(f"{name}, {reason}", flush=True)
    if number:
        print(f"{name}: {told.format(made, number, held)}; {failed} failed", flush=True)
    return failed


def _merged(seed: int) -> tuple[int, list[str]]:
    """Tells a random pattern in several sizes as one text and chooses each again, in every language."""
    from test_sizes import choosing_is_the_inverse, sized_at
    from turnchain.wording.tables import LANGUAGES

    made: tuple[Plan, ...] = ()
    reasons: list[str] = []
    try:
        made = sized_at(seed)
        for language in LANGUAGES if made else ():
            choosing_is_the_inverse(made, language)
    except Exception as error:  # whatever it is, the seed must be told
        reasons = [f"seed {seed}: {type(error).__name__}: {error}"]
    return len(made), reasons


def _checked(seed: int) -> tuple[int, list[str]]:
    from end_to_end import checked

    return checked(seed)


def _slip(seed: int) -> tuple[int, list[str]]:
    from end_to_end import slip

    return slip(seed)


def _fresh(seed: int) -> int:
    """The random tests of pytest, which draw the same examples otherwise, from a fresh seed; 1 where one fails."""
    words = ["-m", "hypothesis", "--hypothesis-profile=fresh", f"--hypothesis-seed={seed}"]
    tests = Path(__file__).parent
    return int(subprocess.run([sys.executable, "-m", "pytest", *words, str(tests)], cwd=tests.parent).returncode != 0)


def _fuzzed(seed: int, seconds: int) -> int:
    """Fuzzes every reader, one after the other; how many failed. Nothing where atheris is not installed."""
    if find_spec("atheris") is None:
        print("nothing fuzzed: atheris is not installed (pip install -e '.[nightly]')", flush=True)
        return 0
    from fuzz import run

    corpus = Path(tempfile.mkdtemp(prefix="turnchain-fuzz-"))
    return sum(run.fuzzed(name, seconds, seed, corpus) for name in run.NAMES)


def _robot(seed: int, seconds: int) -> int:
    """Lets a robot work at the design page for so long; 1 where it found a fault. Nothing where there is no browser."""
    if shutil.which("chromium") is None:
        print("no robot: chromium is not on this machine", flush=True)
        return 0
    command = [sys.executable, str(Path(__file__).with_name("design_robot.py"))]
    return subprocess.run([*command, "--seed", str(seed), "--seconds", str(seconds)], check=False).returncode


def _mutants(pool: ProcessPoolExecutor, seed: int, number: int) -> int:
    """Looks for mutants of words, three in four, and charts; 1 where one escapes."""
    from test_mutants import Tally, charts_tally, words_tally

    missed = 0
    for name, tally_of, share in (("words", words_tally, 3), ("charts", charts_tally, 1)):
        whole = Tally(asked=True)
        firsts = range(seed, seed + max(1, number * share // 4 // 500) * 20 if number else seed, 20)
        for tally in pool.map(partial(tally_of, number=20, each=25, asked=True), firsts):
            whole.add(tally)
        print(f"mutants of {name}: {whole}", flush=True)
        missed |= bool(whole.escaped)
    return int(missed)


if __name__ == "__main__":
    sys.exit(main())
