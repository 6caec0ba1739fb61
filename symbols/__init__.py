"""The stitch symbols, one hand-drawn SVG each; see README.md beside this file."""
