"""As-built lists: items to columns (`items`), and the comparison as results (`results`)."""
