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
    def dc(self) -> int:
        """About how many dc that is."""
        return 3 * self.rows * (self.clusters + (self.last or self.clusters)) // 2

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
#: For growth: from about 10,000 to 3,000,000 dc.
GROWING = {f"{side} x {side}": Panel(side, side) for side in (58, 183, 577, 1000)}


def written(panel: Panel, folder: Path, name: str) -> Path:
    """The pattern file of ``panel`` in ``folder``."""
    path = folder / f"{name.replace(' ', '')}.toml"
    path.write_text(panel.text())
    return path


def _colour(index: int, count: int) -> str:
    lightness = 0.35 + 0.5 * ((7 * index) % 5) / 5
    channels = colorsys.hls_to_rgb(index / count, lightness, 0.4)
    return "#" + "".join(f"{round(255 * channel):02x}" for channel in channels)
