"""What hangs, runs, risers, trapezes and equipment, from a request to columns of the core."""

from hangpoint.pack.hanger_items.packed import LineLabels, PackedLoads, Places, pack_hanger_items

__all__ = ["LineLabels", "PackedLoads", "Places", "pack_hanger_items"]
