"""What README says of speed, made from the figures of the last kept run: ``kept.json`` beside this file.

    python tests/benchmarks/section.py      writes the section into README.md

In: the figures. Out: Markdown. Ratios are of processor times: the peer's to ours, at their medians, and between the
brackets from the least to the largest that the runs allow. Above 1 turnchain is ahead, below 1 behind.
"""

from __future__ import annotations

import json
import math
from collections.abc import Iterator
from pathlib import Path
from typing import Any

HERE = Path(__file__).parent
KEPT = HERE / "kept.json"
README = HERE.parents[1] / "README.md"
START, END = "<!-- speed -->\n", "<!-- end of speed -->"
OURS = "turnchain"
#: Growth is fitted to times that are at least by this share of the smallest above it: less may be chance.
SURE = 0.3

FAIR = """\
Every figure is a whole process, from its start to the finished file: user and system time, in turn with the others.
It is not all like for like. turnchain plans the stitches from the pattern file; librsvg, resvg and cairosvg start from
the SVG that turnchain wrote. It draws its own scenes only, knows that rows and clusters repeat, holds blends in 16
steps or more where 256 colours do, and packs its PNG for speed. "Our scene" is the same chart planned and laid out by
turnchain and then drawn by that library alone, path by path: what drawing costs a general library without SVG between.
Ratios are the other's time to turnchain's, at their medians and from the least to the largest that the runs allow."""


def text(kept: dict[str, Any]) -> str:
    """The section, without its marks."""
    parts = [
        f"Measured by `python tests/benchmarks/run.py`; {kept['machine']}, load {kept['load'][0]:g} before and "
        f"{kept['load'][1]:g} after. {_versions(kept)}",
        FAIR,
        "\n".join(_pictures(kept["pictures"])),
        "\n".join(_starts(kept["starts"])),
        "\n".join(_growth(kept["growth"])),
    ]
    return "\n\n".join(part for part in parts if part) + "\n"


def _versions(kept: dict[str, Any]) -> str:
    told = ", ".join(f"{name} {version}" for name, version in kept["versions"].items())
    absent = f" Not there to be measured: {', '.join(kept['missing'])}." if kept["missing"] else ""
    return f"Versions: {told}.{absent}"


def _pictures(jobs: list[dict[str, Any]]) -> Iterator[str]:
    if not jobs:
        return
    peers = list(dict.fromkeys(name for job in jobs for name in job["costs"] if name != OURS))
    yield f"| chart | picture | turnchain | {' | '.join(peers)} |"
    yield f"|---|---|---|{'---|' * len(peers)}"
    for job in jobs:
        ours = job["costs"][OURS]
        cells = " | ".join(_peer(ours, job["costs"].get(name)) for name in peers)
        yield f"| {job['chart']} | {job['to']} | {_cost(ours)} | {cells} |"


def _cost(cost: dict[str, Any]) -> str:
    if "failed" in cost:
        return cost["failed"]
    size = f", {cost['size'] / 1000:,.0f} kB" if cost["size"] else ""
    return f"{cost['cpu'][1]:.2f} s, {cost['memory'][1]:.0f} MB{size}"


def _peer(ours: dict[str, Any], peer: dict[str, Any] | None) -> str:
    if peer is None:
        return ""
    if "failed" in peer or "failed" in ours:
        return str(peer.get("failed", ""))
    low, middle, high = _ratio(ours["cpu"], peer["cpu"])
    side = "ahead" if low > 1 else "behind" if high < 1 else "level"
    return f"{middle:.1f} ({low:.1f} to {high:.1f}), {side}"


def _ratio(ours: list[float], peer: list[float]) -> tuple[float, float, float]:
    """Least, median and largest ratio that minimum, median and maximum of both allow."""
    return peer[0] / ours[2], peer[1] / ours[1], peer[2] / ours[0]


def _starts(jobs: list[dict[str, Any]]) -> Iterator[str]:
    if not jobs:
        return
    yield "| to wait for | processor time | beyond bare Python | on the clock | peak memory of a process |"
    yield "|---|---|---|---|---|"
    for job in jobs:
        ours, bare = job["costs"][OURS], job["costs"]["python"]
        if "failed" in ours:
            yield f"| {job['chart']} | {ours['failed']} | | | |"
            continue
        low, middle, high, clock = (s / job["count"] for s in (*ours["cpu"], ours["wall"][1]))
        yield (
            f"| {job['chart']} | {middle:.2f} s ({low:.2f} to {high:.2f}) | {middle - bare['cpu'][1]:.2f} s "
            f"| {clock:.2f} s | {ours['memory'][1]:.0f} MB |"
        )


def _growth(series: list[dict[str, Any]]) -> Iterator[str]:
    if not series:
        return
    yield "| what grows | command | at each size: s (MB) | time beyond the smallest, by the size beyond it |"
    yield "|---|---|---|---|"
    for each in series:
        points = [point for point in each["points"] if "failed" not in point["cost"]]
        failed = [point for point in each["points"] if "failed" in point["cost"]]
        refused = [f"{point['size']:,}: {point['cost']['failed']}" for point in failed]
        told = [_at(point["size"], point["cost"]) for point in points]
        yield f"| {each['what']} | `{each['command']}` | {', '.join([*told, *refused])} | {_grown(points)} |"


def _at(size: int, cost: dict[str, Any]) -> str:
    return f"{size:,}: {cost['cpu'][1]:.2f} ({cost['memory'][1]:.0f})"


def _grown(points: list[dict[str, Any]]) -> str:
    """The power with which the time grows that is added to that of the smallest: of the size that is added to it, so
    that what is even in every step gives 1."""
    if not points:
        return ""
    base, least = points[0]["cost"]["cpu"][1], points[0]["size"]
    added = [(point["size"] - least, point["cost"]["cpu"][1] - base) for point in points[1:]]
    sure = [(math.log(size), math.log(more)) for size, more in added if more > SURE * base]
    if len(sure) < 2:
        return "hardly"
    mean_x, mean_y = (sum(values) / len(sure) for values in zip(*sure, strict=True))
    slope = sum((x - mean_x) * (y - mean_y) for x, y in sure) / sum((x - mean_x) ** 2 for x, _ in sure)
    return f"size^{slope:.1f}"


def put(readme: str, section: str) -> str:
    """``readme`` with ``section`` between its marks."""
    before, _, rest = readme.partition(START)
    _, _, after = rest.partition(END)
    return f"{before}{START}{section}{END}{after}"


if __name__ == "__main__":
    README.write_text(put(README.read_text("utf-8"), text(json.loads(KEPT.read_text("utf-8")))), "utf-8")
