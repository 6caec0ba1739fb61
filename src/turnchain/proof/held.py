"""What is printed of a plan, words and pictures, held against the cloth as worked.

In: a plan and its worked pieces, and what is printed. Out: how many figures were looked at, and every one that is not
so.
"""

from __future__ import annotations

import re
from collections.abc import Mapping, Sequence
from itertools import pairwise
from xml.etree.ElementTree import ParseError

from turnchain import file_names
from turnchain.proof.compared import (
    beside_stitches,
    captions,
    gauge,
    measures,
    pictured,
    retold,
)
from turnchain.proof.held_words import HeldWords
from turnchain.proof.printed import booklet as booklets
from turnchain.proof.printed import pages
from turnchain.proof.printed import pattern as written
from turnchain.proof.printed.lengths import is_length, length
from turnchain.proof.printed.picture import ReadPicture, UnreadablePicture, read_picture


class Held(HeldWords):
    """What is printed of a plan held against its worked pieces: its words as ``HeldWords`` has it, and its pictures. A
    picture whose words are not what is drawn is a reason too."""

    def schematic(self, file: bytes) -> None:
        """The arrows of the schematic, an SVG file: their labels, and their lengths by the scale bar."""
        picture = self._read("the schematic", file)
        if picture is not None:
            self.told[file_names.SCHEMATIC] = picture.told
            self._schematic("the schematic", picture)

    def _schematic(self, where: str, picture: ReadPicture) -> None:
        asked = {cloth.name: one for cloth, one in self._pieces()}
        self._take(where, 2 * len(picture.arrows), measures.arrows(self.cloths, asked, picture))
        drawn = [(cloth, one.sideways) for cloth, one in self._pieces()]
        for words in (" ".join(picture.words), picture.told):
            self._add(where, *beside_stitches.drafted(drawn, words))
        for cloth, one in self._pieces():
            told = [(name, cm) for _, name, both in written.drafted(picture.told, cloth.name) for cm in both]
            self._take(where, 0, measures.differing(cloth, one, told, taped=True))
        self._add(where, *measures.as_drawn(list(self.cloths), picture))
        self._add(where, *pictured.levels(picture, self.reported))

    def chart(self, name: str, file: bytes) -> None:
        """The measures beside the chart of the piece ``name``, an SVG file, its alt text and its key."""
        where = f"the chart of {name}"
        picture = self._read(where, file)
        if picture is None:
            return
        self.told[file_names.chart(name)] = picture.told
        self._in_words(where, name, picture)
        self._keyed(where, name, picture)
        cloth, asked = next(one for one in self._pieces() if one[0].name == name)
        self._add(where, *beside_stitches.summary(cloth, asked.sideways, " ".join(picture.words)))
        self._edged(where, name, picture.words)
        colours = {one.name: one.colour for one in self.plan.pattern.yarns}
        carried = captions.loops(cloth, self.scale.carry[name], colours, picture.carried)
        self._take(where, len(picture.carried), carried)

    def _edged(self, where: str, name: str, words: Sequence[str]) -> None:
        """Edgings, ties and straps beside a chart and in its key."""
        tied = self.tied.get(name, ()), [one for of_it in self.tied.values() for one in of_it]
        self._add(where, *captions.edgings(words, self.along.get(name, set()), *tied))

    def _in_words(self, where: str, name: str, picture: ReadPicture) -> None:
        """The alt text of a chart, and what is drawn beside its stitches."""
        cloth, asked = next(one for one in self._pieces() if one[0].name == name)
        told = [(measure, one) for _, measure, both in written.finished(picture.told, name) for one in both]
        self._measures(f"{where}, told", cloth, asked, told)
        self._take(f"{where}, told", 4, captions.chart(cloth, picture.told))

    def _keyed(self, where: str, name: str, picture: ReadPicture) -> None:
        """The key of a chart: measures, names of symbols, stripes, gauge, what to begin with."""
        cloth, asked = next(one for one in self._pieces() if one[0].name == name)
        beside = [
            (measure, length(said))
            for measure, said in pairwise(picture.words)
            if is_length(said) and measures.named(cloth, asked, measure) is not None
        ]
        self._measures(where, cloth, asked, beside)
        words = " ".join(picture.words)
        self._take(where, 2 + len(set(cloth.yarns)), captions.key(cloth, words))
        self._add(where, *beside_stitches.begun(cloth, words))
        self._add(where, *beside_stitches.symbols(cloth, words))
        self._add(where, *beside_stitches.stripes(cloth, picture.words))
        self._take(where, 2, gauge.gauge(cloth.tape, words))

    def edges(self, said: Mapping[str, Sequence[captions.Caption]], text: str) -> None:
        """Captions of edges, by the names of pieces, against the cloth and against the rows in ``text``, the written
        pattern."""
        lines = text.splitlines()
        for name, some in said.items():
            rows = written.single_rows(lines, name)
            for caption in some:
                self._take("a caption", 1, captions.edge(self.cloths[name], caption, rows))

    def booklet(self, files: Sequence[bytes], pattern: str, said: Mapping[str, Sequence[captions.Caption]]) -> None:
        """Everything on the pages of a booklet, its pictures and boxes to tick among it, against the cloth, and against
        what was looked at already: ``pattern``, the Markdown of the same, and the captions ``said`` of edges.
        ``files``: what stands on its pages as SVG files."""
        read = [picture for file in files if (picture := self._read("the booklet", file))]
        found = pages.pages(read)
        words = [said for some in found.texts for said in some]
        self._add("the booklet", *retold.booklet(found, pattern))
        for cloth, asked in self._pieces():
            sizes = booklets.sizes(words, cloth.name, list(self.cloths))
            told = [(name, one) for _, name, both in sizes for one in both]
            self._measures("the booklet", cloth, asked, told)
            self._add("the booklet", *beside_stitches.summary(cloth, asked.sideways, _after(words, cloth.name)))
        rows = [
            (row.number, yarn, row.clusters or len(row.stitches))
            for cloth in self.cloths.values()
            for row, yarn in zip(cloth.rows, cloth.yarns, strict=True)
        ]
        boxes = booklets.boxes(words)
        wrong = [f"{box} is printed, {row} worked" for box, row in zip(boxes, rows, strict=False) if box != row]
        if len(boxes) != len(rows):
            wrong.append(f"{len(boxes)} boxes for {len(rows)} rows")
        self._take("the booklet", len(boxes), iter(wrong))
        for picture, after in pairwise((*found.drawn, None)):
            if picture is not None:
                self._pictured("the booklet", picture, after, pattern, said)

    def _pictured(
        self,
        where: str,
        picture: ReadPicture,
        after: ReadPicture | None,
        pattern: str,
        said: Mapping[str, Sequence[captions.Caption]],
    ) -> None:
        """One picture by its alt text; ``after`` it comes the key of a chart."""
        told, title = pages.composed(picture.told), pages.composed(self.plan.pattern.title)
        for name in sorted(self.cloths, key=len, reverse=True):
            if re.match(rf"(?:Short s|S)titch chart of {re.escape(name)} from ", told):
                keyed = after.words if after else ()
                self._in_words(where, name, picture)
                self._take(where, 1, captions.key(self.cloths[name], " ".join((*picture.words, *keyed))))
                self._edged(where, name, (*picture.words, *keyed))
                self._add(where, *pictured.brackets(picture, keyed))
                return
            if told.endswith(f": {name}"):
                self._keyed(where, name, picture)
                return
        if told.startswith("Schematic of "):
            self._schematic(where, picture)
        elif told.startswith("The fabric of "):
            self.told[file_names.STRIPES] = told
            self._add(where, *pictured.stripes(self.cloths, picture))
        elif told.startswith("The pieces of "):
            self.told[file_names.AS_SEWN] = told
            self._add(where, *pictured.sewn(picture, pattern.splitlines()))
            self._add(where, *pictured.levels(picture, self.reported))
        elif re.match(r"Row \d+, (?:start|end) of the row: ", told):
            self._add(where, *pictured.close_up(picture, said))
        elif told.startswith(title):
            self.told[file_names.ON_FIGURE] = told
            self._add(where, *pictured.on_figure(picture, self.reported))
        else:
            self._take(where, 0, pictured.unread(picture))

    def _read(self, where: str, file: bytes) -> ReadPicture | None:
        try:
            return read_picture(file)
        except (UnreadablePicture, ParseError) as error:
            self._take(where, 0, iter([str(error)]))
            return None


def _after(words: Sequence[str], name: str) -> str:
    """The line of facts under the heading of the piece ``name`` among the words of a booklet."""
    at = next((nth for nth, (one, other) in enumerate(pairwise(words)) if one == name and "·" in other), None)
    return "" if at is None else " ".join(words[at + 1 : at + 3])
