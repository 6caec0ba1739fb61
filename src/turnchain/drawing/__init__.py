"""From the plan to scenes: charts, close-ups, previews, schematics.

In: a ``Plan`` and a ``Look``. Out: a ``Scene``. The way of a chart through the modules:

    looks, setting                  how it should look; what every part of a drawing is given: plan, piece, look, page,
                                    colours, changes
    sizing, sheet                   laid out at a size, with what stands beside the cloth; the lattice in px
    glyphs, definitions             symbols read and placed; stitches and rows, each stated once
    colours, hatching               a row's tint under one dark ink, or hatching in its place
    bands, loops, marks, margins    the cloth; yarn carried beside it; what is marked; numbers, signs, letters, names
    folds, breaks, brackets         what a short chart leaves out, and how that is shown
    key, columns, heading           what the key says, and how words are laid out
    chart                           all of it put together; begin reading here
    parts, post_page, posting       the pictures of a series; one picture to post; charts of fixed sizes and in series
    detail                          close-ups
    cloth, strands, preview         worked cloth, as it will look
    contact                         orders of the same yarns side by side
    placement, assembly             pieces laid out as worn, and along their seams
    drafting, to_scale, schematic   the schematic

A row's tint is its yarn's colour, lightened until the dark ink has 6 to 1 on it: 4.5 would do for the ink, but the line
along a shaped edge reaches 3 to 1 only there. Pale yarns stay whole: two of them that differ by 5 (CIEDE2000) would run
together at 40 %.
"""
