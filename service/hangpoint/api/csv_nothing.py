"""Words and signs in cells of a CSV that say, or may say, that nothing is there."""

from collections.abc import Mapping

DASHES = frozenset({"-", "--", "–", "—", "n/a", "na", "n.a.", "no", "nil"})
"""What may mean that nothing is there, or nothing known; in small letters."""
_SAID = frozenset({*DASHES, "none"})
NOTHING = frozenset({*_SAID, *(text.upper() for text in _SAID), "None", "Nil", "No"})
"""Texts that can say of a field that it isn't there, as tables have them."""
NO_EDGE: Mapping[str, str] = dict.fromkeys(("noedge", "noedges", "∞", "infinite", "infinity"), "none")
"""Words for no edge within reach, by `word_key`."""
BARE = frozenset({"none", "bare", "uninsulated", "noinsulation", "notinsulated"})
"""Words for a thickness of 0, by `word_key`."""
