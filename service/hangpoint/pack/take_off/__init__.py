"""Take-offs: items to columns (`items`), columns to the lines of a pull list, cut lists, totals and results."""
