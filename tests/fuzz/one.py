"""One target under atheris, in a process of its own: ``run`` starts it.

In: the name of the target, a folder for failures, and what libFuzzer is told. Out: what libFuzzer says; in that folder
the first input of every kind of failure with its traceback beside it, and on it goes. (Hangs and hunger end the run.)
The package is instrumented as it is imported, so nothing of it may be imported before.
"""

from __future__ import annotations

import sys
import traceback
from pathlib import Path

import atheris

sys.path.insert(0, str(Path(__file__).parents[1]))

with atheris.instrument_imports(include=["turnchain", "tomllib"]):
    from fuzz.targets import TARGETS


def main(name: str, failures: Path) -> None:
    """Runs until the time is over."""
    known: set[str] = set()

    def once(data: bytes) -> None:
        try:
            TARGETS[name].run(data)
        except Exception as error:
            last = traceback.extract_tb(error.__traceback__)[-1]
            kind = f"{type(error).__name__}-{Path(last.filename).stem}-{last.lineno}"
            if kind not in known:
                known.add(kind)
                (failures / kind).write_bytes(data)
                (failures / f"{kind}.txt").write_text(traceback.format_exc(), "utf-8", "backslashreplace")

    atheris.Setup([name, *sys.argv[3:]], once)
    atheris.Fuzz()


if __name__ == "__main__":
    main(sys.argv[1], Path(sys.argv[2]))
