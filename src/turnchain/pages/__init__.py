"""What is read on a screen: the report, pages of HTML, Markdown."""
