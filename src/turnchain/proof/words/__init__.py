"""Reading finished pattern text back, and working it: the words as a maker has them in hand.

In: the whole text of a pattern, its language and its names. Out: its pieces as written, and worked. The way through
the modules:

    tables              the phrases of every language
    tongue              the phrases of one language, known again in a text
    finger              a finger on the text: how far reading has come
    written             what a text says: pieces, sections
    sentences           the sentence of a row as steps
    ranges              rows named together
    closing, stripes    what follows the steps: counts, edges; yarns
    rows                a paragraph as rows
    piece               the paragraphs of a piece
    text                the whole text; begin reading here
    working             what was read, worked
"""
