"""The plan in words: written rows in several languages, alt texts, captions."""
