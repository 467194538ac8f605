"""Answers as files, printed pages and text for a terminal."""
