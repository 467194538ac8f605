"""Submittals: the answer to one check brought into the parts of one document."""
