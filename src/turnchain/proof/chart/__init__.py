"""Reading the chart of a piece back, and working it, from what the picture alone shows.

In: the SVG file of a whole chart. Out: its rows, worked stitch by stitch from where the symbols lie. A symbol is told
by its lines, what it stands on by where its foot lies over the row below, a row's height by its own. The modules, in
the order they build on one another:

    marks      what a picture shows; a symbol told by its lines
    picture    the whole picture; begin reading here
    lines      its rows: which symbols make one, and which way it is worked
    feet       what a foot stands on, and which dc belong together
    row        one row worked
    working    the whole chart worked, and whether each row lies where it was drawn
"""
