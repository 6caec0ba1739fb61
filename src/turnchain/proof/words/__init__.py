"""Reading finished pattern text back, and working it, from its words alone.

In: the whole text of a pattern, its language and its names. Out: its pieces as written, and worked. The modules, in the
order they build on one another:

    tables        the phrases of every language
    phrasebook    the phrases of one language, found again in a text
    sentences     the sentence of a row as steps
    rows          a paragraph as rows: steps, counts, edges, yarns
    text          the whole text, read and worked; begin reading here
"""
