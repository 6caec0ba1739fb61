"""From the plan to scenes: charts, close-ups, previews, schematics."""
