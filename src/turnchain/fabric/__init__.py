"""The model of the fabric: lattice, counts, gauge, the plan and its grid of stitches."""
