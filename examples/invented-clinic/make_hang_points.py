"""Writes hang_points.csv: the hang points of an invented clinic. Standard library only; the same seed, the same file.

Run it in any folder: ``python make_hang_points.py [OUT.csv]``; without a name it writes beside itself.
"""

import csv
import random
import sys
from pathlib import Path

SEED = 20260

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
    "hangs.allowance",
    "spans [ft]",
    "support",
    "hangs.run.spacing_rule",
    "hangs.weight [lb]",
    "hangs.nature",
    "hangs.components.0.nature",
    "hangs.components.0.tension [lb]",
    "hangs.components.0.shear_x [lb]",
    "hangs.components.0.shear_y [lb]",
    "hangs.components.1.nature",
    "hangs.components.1.tension [lb]",
    "rod_size",
    "rod.rule",
    "family",
    "anchor_size",
    "h_ef [in]",
    "anchor.adhesive.temperature",
    "anchor.adhesive.hole",
    "anchor.adhesive.concrete_age",
    "anchor.adhesive.certified_installer",
    "anchor.adhesive.continuous_inspection",
    "attachment.gap [in]",
    "base.kind",
    "f_c [psi]",
    "base.density",
    "base.state",
    "base.state_decided_by",
    "thickness [in]",
    "base.member",
    "base.face",
    "edge_x_minus [in]",
    "edge_x_plus [in]",
    "edge_y_minus [in]",
    "edge_y_plus [in]",
    "seismic_category",
)

ENGINEER = "engineer of record, invented clinic"

SLAB_1 = {
    "base.kind": "concrete",
    "f_c [psi]": 4000,
    "base.density": "normalweight",
    "thickness [in]": 8,
    "base.member": "slab over level 1",
    "base.face": "soffit",
}
SLAB_2 = SLAB_1 | {
    "f_c [psi]": 3500,
    "base.density": "sand_lightweight",
    "thickness [in]": 6.5,
    "base.member": "slab over level 2",
}
BEAM = SLAB_1 | {"f_c [psi]": 5000, "thickness [in]": 24, "base.member": "beams of axis C"}
UNCRACKED = {"base.state": "uncracked", "base.state_decided_by": ENGINEER}

WEDGE_3_8 = {"family": "wedge-expansion-zinc", "anchor_size": "3/8", "h_ef [in]": "2-1/2", "rod_size": "3/8"}
ADHESIVE_1_2 = {
    "family": "adhesive-slow-rod-36",
    "anchor_size": "1/2",
    "h_ef [in]": "6",
    "rod_size": "1/2",
    "anchor.adhesive.temperature": "a",
    "anchor.adhesive.hole": "dry",
    "anchor.adhesive.concrete_age": 60,
    "anchor.adhesive.certified_installer": "yes",
    "anchor.adhesive.continuous_inspection": "yes",
}
WEDGE_1_2 = {"family": "wedge-expansion-zinc", "anchor_size": "1/2", "h_ef [in]": "3-1/4", "rod_size": "1/2"}
WEDGE_5_8 = {"family": "wedge-expansion-zinc", "anchor_size": "5/8", "h_ef [in]": "4", "rod_size": "5/8"}
SCREW_3_8 = {
    "family": "large-screw-internal-thread-zinc",
    "anchor_size": "3/8",
    "h_ef [in]": "3",
    "rod_size": "3/8",
}
SCREW_1_4 = SCREW_3_8 | {"anchor_size": "1/4", "h_ef [in]": "2"}
DROP_IN_3_8 = {"family": "drop-in-zinc", "anchor_size": "3/8", "h_ef [in]": "1-5/8", "rod_size": "3/8"} | UNCRACKED
DROP_IN_1_2 = DROP_IN_3_8 | {"anchor_size": "1/2", "h_ef [in]": "2", "rod_size": "1/2"}
HEADED_5_8 = {"family": "headed-bolt", "anchor_size": "5/8", "h_ef [in]": "6", "rod_size": "5/8"}
HEADED_3_4 = {"family": "headed-bolt", "anchor_size": "3/4", "h_ef [in]": "9", "rod_size": "3/4"}
DAVIT = {"family": "headed-bolt", "anchor_size": "1", "h_ef [in]": "12"}
UNDERCUT_M10 = {"family": "undercut-stainless-metric", "anchor_size": "M10", "h_ef [in]": "80 mm", "rod_size": "M10"}
UNDERCUT_M12 = {"family": "undercut-stainless-metric", "anchor_size": "M12", "h_ef [in]": "100 mm", "rod_size": "M12"}

STEEL = {"hangs.kind": "pipe", "material": "steel", "sprinkler": "false", "hangs.run.spacing_rule": "sp58_water"}
COPPER = {
    "hangs.kind": "pipe",
    "material": "copper",
    "schedule": "L",
    "contents": "water",
    "sprinkler": "false",
    "hangs.run.spacing_rule": "sp58_copper_water",
}
SPRINKLER = {
    "hangs.kind": "pipe",
    "material": "steel",
    "schedule": "10",
    "contents": "water",
    "sprinkler": "true",
    "hangs.run.spacing_rule": "sprinkler_standard",
}


def insulated(thickness, density):
    return {"hangs.insulation.thickness [in]": thickness, "hangs.insulation.density [lb/ft3]": density}


# tag, level, trade, what hangs, spacing in ft, hangers, anchor, base
LINES = (
    ("CHS-8", "L1", "mechanical", STEEL | {"pipe_size": "8", "schedule": "40", "contents": "water"} | insulated(2, 8),
     14, 12, WEDGE_5_8, SLAB_1),
    ("CHR-8", "L1", "mechanical", STEEL | {"pipe_size": "8", "schedule": "40", "contents": "water"} | insulated(2, 8),
     14, 12, HEADED_5_8, SLAB_1),
    ("CHS-6", "L1", "mechanical", STEEL | {"pipe_size": "6", "schedule": "40", "contents": "water"} | insulated(2, 8),
     14, 12, UNDERCUT_M12, SLAB_1),
    ("CHR-6", "L2", "mechanical", STEEL | {"pipe_size": "6", "schedule": "40", "contents": "water"} | insulated(2, 8),
     12, 12, WEDGE_1_2, SLAB_2),
    ("CHS-3", "L2", "mechanical", STEEL | {"pipe_size": "3", "schedule": "40", "contents": "water"} | insulated(1.5, 6),
     10, 12, SCREW_3_8, SLAB_2),
    ("HWS-4", "L1", "mechanical",
     STEEL | {"pipe_size": "4", "schedule": "STD", "contents": "propylene_glycol_30"} | insulated(2, 8),
     12, 12, WEDGE_3_8, SLAB_1),
    ("HWR-4", "L1", "mechanical",
     STEEL | {"pipe_size": "4", "schedule": "STD", "contents": "propylene_glycol_30"} | insulated(2, 8),
     12, 12, SCREW_3_8, SLAB_1),
    ("HWS-2", "L2", "mechanical",
     STEEL | {"pipe_size": "2-1/2", "schedule": "40", "contents": "water"} | insulated(1.5, 8),
     10, 12, WEDGE_3_8, SLAB_2),
    ("HWR-1", "L1", "mechanical", STEEL | {"pipe_size": "1-1/4", "schedule": "40", "contents": "water"}
     | insulated(1, 8), 7, 10, DROP_IN_3_8, SLAB_1),
    ("DCW-3", "L1", "plumbing", COPPER | {"pipe_size": "3"} | insulated(1, 6), 9, 14, DROP_IN_3_8, SLAB_1),
    ("DCW-2", "L1", "plumbing", COPPER | {"pipe_size": "2"} | insulated(1, 6), 8, 14, SCREW_1_4, SLAB_1),
    ("DHW-2", "L2", "plumbing", COPPER | {"pipe_size": "2"} | insulated(1.5, 6), 8, 14, WEDGE_3_8, SLAB_2),
    ("DHW-1", "L2", "plumbing", COPPER | {"pipe_size": "1"} | insulated(1, 6), 6, 12, SCREW_1_4, SLAB_2),
    ("DHC-3/4", "L2", "plumbing", COPPER | {"pipe_size": "3/4", "schedule": "M"} | insulated(1, 6), 5, 12, SCREW_1_4,
     SLAB_2),
    ("SPM-6", "L1", "fire protection", SPRINKLER | {"pipe_size": "6"}, 12, 12, WEDGE_1_2, SLAB_1),
    ("SPM-4", "L1", "fire protection", SPRINKLER | {"pipe_size": "4"}, 12, 14, WEDGE_3_8, SLAB_1),
    ("SPM-4B", "L2", "fire protection", SPRINKLER | {"pipe_size": "4"}, 12, 12, WEDGE_1_2, SLAB_2),
    ("SPB-2", "L1", "fire protection", SPRINKLER | {"pipe_size": "2"}, 12, 14, SCREW_3_8, SLAB_1),
    ("SPB-1-1/2", "L1", "fire protection", SPRINKLER | {"pipe_size": "1-1/2", "schedule": "40"}, 12, 12, SCREW_3_8,
     SLAB_1),
    ("SPB-1", "L2", "fire protection", SPRINKLER | {"pipe_size": "1", "schedule": "40"}, 10, 12, WEDGE_3_8, SLAB_2),
    ("STM-10", "L1", "mechanical", STEEL | {"pipe_size": "10", "schedule": "40", "contents": "water"} | insulated(3, 8),
     12, 10, HEADED_3_4, BEAM),
    ("CWS-12", "L1", "mechanical", STEEL | {"pipe_size": "12", "schedule": "STD", "contents": "water"}, 10, 8,
     HEADED_3_4, BEAM),
    ("GAS-2", "L1", "plumbing", STEEL | {"pipe_size": "2", "schedule": "40", "contents": "empty",
                                        "hangs.run.spacing_rule": "plumbing_code"}, 10, 8, DROP_IN_3_8, SLAB_1),
    ("LAB-2", "L1", "plumbing", {"hangs.kind": "pipe", "material": "stainless", "pipe_size": "2", "schedule": "10S",
                                 "contents": "water", "sprinkler": "false"}, 8, 8, UNDERCUT_M10, SLAB_1),
)  # fmt: skip

EQUIPMENT = (
    ("AHU", "mechanical", "L1", 640, HEADED_5_8, SLAB_1),
    ("FCU", "mechanical", "L2", 95, WEDGE_3_8, SLAB_2),
    ("VAV", "mechanical", "L1", 60, SCREW_1_4, SLAB_1),
    ("EXP-TANK", "mechanical", "L1", 410, WEDGE_1_2, SLAB_1),
)


def run_of(line, random_edge):
    """Hangers of one line: the run is a window of at most four spans around each."""
    tag, level, trade, hangs, spacing, count, anchor, base = line
    y = random_edge.randrange(10, 140)
    x = random_edge.randrange(4, 20)
    lengths = [spacing - random_edge.choice((0, 0, 0, 0.5, 1)) for _ in range(count - 1)]
    for at in range(count):
        first = max(0, min(at - 2, count - 5))
        spans = lengths[first : first + 4]
        near = random_edge.choice((12, 14, 18, 24, 36)) if at in (0, count - 1) else "none"
        edges = {
            "edge_x_minus [in]": near if at == 0 else "none",
            "edge_x_plus [in]": near if at == count - 1 else "none",
            "edge_y_minus [in]": "none",
            "edge_y_plus [in]": "none",
        }
        if base is BEAM:
            edges |= {"edge_y_minus [in]": 8, "edge_y_plus [in]": 8}
        yield {
            "id": f"IC-{level}-{tag}-{at + 1:02d}",
            "level": level,
            "x [ft]": round(x + sum(lengths[:at]), 2),
            "y [ft]": y,
            "trade": trade,
            **hangs,
            "hangs.allowance": 0.1,
            "spans [ft]": ";".join(f"{span:g}" for span in spans),
            "support": at - first,
            **anchor,
            **base,
            **edges,
            "seismic_category": "B",
        }


def equipment(random_edge):
    for tag, trade, level, weight, anchor, base in EQUIPMENT:
        for number in range(1, 5):
            yield {
                "id": f"IC-{level}-{tag}-{number:02d}",
                "level": level,
                "x [ft]": random_edge.randrange(20, 160),
                "y [ft]": random_edge.randrange(10, 140),
                "trade": trade,
                "hangs.kind": "weight",
                "hangs.weight [lb]": weight + random_edge.randrange(0, 20),
                "hangs.nature": "dead",
                **anchor,
                **base,
                "edge_x_minus [in]": "none",
                "edge_x_plus [in]": "none",
                "edge_y_minus [in]": "none",
                "edge_y_plus [in]": random_edge.choice((16, 24, 30)),
                "seismic_category": "B",
            }


def forces(tag, dead, live, anchor, base, **changes):
    return {
        "id": f"IC-{tag}",
        "level": "L1",
        "trade": "structural steel",
        "hangs.kind": "forces",
        "hangs.components.0.nature": "dead",
        "hangs.components.0.tension [lb]": dead,
        "hangs.components.1.nature": "live",
        "hangs.components.1.tension [lb]": live,
        **anchor,
        **base,
        "edge_x_minus [in]": "none",
        "edge_x_plus [in]": "none",
        "edge_y_minus [in]": 20,
        "edge_y_plus [in]": "none",
        "seismic_category": "B",
        **changes,
    }


def direct_forces():
    """Loads given as forces: a monorail for a hoist, davits, braces, tanks on adhesive anchors, and lamps."""
    for number in range(1, 7):
        yield forces(f"L1-HOIST-{number:02d}", 180, "2.5 kN", HEADED_5_8, SLAB_1)
    for number in range(1, 4):
        yield forces(
            f"L1-DAVIT-{number:02d}", 5200, 4000, DAVIT, BEAM, **{"edge_y_minus [in]": 8, "edge_y_plus [in]": 8}
        )
    for number in range(1, 6):
        corner = {"edge_x_plus [in]": 4 + number, "edge_y_minus [in]": 6}
        brace = {"hangs.components.0.shear_x [lb]": 240, "hangs.components.0.shear_y [lb]": -90}
        yield forces(f"L1-BRACE-{number:02d}", 150, 60, WEDGE_1_2 | {"rod_size": ""}, SLAB_1, **corner, **brace)
    for number in range(1, 5):
        yield forces(f"L2-TANK-{number:02d}", 640, 0, ADHESIVE_1_2, SLAB_1, **{"edge_x_minus [in]": 5 + number})
    yield forces("L1-LAMP-01", 120, 250, UNDERCUT_M10, SLAB_1)
    yield forces("L1-LAMP-02", 120, 250, UNDERCUT_M12, BEAM, **{"edge_y_minus [in]": 8, "edge_y_plus [in]": 8})


# Rows changed after the lines were laid out, as jobs are: id and what is different.
DOES_NOT_HOLD = {
    "IC-L1-CHS-8-05": WEDGE_3_8 | {"h_ef [in]": "1-3/4"},
    "IC-L1-CHS-6-03": {"edge_y_minus [in]": "3 in"},
    "IC-L1-HWS-4-07": {"spans [ft]": "16;16;12;12", "support": 1},
    "IC-L1-DCW-2-02": {"spans [ft]": "12;12", "support": 1},
    "IC-L2-CHR-6-05": {"edge_x_minus [in]": "2-1/2"},
    "IC-L1-STM-10-04": {"rod_size": "3/8"},
    "IC-L1-CWS-12-03": SCREW_3_8,
    "IC-L1-SPM-6-06": UNDERCUT_M12,
    "IC-L2-SPM-4B-03": WEDGE_3_8 | {"h_ef [in]": "1-3/4"},
    "IC-L1-HOIST-04": WEDGE_3_8 | {"h_ef [in]": "1-3/4", "hangs.components.0.tension [lb]": 600},
    "IC-L1-DAVIT-02": {"edge_y_minus [in]": 3},
    "IC-L1-DAVIT-03": {"f_c [psi]": "3000 psi", "edge_x_plus [in]": 9, "base.member": "beam of axis C, old part"},
    "IC-L1-DCW-3-06": {"rod_size": "1/2"},
    "IC-L1-SPM-4-08": {"edge_x_plus [in]": "2-1/2"},
    "IC-L1-CHR-8-07": {"thickness [in]": 7, "base.member": "slab over level 1, recess"},
    "IC-L1-BRACE-05": {"hangs.components.0.shear_x [lb]": 2600, "edge_x_plus [in]": 5},
    "IC-L1-AHU-03": DROP_IN_1_2 | {"hangs.weight [lb]": 2400},
}
OUTSIDE = {
    "IC-L1-HWR-1-03": {"base.state": "cracked", "base.state_decided_by": ""},
    "IC-L1-HWR-1-04": {"base.state": "", "base.state_decided_by": ""},
    "IC-L1-DCW-3-09": {"seismic_category": "C"} | DROP_IN_3_8,
    "IC-L1-GAS-2-04": {"seismic_category": "D"},
    "IC-L1-HOIST-05": {"hangs.components.0.shear_x [lb]": 300, "attachment.gap [in]": 2},
    "IC-L1-HOIST-06": {"hangs.components.1.nature": "wind", "hangs.components.1.tension [lb]": -2500},
    "IC-L1-LAMP-02": {"family": "hammer-set-pin-zinc", "anchor_size": "1/4", "h_ef [in]": "1"},
    "IC-L2-TANK-04": {"anchor.adhesive.certified_installer": "no"},
}
MALFORMED = {
    "IC-L1-HWR-4-05": {"family": "large-screw-internal-tread-zinc"},
    "IC-L1-CHS-6-09": {"thickness [in]": "8 inchs"},
    "IC-L2-DHW-2-06": {"edge_y_plus [in]": ""},
    "IC-L1-SPB-2-04": {"schedule": "41"},
    "IC-L2-SPM-4B-07": {"h_ef [in]": "5"},
    "IC-L2-FCU-02": {"hangs.weight [lb]": "95 psi"},
    "IC-L2-DHW-1-08": {"base.density": ""},
    "IC-L1-DCW-2-11": {"support": "7"},
    "IC-L1-VAV-04": {"base.state": "uncracked"},
}
TOO_LONG = "IC-L1-SPB-1-1/2-05"


def rows():
    source = random.Random(SEED)
    made = [row for line in LINES for row in run_of(line, source)]
    made += [*equipment(source), *direct_forces()]
    known = {row["id"]: row for row in made}
    for changes in (DOES_NOT_HOLD, OUTSIDE, MALFORMED):
        for name, change in changes.items():
            known[name].update(change)
    return made


def main():
    out = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(__file__).parent / "hang_points.csv"
    with out.open("w", newline="", encoding="utf-8") as file:
        writer = csv.writer(file, lineterminator="\n")
        writer.writerow(COLUMNS)
        for row in rows():
            cells = [row.get(name, "") for name in COLUMNS]
            writer.writerow([*cells, "moved 3 in, see sketch"] if row["id"] == TOO_LONG else cells)


if __name__ == "__main__":
    main()
