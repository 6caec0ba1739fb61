"""Pattern files, read and checked.

In: a TOML file or its text. Out: a ``Pattern``, or one ``PatternError`` with every problem of the file, each
with its place in makers' words. Only this room reads the file's keys. In the order of the work:

    pattern_file    a whole file read: begin here
    toml_text       a file to its tables, or the one thing that is wrong with file or syntax
    tables          the tables a file may have, and their keys: all that can be written
    piece_tables    those of a piece and its parts
    table_keys      what a table and a key are
    values          how a single value is read: lengths, numbers, colours, names
    brackets        values for several sizes, and the tables of one of them
    graded          measures worked out from those of the wearer's body
    places          where something stands: in words, as a path of keys, as a line and a column
    notes           a table read value by value, and the problems gathered with their places
    swatches        what must agree within the swatch: counts, readings, the weight and its area
    checks          what must agree between tables: yarns and stripes, names, facing pieces, seams
    edgings         what must agree within edgings: the edges named, their yarn
    orders          what must agree within stripes: the kind and its keys, the yarns named
    shapes          what must agree within a piece: its size, its outline, its neck
    wearers         what must agree within the wearer: the row of a size table, measures that a body can have
    quoting         values and hints as every message shows them

A table is read in two steps. First each value by itself, and what fails is noted and left out; then the checks
that compare values see what is left, so that one slip hides no other.

A new key is a line in ``tables`` or ``piece_tables`` and a field in ``turnchain.pattern``; a new word for a choice is a
word there.

Why no library validates: nearly every message and reader is ours in any case, and start-up counts. With models
of pydantic 2.14 this import took 241 ms and ``turnchain check`` of a blanket 292 ms; with the tables here they
take 75 and 125 ms, where Python alone takes 33 (least of 25 runs each, in turn, bytecode compiled).
"""
