"""The model of the fabric: lattice, counts, gauge, the plan and its grid of stitches.

Everything is built on one model of the fabric. It was worked out for this program; no book has it. The modules:
``lattice`` (places, names), ``recipe`` (what a fabric is made of: unit, gap, edge table), ``order`` (rows of more than
one kind), ``library`` (recipes read from data files), ``stitches`` (counts), ``gauge``, ``plan`` (what is decided),
``places`` (of a row, as the next meets them), ``grid`` (which stitch stands where, worked into what). No other room
counts stitches or parities itself: it asks the recipe, or a row.

A solid row has one stitch in every stitch and chain of the row below, so it is as wide, and keeps edges, kinds and
running phase. Of clusters after it each takes the stitch over the middle of a gap (staggered: the gap is odd) or of a
cluster (stacked: that is odd), over rows at the foot that of its own middle; they stand K + g stitches apart.

Fabrics differ by where units are worked, which their edge table says (``into``, ``shift``):

    staggered   into the gaps of the row below: clusters, moss, offset mesh. All that follows is of these, told of dc;
                other stitches have other turning chains, and where that does not count (sc, hdc) an edge stitch is
                worked beside it.
    stacked     each unit into the middle of the one below: V stitches, shells. The running phase is the same in every
                row, so a straight edge stays flush (the first unit one half pitch inside), and all rows are alike.
    bare        into the gaps too, with an edge stitch only where a gap lies at the edge. A bare edge is like a flush
                one without its post: where a row begins so, the turning chain, which counts, is the first stitch of the
                first unit, and slip stitches lead to its place; where one ends so, the post below stays unworked. A
                bare edge goes half a pitch in or out, out by a unit in the outermost stitch below (tip).
    whole       single stitches into those of the row below: solid rows, mesh. Every edge is spaced, the first unit a
                pitch inside, and J units fill 2J + 2 half pitches in every row.

A unit of these stands on its own K chains of a foundation like a cluster, but a V or a shell is worked into one of
them, that under its middle stitch. A stacked edge goes half a pitch in or out in any row: where it is spaced, post and
filling are half a unit, in one place. A whole one goes a pitch: its post is worked over two stitches together, or has a
unit beside it in its own place. Their tables (``data/edges``) say where each edge goes, ``places`` what that is in a
row. Edges that go by whole pitches are fitted in these (``planning/job``).

Where units of bare edges are single stitches (``Recipe.alternating``) they look like edge stitches, so that such pieces
are straight: an edge is spaced where the next row goes into the gap there, bare where it stands on the stitch.

A gap fabric may have nothing beside its edge stitches (``Recipe.slit``): at a spaced edge the slit there is the space,
and rows look alike whatever their edges are, until the next row goes into the slit or does not. An increase would be
worked stitch for stitch as a straight edge, and so would a decrease where a row starts: such edges stay straight.

Where rows are of more than one kind, a solid row keeps its edges, as do the first clusters over those at the foot. How
edges of others over solid rows go, the table of their name says (``Recipe.over``), unforced and without steps;
a place of that table is the stitch over its middle (``places.SolidBelow``).

Rows of more than one kind share the swatch: what has a swatch of its own is as high, and as heavy, as that says, and
what it leaves is shared out among the others by the heights of their stitches.

Words. A cluster is k complete double crochets (US) in one space. A gap is the g chains between two clusters:
1 in the open fabric, 0 in the closed one, where the space is the slit between clusters. A post is the stitch at
either end of every row: a turning chain of 3 at its start, a double crochet at its end. A pitch is a cluster with its
gap; half a pitch is the unit of everything across. e = g in the open fabric, 1 in the closed.

Places. Positions are whole half pitches, growing to the right, right side facing; row 1's left edge is 0. Row r
(from 1) has edges a < b and clusters at every c with c = r + s (mod 2) and a + 1 <= c <= b - 1. The phase s, 0 or 1,
is fixed for a piece. So clusters stand over the spaces of the row below, and the kind of an edge follows from its place
and its row alone: it is flush (the first cluster one half pitch inside) where position + r + s is odd, spaced (two
inside, a gap at the edge) where it is even. J clusters fill 2J half pitches between flush edges, 2J + 1 with one
spaced, 2J + 2 with both. Odd widths: rows alike, J clusters each, one edge of each kind. Even widths: J and J - 1 in
turn.

Moves of an edge from one row to the next:

    straight           nowhere, from either kind to the other
    decrease           1 in, from flush to flush
    increase           1 out, from spaced to spaced
    forced decrease    1 in, from spaced to spaced
    forced increase    1 out, from flush to flush
    step in            h > 1 in, from either kind, to a kind by parity
    step out           an even number out, only where the row starts, from either kind to the other

Natural moves (decrease, increase) need the right kind below, so between two of a sort lies an even number of straight
rows and between one of each an odd number. Forced moves break that; they cost extra and the report names them.

How an edge is worked. ch 3 for a flush start, ch 3 + g for a spaced one (closed: ch 3 and a dc in the same place),
turn, the first cluster in the first space met: the edge gap if the row below is spaced there, else the gap after its
first cluster. A slit beside a post is never a space. At a row's end: flush, the post into the post below; spaced, ch g
first (closed: a dc into the same place). A decrease ends in the outermost dc of the last cluster below, and the post
below stays unworked. A forced decrease stands in the edge gap, reached by a slip stitch at a start; a forced increase
puts a whole cluster into the post. A step in lands in a gap (then spaced) or on the middle dc of a cluster (then
flush; of an even cluster the outer of the middle two); a step out stands on chains of its own. ``fabric/grid`` and
``fabric/stitches`` have each case; ``tests/workable.py`` has them again, written apart, and works rows with them.

Foundation. Row 1 is 2 + kJ + g(J - 1) + e for each spaced edge stitches wide; each has a chain of its own, posts
too. Add the turning chain, 3 or 3 + g, for the chains to make. The first cluster begins in chain 5 from the hook, or
5 + g + e after a spaced start.

Splits. A neck in a piece worked upwards divides it into two sections, which keep the body's row numbers and phase.
The second joins its yarn anew and is worked in the same direction. So a row number can come twice: use
``piece.below(row)`` for the row underneath, and ``piece.row_levels`` for one row of every number.

Directions. Odd rows are right-side rows and start at the right. The edge line leans from a row's foot to its head,
through (0, a1), (q, a1), (2q, a2) ... with q the row height; so row r is compared with the wanted shape at y = r q, and
an edge shaped half a pitch a row mirrors top to bottom only over an odd number of rows.
"""
