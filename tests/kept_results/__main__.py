"""Compares, keeps or shows; the exit code is 1 where something is other than kept and is not to be written."""

from __future__ import annotations

import argparse
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

from . import __doc__ as about
from .patterns import patterns
from .results import changed, digests, keep, kept, parts


def main() -> int:
    """Runs what is asked for."""
    asked = argparse.ArgumentParser(prog="python -m tests.kept_results", description=(about or "").partition("\n")[0])
    asked.add_argument("--write", action="store_true", help="keep the results as they are now")
    asked.add_argument("--show", nargs=2, metavar=("NAME", "FOLDER"), help="write the parts of one file into a folder")
    wanted = asked.parse_args()
    if wanted.show:
        _show(wanted.show[0], Path(wanted.show[1]))
        return 0
    names, before = list(patterns()), kept()
    with ProcessPoolExecutor() as pool:
        found = dict(zip(names, pool.map(_digests, names, chunksize=4), strict=True))
    told = [words for name in {**before, **found} for words in changed(name, found.get(name, {}), before.get(name, {}))]
    print("\n".join(told or ["nothing changed"]))
    for words, number in sorted(Counter(words.partition(": ")[2] for words in told).items()):
        print(f"{number} files: {words}")
    if wanted.write:
        keep(found)
    return int(bool(told) and not wanted.write)


def _digests(name: str) -> dict[str, str]:
    return digests(parts(name))


def _show(name: str, folder: Path) -> None:
    folder.mkdir(parents=True, exist_ok=True)
    for part, made in parts(name).items():
        (folder / f"{part}.txt").write_text(made, "utf-8")


if __name__ == "__main__":
    sys.exit(main())
