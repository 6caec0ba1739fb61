"""English, US and UK."""
