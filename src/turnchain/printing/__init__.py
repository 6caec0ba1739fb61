"""Charts on paper: sheets, posters, life size."""
