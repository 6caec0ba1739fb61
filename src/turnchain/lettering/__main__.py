"""Writes the tables of ``ready`` anew, after a change of the fonts or of what is to be ready."""

from __future__ import annotations

from pathlib import Path

from turnchain.lettering import ready

if __name__ == "__main__":
    for weight, name in ready.FILES.items():
        (Path(__file__).parents[1] / "fonts" / name).write_text(ready.text(weight), "ascii")
