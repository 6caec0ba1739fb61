"""The instructions of a piece as a tree, before they are words in any language.

In: a ``PiecePlan``. Out: ``PieceInstructions``: the foundation, and for every section its rows, each a tuple of steps
("ch 4", "turn", "cluster in the next space"), grouped as a person would write them. No word of any language stands
here: ``words`` says the tree by a table of phrases. The modules, in the order they build on one another:

    steps        what a maker can be told to do, and where
    rows         the tree: the chain to make, and rows, blocks of rows, sections, the piece
    row_steps    one row of the plan as steps
    grouping     rows and stripes that are told together
    one_piece    everything of a piece; begin reading here
"""
