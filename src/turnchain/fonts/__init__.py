"""The fonts that text is drawn in, with their licence (OFL.txt)."""
