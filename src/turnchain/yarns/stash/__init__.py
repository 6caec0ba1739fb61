"""Stripes from the stash: which yarn works which stripe, so that the stock suffices.

In: a ``Plan`` whose rows are counted, its stock and its wishes. Out: stripes for all pieces, what they leave, and
beside them a bound that no plan can beat.

All pieces share one run of stripes from row 1, so that they meet at the seams; a row of the stripes is all
rows of that number in all pieces, each as often as it is made, and weighs their sum. Answers are compared in this
order:

1. the grams short of the stock, all yarns together: none, where it can be done;
2. the rows that meet their own yarn at a seam where they should not;
3. what is left of the yarns to be used up first;
4. the largest rest of any yarn: the rows weigh the same whatever their order, so what is left is given, and only
   how it is shared can be better or worse. Rests are counted before tails, else cutting more would look thrifty;
5. fewer stripes.

Rows that are worked keep their yarns, and what they left is shared out to the others.

The search goes row by row. In a small piece it keeps every different way (then the answer is ``exact``: no
plan beats it); in a large one those that stay nearest to the rests aimed at, which spreads every yarn over the
whole height, and then tries to improve the best of them stripe by stripe. numpy counts in floats; the answer is then
summed again in fractions, so that it never overspends. The same input always gives the same answer. The yarn is
counted as if it were cut after every stripe; carrying it leaves a little more.

A search of our own and no solver of the registry: the best of them for this (milp of a general library) takes a
start of a third of a second and 100 MB installed, and the rule that a yarn comes back after so many others makes
a large blanket's programme some 100,000 variables, far beyond two seconds. The way through the modules:

    task         what is to be shared out, and an answer; what no plan can beat, and the rests to aim at
    search       the search, in floats
    solving      the best answer; where the stock is too little, the nearest that can be done
    from_plan    the task of a plan, the answer as yarns of its rows and in makers' words; begin reading here
"""
