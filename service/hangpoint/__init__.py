"""hangpoint: whether the anchors at hundreds of hang points hold what hangs from them."""

__version__ = "0.1.0"
