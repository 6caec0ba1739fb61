"""The piece as worn and sewn: edges, seams, fit, finishing, cautions.

The way through the modules:

    edges, stretches      the outline of a planned piece, and parts of it, in cm
    roles, who            which part of a garment a piece is; whom the pattern is for
    body                  the wearer's measures, own ones or those of a size table
    armholes              how much of a side stays free for the arm
    sleeves               the edge of a sleeve that meets the body
    seams, seam_words     what is sewn to what; begin reading here
    named_stretches       which stretches a seam joins that names them
    openings              what no seam takes: neck, armholes, lower edge, cuffs
    edge_names            what people call an edge
    borders, finishing    the border of every opening, counted; making up in words
    dimensions            the measures placed on the outline, for drawings
    necklines, wearing    whether a head passes; the checks of the report
    materials             yarns, hook and notions that are needed
    cautions              what can hurt, and its words in caution_words
    parts                 the parts of a published pattern that stand around its rows
"""
