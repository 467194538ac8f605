"""Load maps as printed pages: plans of the levels with the tables of their points."""
