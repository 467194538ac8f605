"""Plane geometry shared by every design code: projected areas and grouping; no resistance formula."""
