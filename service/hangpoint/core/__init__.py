"""The calculation: NumPy arrays in, records of every number out. No framework, no JSON, no text of a user."""
