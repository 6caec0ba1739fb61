"""How fast charts are made, beside every general renderer that can do the job; keeps the figures and tells them.

    python tests/benchmarks/run.py [--runs N] [--limit S] [--only small starts growth] [--quick] [--keep]

Needs turnchain to be installed; librsvg's rsvg-convert and the packages of the extra "bench" are measured where they
are to be had. With ``--keep`` the figures go into kept.json beside this file and from there into README.md. Not part
of the tests, and nothing here fails for being slow: compare ratios of one run, since seconds are those of one machine
on one day.
"""

from __future__ import annotations

import argparse
import compileall
import importlib.metadata
import importlib.util
import json
import os
import platform
import re
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterable
from pathlib import Path
from typing import Any

import section
from jobs import Job, growth, missing, pictures, starts
from measuring import in_turn
from patterns import PANELS

PACKAGES = ("numpy", "isal", "cairosvg", "cairocffi", "resvg_py", "skia-python")


def main() -> None:
    """Measures, tells, and keeps where asked."""
    arguments = argparse.ArgumentParser(description=(__doc__ or "").split("\n", 1)[0])
    arguments.add_argument("--runs", type=int, help="how often each is measured (5; 2 of a --quick run)")
    arguments.add_argument("--limit", type=int, help="s of processor time for one at most (600; 20 if --quick)")
    arguments.add_argument("--only", nargs="+", choices=[*PANELS, "starts", "growth"], help="measure only these")
    arguments.add_argument("--quick", action="store_true", help="no picture as wide as an A0 sheet, fewer runs")
    arguments.add_argument("--keep", action="store_true", help="keep the figures, and write README's section anew")
    asked = arguments.parse_args()
    asked.runs = asked.runs or (2 if asked.quick else 5)
    asked.limit = asked.limit or (20 if asked.quick else 600)
    wanted = asked.only or [*PANELS, "starts", "growth"]
    _compiled()
    before = os.getloadavg()[0]
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        kept: dict[str, Any] = {
            "machine": f"{platform.machine()}, {os.cpu_count()} cores",
            "versions": _versions(),
            "missing": missing(),
            "pictures": _measured(pictures(folder, [one for one in PANELS if one in wanted], asked.quick), asked),
            "starts": _measured(starts(folder, asked.quick), asked) if "starts" in wanted else [],
            "growth": _grown(folder, asked) if "growth" in wanted else [],
        }
    kept["load"] = [round(before, 1), round(os.getloadavg()[0], 1)]
    print(section.text(kept))
    if asked.keep:
        section.KEPT.write_text(json.dumps(kept, indent=1) + "\n", "utf-8")
        readme = section.README.read_text("utf-8")
        section.README.write_text(section.put(readme, section.text(kept)), "utf-8")


def _compiled() -> None:
    """Has turnchain compiled, as an installer does it, so that the first run takes no longer than the others."""
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
    found = importlib.util.find_spec("turnchain")
    assert found is not None
    compileall.compile_dir(found.submodule_search_locations[0], quiet=2)  # type: ignore[index]  # a package has them


def _measured(jobs: Iterable[Job], asked: argparse.Namespace) -> list[dict[str, Any]]:
    found = []
    for job in jobs:
        print(f"{job.chart} {job.to} ...", file=sys.stderr, flush=True)
        costs = in_turn(job.commands, asked.runs, asked.limit)
        told = {name: cost.data() for name, cost in costs.items()}
        found.append({"chart": job.chart, "to": job.to, "count": job.count, "costs": told})
    return found


def _grown(folder: Path, asked: argparse.Namespace) -> list[dict[str, Any]]:
    series: dict[tuple[str, str], list[dict[str, Any]]] = {}
    for what, words, size, command, made in growth(folder):
        print(f"{what}: {size} ...", file=sys.stderr, flush=True)
        cost = in_turn({"": (command, made)}, asked.runs, asked.limit)[""]
        series.setdefault((what, words), []).append({"size": size, "cost": cost.data()})
    return [{"what": what, "command": words, "points": points} for (what, words), points in series.items()]


def _versions() -> dict[str, str]:
    ours = f"{importlib.metadata.version('turnchain')} ({_loops()})"
    found = {"Python": platform.python_version(), "turnchain": ours}
    for name in PACKAGES:
        try:
            found[name] = importlib.metadata.version(name)
        except importlib.metadata.PackageNotFoundError:
            continue
    if shutil.which("rsvg-convert"):
        said = subprocess.run(["rsvg-convert", "--version"], capture_output=True, text=True, check=True).stdout
        found["librsvg"] = (re.search(r"[0-9][0-9.]+", said) or [""])[0]
    return found


def _loops() -> str:
    compiled = importlib.util.find_spec("turnchain.raster._loops") is not None
    return "loops in C" if compiled else "loops in numpy"


if __name__ == "__main__":
    main()
