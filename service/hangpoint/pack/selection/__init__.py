"""Products as candidates, wishes of a request, and choices as JSON."""
