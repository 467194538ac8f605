"""Defaults that were taken."""

from hangpoint.core.vocabulary.words import Listed, say


class Assumption(Listed):
    """A default taken because the request is silent. Each that was taken is listed with the point."""

    CRACKED = say("cracked-assumed", "The concrete is taken as cracked.", "reading 0")
    NO_SUPPLEMENTARY = say(
        "no-supplementary-reinforcement-assumed", "No supplementary reinforcement is taken to be present.", "reading 0"
    )
    SUSTAINED = say("sustained-assumed", "The whole factored load is taken as sustained.", "reading 0")
    NO_EARTHQUAKE = say("no-earthquake-share-assumed", "No part of the factored load is taken as earthquake.")
    OVERHEAD = say("overhead-assumed", "The anchor is taken to hang from a soffit.", "reading 0")
    F_C = say("f-c-assumed", "The concrete's strength is taken as 2,500 psi (17.2 MPa).", "reading 0")
    LAMBDA = say("lambda-by-density", "lambda follows from the density class.", "19.2.4")
    RUN_MODEL = say(
        "larger-run-model",
        "The reaction of the run is the larger of the tributary and the continuous model.",
        "reading 33",
    )
    ROD_RULE = say(
        "rod-rule-defaulted",
        "The load on the rod is checked by the newer allowable of the hanger standard, for no rule for it is named.",
        "reading 34",
    )
    ROD_MATERIAL = say(
        "rod-material-unknown", "The rod's grade is not stated: F_u is taken as 50 ksi (345 MPa).", "reading 34"
    )
    CONTENTS_WATER = say("contents-water-assumed", "A sprinkler line is taken as filled with water.", "reading 29")
    PIPE_SHORT = say(
        "pipe-weight-short",
        "Ductile iron is weighed as bare barrel, without bells, flanges and lining, and PVC of NPS 18 to 24 comes out"
        " 1.7 % below published weights: state an allowance.",
        "pipe standard",
    )
    EMPTY_UNTESTED = say(
        "empty-pipe-not-tested",
        "The pipe is stated empty, and nothing of a test: it is taken as never filled with water. State hydrotest.",
    )
    NO_INSULATION = say("no-insulation-assumed", "The pipe is taken as bare.", "")
    NO_ALLOWANCE = say("no-allowance-assumed", "No allowance for fittings and valves is added.", "")
    SINGLE_ANCHOR = say("single-anchor-assumed", "The hang point has one anchor.", "")
    STRAIGHT_RUN = say("straight-run-assumed", "The run is straight, level and prismatic.", "reading 33")
    POINT_LOAD_DEAD = say("point-load-dead-assumed", "A point load that states no nature is taken as dead load.")
    CONTENTS_AS_DEAD = say("contents-factored-as-dead", "Contents have the factor of dead load.", "common practice")
    MASS_BY_GRAVITY = say(
        "mass-by-standard-gravity", "A mass in kg stated for a weight is converted by 9.80665 m/s2.", "standard gravity"
    )
    C_AC_BY_CODE = say("c-ac-by-code", "c_ac of the product is not stated: Table 17.9.5 is taken.", "17.9.5")
    K_C_BY_CODE = say("k-c-by-code", "The product states no k_c of its own: 17 is taken.", "17.6.2.2.1")
    F_C_REF = say(
        "f-c-ref-assumed",
        "The product's pullout strength or bond grows with f'c and doesn't say of which concrete it is: 2,500 psi (17.2"
        " MPa) is taken. Where it was tested in a stronger one it holds less: state f_c_ref.",
        "common practice",
    )
    LAMBDA_ON_PULLOUT = say(
        "lambda-on-pullout",
        "In lightweight concrete lambda_a also reduces the pullout strength by tests.",
        "reading 2",
    )
    N_P_EQ = say(
        "pullout-by-seismic-tests",
        "In seismic design categories C to F the pullout strength is that of the simulated seismic tests.",
        "reading 5",
    )
    OBLIQUE_SHEAR = say(
        "oblique-shear-as-vector",
        "At an edge the ratios of shear towards and along it are combined as the sides of a right angle.",
        "reading 14",
    )
    SHEAR_STEEL = say(
        "shear-steel-by-formula",
        "The product states no steel strength in shear by tests: 0.6 A_se f_uta is taken, and no sleeve in the shear"
        " plane.",
        "17.7.1.2(b)",
    )
    FLUSH = say(
        "flush-attachment-assumed", "The attachment is taken to bear on the base, without gap, grout pad or weld."
    )
    NO_DISTANCE_SLEEVE = say(
        "no-distance-sleeve-assumed",
        "The product's data don't say whether a distance sleeve stands apart from the expansion sleeve: none is taken,"
        " so that l_e is up to 8 d_a in shear near an edge; with one it is 2 d_a.",
        "17.7.2.2.1",
    )
    NO_EDGE_REINFORCEMENT = say(
        "no-edge-reinforcement-assumed", "No reinforcement is taken to run along the edge.", "reading 0"
    )
    EDGE_REINFORCEMENT = say(
        "edge-reinforcement-at-every-edge",
        "The reinforcement along the edge is taken to run along every edge that is stated.",
        "Table 17.7.2.5.1",
    )
    CONCRETE_AGE = say(
        "concrete-age-assumed", "The concrete is taken to be old enough for the adhesive at installation.", "17.2.2"
    )
    BOND_CONDITION = say(
        "least-bond-assumed",
        "Of the temperature ranges and conditions of the hole that are not stated, the one with the least bond is"
        " taken.",
        "reading 0",
    )
    NO_PLATE = say(
        "no-plate-assumed",
        "No plate is stated: the anchors share the load as under a rigid plate that does not touch the base.",
    )
    PLATE_ON_CONCRETE = say("plate-on-concrete-assumed", "The plate is taken to bear on the base.", "reading 22")
    RIGID_PLATE = say(
        "rigid-plate", "The plate is taken as rigid, and the load is distributed by elastic analysis.", "17.2.1"
    )
    LIGHTWEIGHT_MODULUS = say(
        "lightweight-modulus-assumed",
        "Under the plate E_c of lightweight concrete is taken for 110 lb/ft3 (1,760 kg/m3); the forces of the anchors"
        " hardly depend on it.",
        "19.2.2.1",
    )
    EDGES_FROM_ORIGIN = say(
        "edges-from-layout-origin", "The distances to the edges are measured from the origin of the layout."
    )
    ALL_RESIST = say(
        "all-anchors-resist-shear", "Every anchor is taken to resist shear along both axes: no hole is slotted or wide."
    )
    GROUP_AREA = say(
        "group-area-by-union",
        "The projected area of a group is the union of the squares of its anchors, cut at the edges.",
        "reading 8",
    )
    GROUP_SUBSETS = say(
        "groups-and-their-parts",
        "The chain of anchors that act together is judged, and also each anchor alone and with its direct neighbours.",
        "reading 6",
    )
    EDGE_ROWS = say(
        "edge-rows",
        "Of rows parallel to an edge the nearest takes its own shear, or all of it where the next row is nearer to it"
        " than the edge is, and each further row that of all rows up to it; welded to the attachment only the farthest"
        " row is judged, with all of the shear.",
        "reading 12",
    )
    EARTHQUAKE_REVERSES = say(
        "earthquake-reverses",
        "The earthquake part of shear, and of moments about the centre of the anchors, is also checked acting the other"
        " way, with the tension as it is.",
    )
    EARTHQUAKE_PULLS = say(
        "earthquake-pulls", "Tension of nature earthquake is taken to pull, whichever way it is stated.", "ASCE 7 2.3.6"
    )
    NATURE_TOGETHER = say(
        "one-nature-together",
        "The numbers have all loads of one nature together, those that are stated against each other too. But for dead"
        " load and earthquake each may be absent: that they hold without those against them is checked as well.",
    )
    WIND_AS_GIVEN = say("wind-as-given", "Wind acts as stated only: state the other way as another point.")
    THERMAL_STAYS = say(
        "thermal-load-stays",
        "Thermal load is taken to stay: factor 1.2 beside dead and live load, 1.0 beside all others, or absent.",
        "ASCE 7 2.3.4",
    )
    THERMAL_STAYS_EN = say(
        "thermal-load-stays-en1990",
        "Thermal load is taken to stay: factor 1.5 where it leads, 0.9 beside another load that leads, or absent.",
        "EN 1990 tables A1.1 and A1.2(B)",
    )
    ALIKE_IDS = say(
        "alike-ids", "Ids that differ in capitals or spaces only are taken as those of different points.", ""
    )
    MEMBER_BY_LEVEL = say(
        "member-by-level",
        "Points of one level that name no member are taken to be in one member, with their anchors in its face.",
        "reading 30",
    )
    COORDINATES_AS_STATED = say(
        "coordinates-as-stated",
        "Coordinates are taken in the unit that is stated, in which points of one member lie more than 2,000 ft (610 m)"
        " apart: if another is meant, points near each other were not found.",
        "reading 30",
    )
    SERVICE_COMBINATIONS = say(
        "service-combinations-for-tables",
        "This point goes by allowable loads: its service loads are combined by the allowable-stress combinations.",
        "ASCE 7 2.4.1",
    )
    TABLE_PRACTICE = say(
        "table-is-common-practice",
        "An allowable load by mean ultimate and safety factor in concrete is common practice, not chapter 17.",
        "reading 31",
    )
    MASONRY_STRENGTH = say("masonry-strength-assumed", "f'm is taken as 1,500 psi (10.3 MPa).", "reading 0")
    MASONRY_EDITION = say(
        "masonry-edition-defaulted",
        "The bolt in masonry is checked by TMS 402-16; 402-13 has lower crushing strengths.",
    )
    MASONRY_FACE = say(
        "masonry-face-assumed",
        "The anchor is taken to stand in the face of a unit in the side of a wall.",
        "reading 0",
    )
    CELLS_GROUTED = say(
        "cells-grouted-assumed",
        "The cells and head joints around the anchor in grouted masonry are taken to be filled as far as it reaches. Of"
        " a partly grouted wall state the nearest open cell on each side: it counts as an edge.",
        "reading 0",
    )
    TABLE_OF_SIDE = say(
        "table-in-any-face-assumed",
        "The table is taken to hold in the top or the soffit of masonry. Most are of tests in the side of a wall: look"
        " at what the data of the product say.",
        "common practice",
    )
    PLANK_NORMALWEIGHT = say(
        "plank-normalweight-assumed",
        "The plank is taken to be of normalweight concrete, which the tables of planks are for.",
        "reading 0",
    )
    ANCHORS_ALONE = say(
        "anchors-by-elastic-share",
        "Each anchor is judged by its elastic share of the load; that they stand near each other counts by the limits"
        " and factors of the table alone.",
        "common practice",
    )
    NOT_POST_TENSIONED = say(
        "not-post-tensioned-assumed",
        "The member is taken not to be post-tensioned: say yes, no or unknown, and have the place scanned.",
        "reading 0",
    )
    DRY_INDOORS = say("dry-indoors-assumed", "The anchor is taken to live in dry air indoors.", "reading 0")
    DECK_BY_TESTS = say(
        "deck-by-tests",
        "In the flute of a deck the strengths are those tested there, in tension scaled with f'c; nothing is added for"
        " a second flute or for the sheet.",
        "reading 37",
    )
    ANNULAR_GAP = say(
        "annular-gap-assumed",
        "In shear under earthquake fasteners are taken to stand in holes with clearance: alpha_gap is 0.5, 1.0 where"
        " attachment.annular_gap says filled or studs are welded.",
        "reading 0",
    )
    SUSTAINED_SHARE = say(
        "sustained-share-assumed",
        "Of the load on bonded fasteners dead load and contents last in full, imposed load of unknown category with"
        " psi_2 0.8, snow with 0.2: where these act, that share of all that isn't dead load and contents is taken to"
        " last. In pry-out all of the load is. The rules of 7.2.1.6 are from memory.",
        "EN 1992-4 7.2.1.6",
    )
    PSI0_SUS = say(
        "psi0-sus-assumed",
        "The data of the bonded fastener don't say how it holds a load that lasts: psi0_sus is 0.6.",
        "EN 1992-4 7.2.1.6",
    )
    STRUCTURAL = say(
        "structural-connection-assumed",
        "In Table C.1 the connection is taken as one of structural elements, which asks for no less than that of what"
        " is not structural.",
        "EN 1992-4 Table C.1",
    )
    LEVER_ARM = say(
        "free-to-turn-assumed",
        "In shear with a lever arm the fixture is taken to be free to turn: alpha_M is 1.0, 2.0 where"
        " attachment.turning says held. a_3 is half of the diameter, 0 where attachment.clamped says that nuts clamp"
        " the fasteners to the concrete.",
        "reading 0",
    )
    EN_EARTHQUAKE = say(
        "en1992-4-earthquake",
        "Earthquake is stated as its design value A_Ed, its vertical part with it. Beside it dead load and contents act"
        " in full, imposed load of unknown category with psi_2 0.8, snow with 0.2. R_k,eq is alpha_gap alpha_eq R0_k,eq"
        " by Table C.3 in cracked concrete, with the gamma_M of static loads; all ratios of tension and of shear add up"
        " (k_15 is 1); k_7 reduces the shear of groups too, and N_Rk,p,eq doesn't grow with the concrete. Whether Table"
        " C.1 asks for C2 is judged only where a_g S and the class of importance are stated. Several of these rules are"
        " from memory.",
        "EN 1990 (6.12b), EN 1992-4 annex C",
    )
    EN_FIRE = say(
        "en1992-4-fire",
        "In fire dead load and contents act in full, one load leads with psi_1 (imposed load of unknown category 0.9,"
        " snow 0.5, temperature 0.5, wind 0.2), others accompany it with psi_2. gamma_M,fi is 1.0; the concrete is"
        " cracked, of C20/25 at most; s_cr,N is 4 h_ef. Of cones h_ef/200 is left, of pull-out and edges a quarter, at"
        " R120 four fifths of that. Splitting isn't checked: reinforcement is taken to keep cracks to 0.3 mm; nor is"
        " blow-out, which the least edge distances leave no room for. Values by psi_1, not psi_2, and all rules of"
        " annex D are from memory.",
        "EN 1990 (6.11b), EN 1992-4 annex D",
    )
    FIRE_SIDES = say(
        "fire-on-several-sides-assumed",
        "There is an edge, and how many sides of the member are exposed to fire isn't stated: more than one is taken,"
        " for which edges have to be 300 mm away. State environment.fire_sides.",
        "reading 0",
    )
    FIRE_GIVEN = say(
        "given-loads-in-fire-assumed",
        "Loads as given are taken in fire in full, without their earthquake. In the accidental situation of EN 1990"
        " (6.11b) less acts as a rule: state loads by nature to have it combined.",
        "EN 1990 (6.11b), from memory",
    )

    # Of the request as a whole, at the end: a point has no flag of these, and of flags no more than 64.
    DESIGN_CODE = say("design-code-defaulted", "The design code is ACI 318-19, chapter 17.")
    COMBINATIONS = say(
        "combinations-defaulted", "Loads are service loads by nature and are combined by the strength combinations."
    )
    LOAD_STANDARD = say(
        "load-standard-defaulted", "Snow is combined by ASCE 7-16; 7-22 has it at strength level.", "ASCE 7-16 2.3.1"
    )
    EN_RESISTANCES = say(
        "en1992-4-choices",
        "Partial factors are the recommended values of Table 4.1, gamma_c 1.5; psi_M,N isn't taken, psi_re,V is 1.0;"
        " f_ck of post-installed fasteners counts to 60 N/mm2. Unless base.bar_spacing says wide, bars are taken to be"
        " close: psi_re,N is 0.5 + h_ef/200. Unless options.near_row says own_share, the row nearest to an edge takes"
        " all shear there. No earthquake acts unless one is stated.",
        "EN 1992-4, readings 24 to 28",
    )
    EN_FACTORS = say(
        "en1990-recommended-factors",
        "Load factors are the recommended values of EN 1990, held from memory: a National Annex may state others."
        " Imposed load and the contents of pipes accompany other loads in full (psi_0 1.0), snow as above 1000 m.",
        "EN 1990 tables A1.1 and A1.2(B)",
    )
    NEIGHBOURS_OF_REQUEST = say(
        "neighbours-of-the-request",
        "Only the points of one request are compared as neighbours: what else hangs in a member is not known here.",
        "reading 30",
    )
    INVALID_NOT_NEAR = say(
        "invalid-points-not-near",
        "Points of the request that are invalid are taken to be no neighbours: mend them and ask again.",
        "reading 30",
    )
