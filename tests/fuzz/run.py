"""Coverage-guided fuzzing of the readers by atheris (``pip install -e '.[nightly]'``). From the top of the repository::

    python -m tests.fuzz.run --seconds 600                every target for ten minutes, one after the other
    python -m tests.fuzz.run --target rows --seconds 60 --seed 7 --corpus /tmp/corpus

In: how long, and where a corpus should be kept (a folder of that run alone where nothing is said). Out: a line for each
target with how much was tried, and for every kind of failure, hang or hunger the file that brings it about again; exit
code 1 then. A finding is mended, its file goes to ``found/<target>`` and a test is named after it.
"""

from __future__ import annotations

import argparse
import re
import subprocess
import sys
import tempfile
from pathlib import Path

TESTS = Path(__file__).parents[1]
sys.path.insert(0, str(TESTS))

NAMES = ("pattern", "rows", "chart", "symbol")
LONGEST = 60_000  # bytes
SLOWEST = 30  # seconds for one input, on a machine with other work to do
MOST_MEMORY = 2048  # MB


def main() -> int:
    """Fuzzes what is asked for; the exit code."""
    asked = argparse.ArgumentParser(prog="python -m tests.fuzz.run", description="Fuzz the readers.")
    asked.add_argument("--target", choices=NAMES, action="append")
    asked.add_argument("--seconds", type=int, default=600)
    asked.add_argument("--seed", type=int, default=1)
    asked.add_argument("--corpus", type=Path)
    wanted = asked.parse_args()
    corpus = wanted.corpus or Path(tempfile.mkdtemp(prefix="turnchain-fuzz-"))
    failed = [fuzzed(name, wanted.seconds, wanted.seed, corpus) for name in wanted.target or NAMES]
    return int(any(failed))


def fuzzed(name: str, seconds: int, seed: int, corpus: Path) -> bool:
    """Whether the reader ``name`` failed within so many seconds."""
    folder, failures, words = corpus / name, corpus / f"{name}-failures", corpus / f"{name}.words"
    for place in (folder, failures):
        place.mkdir(parents=True, exist_ok=True)
    seed_from(name, folder, words)
    run = started(name, [folder], failures, words, max_total_time=seconds, seed=seed)
    made = sorted(failures.iterdir())
    tried, covered = (re.findall(rf"{word}\s*(\d+)", run.stderr) for word in ("number_of_executed_units:", "cov:"))
    print(f"{name}: {(tried or '?')[-1]} inputs tried, {(covered or '?')[-1]} edges covered", flush=True)
    if run.returncode == 0 and not made:
        return False
    for file in made:
        told = file.with_name(f"{file.name}.txt")
        if file.suffix != ".txt":
            print(f"{name}: FAILED, see {file}\n{told.read_text('utf-8') if told.exists() else ''}", flush=True)
    if run.returncode:
        print(f"{name}: ended with {run.returncode}\n{run.stderr[-3000:]}", flush=True)
    return True


def seed_from(name: str, folder: Path, words: Path) -> None:
    """Puts what the target begins from into its ``folder``, and its words into the dictionary."""
    from fuzz.targets import TARGETS, found

    for title, data in TARGETS[name].seeds().items():
        (folder / f"seed-{title}").write_bytes(data)
    for file in found(name):
        (folder / f"found-{file.name}").write_bytes(file.read_bytes())
    words.write_text(dictionary(TARGETS[name].vocabulary()), "ascii")


def started(
    name: str, places: list[Path], failures: Path, words: Path, **more: int
) -> subprocess.CompletedProcess[str]:
    """The target fuzzed in a process of its own."""
    options = {
        "max_len": LONGEST,
        "timeout": SLOWEST,
        "rss_limit_mb": MOST_MEMORY,
        "dict": words,
        "artifact_prefix": f"{failures}/",
        "print_final_stats": 1,
        **more,
    }
    asked = [*(f"-{key}={value}" for key, value in options.items()), *map(str, places)]
    command = [sys.executable, "-m", "tests.fuzz.one", name, str(failures), *asked]
    return subprocess.run(command, capture_output=True, text=True, errors="replace", cwd=TESTS.parent, check=False)


def dictionary(words: set[str]) -> str:
    """The words of a target as libFuzzer's dictionary."""
    sound = sorted(word for word in words if word and word.isascii() and len(word) < 60)
    return "".join(f'"{_hexed(word)}"\n' for word in sound)


def _hexed(word: str) -> str:
    return "".join(letter if letter.isalnum() or letter == " " else f"\\x{ord(letter):02x}" for letter in word)


if __name__ == "__main__":
    sys.exit(main())
