"""Anchors with their loads, and the sets of them that failure modes are judged for, in any unit of length and force."""
