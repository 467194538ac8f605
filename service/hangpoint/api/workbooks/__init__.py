"""Workbooks (XLSX, ECMA-376) that come in: a sheet of one as the rows of a CSV."""
