"""A maker who follows written steps, whatever language they were in.

In: a foundation and rows of steps, with what is said of each. Out: the rows as they come out. The modules, in the order
they build on one another:

    steps    what a maker can be told to do, and where; a row as told, and as made
    hand     the steps of one row, done
    piece    row after row, checked against what is said of it; begin reading here
"""
