"""The HTTP interface: schemas, routes, problems. Nothing is computed here."""
