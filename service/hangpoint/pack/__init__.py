"""Items of a request to columns and columns to an answer: the one place where an axis or a unit could slip."""
