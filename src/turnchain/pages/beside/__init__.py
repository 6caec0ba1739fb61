"""The page beside the work: one HTML file that shows row after row while a piece is being made.

In: a plan and a look. Out: the text of a page that needs no server and nothing from elsewhere. Without its script
it can be read from top to bottom; with it, it keeps the place. Every row is told once, in the list of all rows;
the card in large type is filled from there, so both say the same. Everything that a maker wrote is escaped, and
set apart (<bdi>) so that names written from right to left stay in their place. The modules:

    markup            what a maker wrote, as HTML
    pictures          charts and cloth, to be repainted
    lengths           how much yarn the rows take
    pieces, edgings   the chapters of the page
    colours           and the last of them
    page              the whole of it, with beside.css and beside.js; begin reading here
"""
