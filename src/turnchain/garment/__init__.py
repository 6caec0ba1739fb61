"""The piece as worn and sewn: edges, seams, fit, finishing, cautions."""
