"""The pattern files that are measured: made here, so that what each one is can be read in one place."""

from __future__ import annotations

import colorsys
from dataclasses import dataclass
from pathlib import Path

PITCH, RISE = 2.0, 1.0  # cm: a cluster with its gap, a row


@dataclass(frozen=True)
class Panel:
    """A panel of ``rows`` rows of ``clusters`` clusters of 3 dc in ``colours``; ``last``: how many clusters its
    last row has, where half a cluster is taken away at one edge in every row. ``narrow``: px of its smaller picture."""

    rows: int
    clusters: int
    colours: int = 4
    last: int | None = None
    narrow: int = 1600

    @property
    def note(self) -> str:
        """What else the table should say of it."""
        return "" if self.last is None else f", every row shaped, {self.colours} colours"

    def text(self) -> str:
        """The pattern file."""
        colours = [_colour(index, self.colours) for index in range(self.colours)]
        yarns = "".join(f'[[yarn]]\nname = "Y{index}"\ncolour = "{colour}"\n' for index, colour in enumerate(colours))
        order = ", ".join(f'"Y{index}"' for index in range(self.colours))
        size = f"width = {self.clusters * PITCH}\nlength = {self.rows * RISE}\n"
        if self.last is not None:
            ends = f"[0, {self.clusters * PITCH}], [{self.rows * RISE}, {self.last * PITCH}]"
            size = f'outline = [{ends}]\nalign = "left"\n'
        return (
            'title = "Measured"\nterms = "US"\nunits = "cm"\n'
            f"[swatch]\nclusters = 10\nwidth = {10 * PITCH}\nrows = 10\nheight = {10 * RISE}\n"
            f"[fabric]\ncluster = 3\ngap = 1\n{yarns}[stripes]\norder = [{order}]\nrows = 1\n"
            f'[[piece]]\nname = "panel"\nworked = "upwards"\n{size}'
        )


#: What the tables show. "shaped": every row is shaped, fifty colours, no two rows alike.
PANELS = {
    "small": Panel(40, 32),
    "medium": Panel(150, 100),
    "large": Panel(300, 200),
    "shaped": Panel(300, 260, 50, 110, narrow=2200),  # below that its stitches cannot be told apart
}


def written(panel: Panel, folder: Path, name: str) -> Path:
    """The pattern file of ``panel`` in ``folder``."""
    path = folder / f"{name.replace(' ', '')}.toml"
    path.write_text(panel.text())
    return path


SWATCH = "[swatch]\nclusters = 5\nwidth = 10\nrows = 10\nheight = 10\n"


def slanted(rows: int) -> str:
    """A panel of so many ``rows``, 60 clusters wide at its foot and 20 at its top, or as few as its rows allow."""
    return Panel(rows, 60, last=max(20, 60 - rows // 2)).text()


def with_neck(side: int) -> str:
    """A body ``side`` cm wide and long with a round neck."""
    neck = f'neck = {{ shoulder = {side / 4}, depth = {side / 8}, shape = "round" }}'
    size = f'name = "body"\nworked = "sideways"\nwidth = {side}\nlength = {side}\n'
    return f'title = "Neck"\n{SWATCH}[[piece]]\n{size}{neck}\n'


def zigzag(side: int) -> str:
    """A piece ``side`` cm high whose width goes in and out every 10 cm."""
    points = ", ".join(f"[{at}, {side if at // 10 % 2 else side * 0.8}]" for at in range(0, side + 1, 10))
    return f'title = "Zigzag"\n{SWATCH}[[piece]]\nname = "panel"\noutline = [{points}]\n'


def blanket(yarns: int) -> str:
    """A blanket of 120 rows striped from a stash of so many ``yarns``."""
    lines = "".join(
        f'[[yarn]]\nname = "yarn {i}"\ncolour = "#{i * 5 + 20:02x}7777"\nstock = {2600 / yarns + i:.1f}\n'
        for i in range(yarns)
    )
    area = "weighed = [10, 10]\nweight = 9\n"
    piece = '[[piece]]\nname = "blanket"\nwidth = 100\nlength = 120\n'
    return f'title = "Blanket"\n{SWATCH}{area}[stripes]\nkind = "stash"\n{lines}{piece}'


def many_pieces(count: int) -> str:
    """So many small pieces."""
    pieces = "".join(f'[[piece]]\nname = "square {i}"\nwidth = 20\nlength = {20 + i % 7}\n' for i in range(count))
    return f'title = "Pieces"\n{SWATCH}{pieces}'


def of_sizes(count: int) -> str:
    """A body with a round neck in so many sizes, a cluster wider from one to the next."""

    def graded(first: float, step: float) -> str:
        one, *others = (f"{first + step * nth:g}" for nth in range(count))
        return f'"{one} ({", ".join(others)}) cm"' if others else one

    names = ", ".join(f'"{nth}"' for nth in range(1, count + 1))
    sizes = f"sizes = [{names}]\n" if count > 1 else ""
    neck = f'neck = {{ shoulder = {graded(12, 0.5)}, depth = 8, shape = "round" }}'
    size = f'name = "body"\nworked = "sideways"\nwidth = {graded(44, 2)}\nlength = {graded(56, 1)}\n'
    return f'title = "Sizes"\n{sizes}{SWATCH}[[piece]]\n{size}{neck}\n'


def _colour(index: int, count: int) -> str:
    lightness = 0.35 + 0.5 * ((7 * index) % 5) / 5
    channels = colorsys.hls_to_rgb(index / count, lightness, 0.4)
    return "#" + "".join(f"{round(255 * channel):02x}" for channel in channels)
