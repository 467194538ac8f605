"""Product data: the family schema, its rules, the catalogue and the column tables that the core computes with."""
