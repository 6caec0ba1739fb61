"""Colours and yarn: stripe orders, the stash, how much is needed, carrying.

The way through the modules:

    stripes, colouring      the yarn of every row: of one piece, of a whole plan; begin reading here
    meeting                 stripes along a seam with a wish
    carrying                whether a yarn is carried up the edge or cut, and the ends that makes
    figures, figure_words   grams, metres and balls, and their words
    stash                   stripes that the stock suffices for
    colour_checks           whether stripes can be told apart, and symbols be read
    photograph              the colours of yarns in a photograph
"""
