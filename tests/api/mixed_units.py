"""Quantities of a random request in units that vary from one to the next, each with what it is in in, ft and lbf."""

NEWTON = 0.45359237 * 9.80665
"""N in a pound of force, NIST SP 811."""

BY_KIND = {
    "length": {"in": 1.0, "ft": 12.0, "mm": 1 / 25.4, "cm": 1 / 2.54},
    "distance": {"ft": 1.0, "in": 1 / 12, "mm": 1 / 304.8, "m": 1 / 0.3048},
    "force": {"lbf": 1.0, "N": 1 / NEWTON, "kN": 1e3 / NEWTON},
    "weight": {"lb": 1.0, "kN": 1e3 / NEWTON, "kg": 1 / 0.45359237},
    "line_weight": {"lb/ft": 1.0, "kg/m": 0.3048 / 0.45359237},
}
BARE = {
    "us": {"length": "in", "distance": "ft", "force": "lbf", "weight": "lb", "line_weight": "lb/ft"},
    "si": {"length": "mm", "distance": "m", "force": "kN", "weight": "kN", "line_weight": "kg/m"},
}


class MixedUnits:
    """Values near those asked for: bare ones in the units of the system, and ones with a unit of their own."""

    def __init__(self, rng, system):
        self.rng, self.system = rng, system

    def of(self, kind, near):
        """What is posted, and its value in in, ft (distances), lbf or lbf/ft."""
        bare = self.rng.random() < 0.4
        unit = BARE[self.system][kind] if bare else str(self.rng.choice(list(BY_KIND[kind])))
        factor = BY_KIND[kind][unit]
        number = float(f"{near / factor:.5g}")
        return (number if bare else f"{number:.7f} {unit}"), number * factor

    def point(self, axes, reach):
        """A place within so many inches along each axis: what is posted, and its numbers."""
        both = {axis: self.of("length", near) for axis, near in zip(axes, reach, strict=True)}
        return {axis: own[0] for axis, own in both.items()}, [own[1] for own in both.values()]

    @property
    def pound(self):
        """A pound of force in the unit of forces of the answer."""
        return 1.0 if self.system == "us" else NEWTON / 1e3
