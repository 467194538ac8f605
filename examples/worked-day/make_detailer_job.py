"""Writes 1030_detailer.csv: 412 hang points of an invented school. Standard library only; the same seed, the same file.

Run it in any folder: ``python make_detailer_job.py [FOLDER]``; without a name it writes beside itself. It also writes
1030_next_size.csv: the points that didn't hold, one size up.
"""

import csv
import random
import sys
from pathlib import Path

SEED = 1030

COLUMNS = (
    "id",
    "level",
    "x [ft]",
    "y [ft]",
    "trade",
    "hangs.kind",
    "material",
    "pipe_size",
    "schedule",
    "contents",
    "sprinkler",
    "hangs.insulation.thickness [in]",
    "hangs.insulation.density [lb/ft3]",
    "spans [ft]",
    "support",
    "hangs.run.spacing_rule",
    "hangs.weight [lb]",
    "hangs.nature",
    "rod_size",
    "family",
    "anchor_size",
    "h_ef [in]",
    "base.kind",
    "f_c [psi]",
    "base.density",
    "thickness [in]",
    "base.member",
    "edge_x_minus [in]",
    "edge_x_plus [in]",
    "edge_y_minus [in]",
    "edge_y_plus [in]",
    "seismic_category",
)

OF_WHAT_HANGS = COLUMNS[COLUMNS.index("hangs.kind") : COLUMNS.index("rod_size")]

WEDGE_3_8_SHALLOW = {"family": "wedge-expansion-zinc", "anchor_size": "3/8", "h_ef [in]": "1-3/4", "rod_size": "3/8"}
WEDGE_3_8 = WEDGE_3_8_SHALLOW | {"h_ef [in]": "2-1/2"}
WEDGE_1_2 = {"family": "wedge-expansion-zinc", "anchor_size": "1/2", "h_ef [in]": "3-1/4", "rod_size": "1/2"}
WEDGE_5_8 = {"family": "wedge-expansion-zinc", "anchor_size": "5/8", "h_ef [in]": "4", "rod_size": "5/8"}
SCREW_3_8 = {
    "family": "large-screw-internal-thread-zinc",
    "anchor_size": "3/8",
    "h_ef [in]": "3",
    "rod_size": "3/8",
}
DROP_IN_3_8 = {"family": "drop-in-zinc", "anchor_size": "3/8", "h_ef [in]": "1-5/8", "rod_size": "3/8"}

STEEL = {"hangs.kind": "pipe", "material": "steel", "contents": "water", "sprinkler": "false"}
CHILLED = STEEL | {
    "schedule": "40",
    "hangs.run.spacing_rule": "sp58_water",
    "hangs.insulation.thickness [in]": 1.5,
    "hangs.insulation.density [lb/ft3]": 8,
}
COPPER = {
    "hangs.kind": "pipe",
    "material": "copper",
    "schedule": "L",
    "contents": "water",
    "sprinkler": "false",
    "hangs.run.spacing_rule": "sp58_copper_water",
    "hangs.insulation.thickness [in]": 1,
    "hangs.insulation.density [lb/ft3]": 6,
}
SPRINKLER = STEEL | {"schedule": "10", "sprinkler": "true", "hangs.run.spacing_rule": "sprinkler_standard"}
WEIGHT = {"hangs.kind": "weight", "hangs.nature": "dead"}

LINES = (
    ("mechanical", CHILLED | {"pipe_size": "4"}, 12, 20, WEDGE_3_8),
    ("mechanical", CHILLED | {"pipe_size": "4"}, 12, 20, WEDGE_3_8),
    ("mechanical", CHILLED | {"pipe_size": "6"}, 12, 18, WEDGE_1_2),
    ("plumbing", COPPER | {"pipe_size": "2"}, 8, 20, WEDGE_3_8),
    ("plumbing", COPPER | {"pipe_size": "1"}, 6, 20, SCREW_3_8),
    ("fire protection", SPRINKLER | {"pipe_size": "4"}, 12, 18, WEDGE_3_8),
    ("fire protection", SPRINKLER | {"pipe_size": "2"}, 12, 14, SCREW_3_8),
)
"""Trade, what hangs, distance of the hangers in ft, their number, the anchor; on each level, 6 ft from line to line."""

EQUIPMENT = (("L1", 8, 120), ("L2", 8, 160), ("L3", 6, 140))
"""Level, number of hung fan coils, least weight on a rod in lb."""

EDGES_TOO_NEAR = ("H-003", "H-021", "H-058", "H-149", "H-166", "H-203", "H-281", "H-305", "H-331")
"""Points of the model whose edge has come nearer than the anchor's least edge distance."""

DO_NOT_HOLD = {
    "H-105": {"schedule": "40", "spans [ft]": "15;15", "support": 1, **WEDGE_3_8_SHALLOW},
    "H-135": {"hangs.weight [lb]": 900},
    "H-408": {"hangs.weight [lb]": 1500, **WEDGE_1_2},
}
NEXT_SIZE = {"H-105": WEDGE_1_2 | {"h_ef [in]": "2"}, "H-135": WEDGE_1_2, "H-408": WEDGE_5_8}
"""Rod and anchor one size up."""

REFUSED = {"H-209": DROP_IN_3_8}

NEXT_TO_EACH_OTHER = {
    "H-117": CHILLED
    | {"pipe_size": "4", "spans [ft]": "12;12", "support": 1, "trade": "mechanical", **WEDGE_3_8}
    | {"x [ft]": 60, "y [ft]": 80, "edge_x_minus [in]": "none", "edge_y_minus [in]": "5-1/2"},
    "H-118": WEIGHT
    | {"hangs.weight [lb]": 160, "trade": "electrical", **WEDGE_3_8}
    | {"x [ft]": 60, "y [ft]": 80.75, "edge_y_minus [in]": "14-1/2"},
}
"""Two hangers at a shaft, 9 in apart: the foreman asks about the first of them in the afternoon."""


def slab(level):
    return {
        "base.kind": "concrete",
        "f_c [psi]": 4000,
        "base.density": "normalweight",
        "thickness [in]": 8,
        "base.member": f"invented slab over {level}",
    }


def rows():
    """Every hang point as a mapping of column to cell."""
    source = random.Random(SEED)
    made = []
    for level, count, weight in EQUIPMENT:
        here = {"level": level, "seismic_category": "B", **slab(level)}
        for number, (trade, hangs, spacing, hangers, anchor) in enumerate(LINES):
            lengths = [spacing - source.choice((0, 0, 0, 0.5, 1)) for _ in range(hangers - 1)]
            for at in range(hangers):
                first = max(0, min(at - 2, hangers - 5))
                made.append(
                    {
                        **here,
                        "x [ft]": round(4 + sum(lengths[:at]), 2),
                        "y [ft]": 10 + 6 * number,
                        "trade": trade,
                        **hangs,
                        "spans [ft]": ";".join(f"{length:g}" for length in lengths[first : first + 4]),
                        "support": at - first,
                        **anchor,
                        "edge_x_minus [in]": 48 if at == 0 else "none",
                    }
                )
        made += [
            {
                **here,
                "x [ft]": 10 + 20 * number,
                "y [ft]": 60,
                "trade": "mechanical",
                **WEIGHT,
                "hangs.weight [lb]": weight + source.randrange(0, 40),
                **WEDGE_3_8,
            }
            for number in range(count)
        ]
    for number, row in enumerate(made, start=1):
        row["id"] = f"H-{number:03d}"
        for name in COLUMNS:
            if name.startswith("edge_"):
                row.setdefault(name, "none")
    known = {row["id"]: row for row in made}
    for name in EDGES_TOO_NEAR:
        known[name]["edge_y_plus [in]"] = "2-1/2"
    for changes in (DO_NOT_HOLD, REFUSED, NEXT_TO_EACH_OTHER):
        for name, change in changes.items():
            anew = dict.fromkeys(OF_WHAT_HANGS, "") if "hangs.kind" in change else {}
            known[name].update(anew | change)
    return made


def write(file, made):
    with file.open("w", newline="", encoding="utf-8") as out:
        writer = csv.writer(out, lineterminator="\n")
        writer.writerow(COLUMNS)
        for row in made:
            writer.writerow([row.get(name, "") for name in COLUMNS])


def main():
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent
    made = rows()
    write(folder / "1030_detailer.csv", made)
    larger = [row | NEXT_SIZE[row["id"]] for row in made if row["id"] in NEXT_SIZE]
    write(folder / "1030_next_size.csv", larger)


if __name__ == "__main__":
    main()
