"""Submittals as one printed document: a cover, and behind it the parts of one check."""
