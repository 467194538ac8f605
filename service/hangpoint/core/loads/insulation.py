"""Densities of insulation by name, lb/ft3: the upper end of the usual range of each, for a density that isn't known.

Document: ASTM C533 (calcium silicate, type I 15 and type IA 22 lb/ft3 at most). All others are usual ranges, from
memory: fibreglass pipe 3 to 6, mineral wool 8 to 12, elastomeric foam 3 to 6, cellular glass 7 to 8, polyisocyanurate
2, duct wrap 0.75 to 1.5, duct liner 1.5 to 3. 85 % magnesia has 11, which two weights of the classic pipe tables give.

A jacket of aluminium of 0.016 in weighs 0.23 lb/ft2 (0.016 in of 0.098 lb/in3); it is stated as a weight per area.
"""

INSULATION: dict[str, float] = {
    "calcium_silicate": 15.0,
    "calcium_silicate_1a": 22.0,
    "magnesia_85": 11.0,
    "fibreglass": 6.0,
    "mineral_wool": 12.0,
    "elastomeric": 6.0,
    "cellular_glass": 8.0,
    "polyisocyanurate": 2.0,
    "duct_wrap": 1.5,
    "duct_liner": 3.0,
}
"""Density of each kind of insulation, lb/ft3."""
