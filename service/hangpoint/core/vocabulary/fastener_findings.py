"""Findings of checks by EN 1992-4."""

from hangpoint.core.vocabulary.words import Severity, finding

FASTENER_EDGE = finding(
    "fastener-edge-below-minimum",
    Severity.VIOLATION,
    "An edge is nearer than the c_min of this fastener: the concrete may split while it is set.",
    "EN 1992-4 7.2.1.7(1)",
    "length",
)
FASTENER_SPACING = finding(
    "fastener-spacing-below-minimum",
    Severity.VIOLATION,
    "Two fasteners are nearer to each other than the s_min of this fastener.",
    "EN 1992-4 7.2.1.7(1)",
    "length",
)
FASTENER_THICKNESS = finding(
    "fastener-thickness-below-minimum",
    Severity.VIOLATION,
    "The member is thinner than the h_min of this fastener.",
    "EN 1992-4 7.2.1.7(1)",
    "length",
)
FASTENER_EMBEDMENT = finding(
    "fastener-embedment-below-minimum",
    Severity.VIOLATION,
    "h_ef is less than 40 mm. 30 mm are allowed to systems that stay up without one of their fasteners, which isn't"
    " judged here.",
    "EN 1992-4 1.2",
    "length",
)
FASTENER_STEEL = finding(
    "fastener-steel-beyond-scope",
    Severity.VIOLATION,
    "The steel of the fastener has more than the f_uk of 1,000 N/mm2 that the standard covers.",
    "EN 1992-4 1.2",
    "stress",
)
FASTENER_F_CK = finding(
    "f-ck-limited",
    Severity.NOTE,
    "Of post-installed fasteners f_ck counts to 60 N/mm2.",
    "reading 27, from memory",
    "stress",
)
FASTENER_ASSESSED_IN = finding(
    "fastener-concrete-beyond-assessment",
    Severity.CAUTION,
    "Post-installed fasteners are as a rule assessed in concrete of up to C50/60: see whether the assessment of this"
    " one holds in a stronger one.",
    "common practice, from memory",
    "stress",
)
FASTENER_ROW_SPACING = finding(
    "fastener-spacing-at-edge",
    Severity.VIOLATION,
    "Sheared fasteners near an edge are nearer to each other than 4 d_nom.",
    "EN 1992-4 7.2.2.5(4)",
    "length",
)
FASTENER_GROUP_AT_EDGE = finding(
    "fastener-group-at-edge",
    Severity.VIOLATION,
    "In shear within the larger of 10 h_ef and 60 d_nom of an edge the standard covers groups of up to four fasteners"
    " in holes with clearance.",
    "EN 1992-4 1.2",
)
FASTENER_PLATE_BEARING = finding(
    "fixture-bearing-exceeded",
    Severity.CAUTION,
    "At its pressed edge the fixture bears on the concrete with more than f_ck/1.5. Concrete that yields there takes"
    " from the lever, and fasteners are pulled by more than computed: enlarge the fixture, or have the engineer show"
    " the bearing and the forces.",
    "EN 1992-4 6.2.1; EN 1992-1-1 6.7, from memory",
    "stress",
)
FASTENER_PLATE_CRUSHES = finding(
    "fixture-crushes-concrete",
    Severity.VIOLATION,
    "The fixture is pressed on the concrete by more than all of it can bear, three times f_ck/1.5 over its area where"
    " the support is wide on all sides.",
    "EN 1992-1-1 6.7, from memory",
    "force",
)
FASTENER_HOLE_CLEARANCE = finding(
    "fastener-hole-clearance",
    Severity.NOTE,
    "Fasteners share the shear only in holes of the fixture no wider than Table 6.1, those with a slot across it: 1 mm"
    " of clearance for d up to 8 mm, 2 mm up to 24 mm, 3 mm beyond. Those that are stated to take none may have more.",
    "EN 1992-4 Table 6.1",
)
FASTENER_GROUT = finding(
    "grout-as-lever-arm",
    Severity.NOTE,
    "Grout thicker than half of the diameter is free length, and the shear through it has a lever arm. It has none in"
    " load cases without tension, moment and torsion on two or more fasteners 10 d apart along the shear, in uncracked"
    " concrete, where the grout has the strength of the concrete and 30 N/mm2 at least, is stated to fill the space"
    " (attachment.grout_fills), and is no thicker than 40 mm and 5 d.",
    "EN 1992-4 6.2.2.3(2)",
)
FASTENER_C2_TAKEN = finding(
    "performance-category-c2-taken",
    Severity.NOTE,
    "No seismic performance category is stated: C2 is taken, the stricter one. Where a_g S and the class of importance"
    " allow C1, state it, or them.",
    "EN 1992-4 Table C.1",
)
FASTENER_CATEGORY_BY_TABLE = finding(
    "performance-category-by-table",
    Severity.NOTE,
    "No seismic performance category is stated: it is that of the table for the a_g S, the class of importance and the"
    " kind of connection.",
    "EN 1992-4 Table C.1",
)
FASTENER_CATEGORY_WEAK = finding(
    "performance-category-below-table",
    Severity.VIOLATION,
    "C1 is stated, and for this a_g S, class of importance and kind of connection the table asks for C2.",
    "EN 1992-4 Table C.1",
)
FASTENER_VERY_LOW = finding(
    "very-low-seismicity",
    Severity.NOTE,
    "With a_g S of 0.05 g or less the table asks for no category: earthquake is checked all the same because a load of"
    " it is stated, in category C1 unless C2 is stated.",
    "EN 1992-4 Table C.1",
)
FASTENER_ELASTIC_DESIGN = finding(
    "seismic-elastic-design",
    Severity.CAUTION,
    "Elastic design: the earthquake load stated must be that of elastic behaviour of fixture and structure, with the"
    " amplification that the standard asks for: it isn't multiplied here.",
    "EN 1992-4 9.2",
)
FASTENER_CAPACITY_DESIGN = finding(
    "seismic-capacity-design",
    Severity.CAUTION,
    "Capacity design: the engineer shows that the attached element, or what it is fixed to, yields at the load taken,"
    " with its overstrength.",
    "EN 1992-4 9.2",
)
FASTENER_SHAKEN_BESIDE = finding(
    "shaken-beside",
    Severity.NOTE,
    "No earthquake is stated here, but of a near point: in its load cases this one is checked as under earthquake,"
    " in the category of that one unless it states its own.",
    "reading 30",
)
FASTENER_CRACKED_BY_EARTHQUAKE = finding(
    "cracked-under-earthquake",
    Severity.NOTE,
    "The concrete is stated to be uncracked: in load cases with earthquake it is taken as cracked.",
    "EN 1992-4 9.1",
)
FASTENER_DISPLACEMENT = finding(
    "displacement-not-checked",
    Severity.CAUTION,
    "Category C2 also asks for displacements, of the data of the product: they aren't checked.",
    "EN 1992-4 annex C",
)
FASTENER_FIRE = finding(
    "checked-in-fire",
    Severity.CAUTION,
    "The fasteners are checked in fire by annex D. Not checked in fire: the product's own assessment, which may give"
    " other resistances, spalling, the fixture, the rod and what hangs, the member itself.",
    "EN 1992-4 annex D, from memory",
)
FASTENER_FIRE_BESIDE = finding(
    "in-fire-beside",
    Severity.NOTE,
    "No fire rating as long is asked for here, but of a near point: this one is checked beside it as in the same fire.",
    "reading 30",
)
FASTENER_FIRE_CLASS = finding(
    "fire-class-raised",
    Severity.NOTE,
    "Annex D has the classes R30, R60, R90 and R120: the next longer one counts.",
    "EN 1992-4 annex D, from memory",
)
FASTENER_FIRE_EDGE = finding(
    "fastener-edge-below-minimum-in-fire",
    Severity.VIOLATION,
    "An edge is nearer than the resistances in fire hold for: 2 h_ef, and 300 mm where more than one side of the member"
    " is exposed. Where it is one, state environment.fire_sides.",
    "EN 1992-4 annex D, from memory",
    "length",
)
FASTENER_FIRE_CARBON = finding(
    "fire-steel-as-carbon",
    Severity.NOTE,
    "In fire the steel is taken as carbon steel: its data don't say that it is stainless steel of A4 or better.",
    "EN 1992-4 annex D, from memory",
)
FASTENER_FIRE_PULL_OUT = finding(
    "fire-pull-out-as-cone",
    Severity.NOTE,
    "The data say that pull-out doesn't come first, which they don't say of fire: N_Rk,p is taken there as N0_Rk,c in"
    " cracked C20/25.",
    "EN 1992-4 annex D, from memory",
)
