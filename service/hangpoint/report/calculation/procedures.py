"""How the numbers of a trace that no single formula gives are found, a sentence each."""

from collections.abc import Mapping

PROCEDURES: Mapping[str, str] = {
    "beam_reaction": "Reaction at this support by each model: tributary length, a beam hinged over the supports,"
    " a continuous beam of one stiffness.",
    "compression_resultant": "Sum of the pressures under the plate and of the forces of pushed anchors, and its place.",
    "cut_circle": "Area of the circle around the bolt within the edges; what it shares with the circles of neighbours"
    " is divided between them.",
    "cut_half_circle": "Area of the half circle in the face of the edge, cut at its sides and at the far face of the"
    " member; what it shares with the half circles of neighbours is divided between them.",
    "edge_area": "Area on the side face: 1.5 times its distance to each side of the outer anchors and as deep, cut"
    " at edges and at the far face, at most that of as many single anchors.",
    "largest_spacing": "The largest distance between anchors of the set that are next to each other.",
    "plate_residual": "What is left of the load when plate and anchors are in balance.",
    "polar_sum": "Sum of the squares of the distances from the centre of the anchors that resist shear.",
    "projected_area": "Area of the united squares around the anchors of the set, cut at the edges, at most that of as"
    " many single anchors.",
    "resisting_anchors": "The anchors that resist shear in each direction, slots left out: their number, their centre.",
    "row_along": "The largest ratio along the edge of a set of this row in which anchors count that are not pushed to"
    " the edge; 0 where there is none.",
    "row_extent": "Distance of the outer anchors of the row along the edge.",
    "row_shear": "Sum of the shears of the anchors of the set that act so at this edge, and what nearer rows bring,"
    " shared by the lever; of the nearest row all of it where the next is nearer to it than the edge, of a welded"
    " attachment all of it in the farthest.",
    "shear_eccentricity": "Distance of the resultant shear of the set from the centre of its anchors, along the edge.",
    "shear_resisted": "Whether there are anchors that can hold the shear and the torsion.",
    "sprinkler_rod_diameter": "The rod that the sprinkler standard lists for this size of pipe.",
    "stress_plane": "The plane of stress with which plate, concrete in compression alone and anchors are in balance.",
    "tension_eccentricity": "Distance of the resultant tension from the centre of the anchors in tension.",
    "tension_resultant": "Sum of the tensions of the anchors, and its place.",
    "tensioned_anchors": "The anchors in tension: their number, their centre.",
}
"""Sentences by the names of procedures that traces of hang points have."""
