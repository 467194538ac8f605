"""Loads on hangers as results in JSON, a text an item, in the units of the request."""
