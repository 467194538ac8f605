"""Exemptions from seismic bracing that a hanger and its line may claim. They exempt from braces, never from gravity.

Documents: ASCE 7-10, 13.1.4, 13.6.5.6, 13.6.7, 13.6.8.3, and ASCE 7-16, 13.1.4, 13.6.5, 13.6.6, 13.6.7.3, all from
memory; a rule names its edition, because 7-16 replaced the weight per foot on a trapeze by a weight per trapeze. A true
column means that the limits are kept, not that the exemption holds: each also has conditions that no number shows
(``EXEMPTIONS`` says which), so an engineer confirms every claim, and an answer lists it as a claim.

All but that of the category are for distribution systems, raceways, ducts and pipes: equipment, what is named as such
or as isolated, and ceilings have none of them. What stands on a line, a valve or a box, is a component of its own,
which 13.1.4 lets off to 20 lb. By 7-10 a duct was exempt by its area or its weight alone; the safe reading asks for
both.

Units: in, ft2, lbf, lbf/ft. Not covered: raceways across seismic joints, lines with hazardous contents, smoke control,
fire sprinklers, which have the sprinkler standard's own rules.
"""

from typing import Annotated, ClassVar, NamedTuple

import numpy as np

from hangpoint.core.quantity import Axis, Bools, Codes, Floats, Record, formula, given, record

CATEGORIES = ("A", "B", "C", "D", "E", "F")
"""Seismic design categories: labels of the codes of ``category``, in code order."""

_A, _B, _C, _D = (CATEGORIES.index(name) for name in "ABCD")


class ExemptionRule(NamedTuple):
    """A rule by the name of its column in `BracingExemptions`: clause, limits and further conditions."""

    name: str
    clause: str
    text: str
    from_memory: bool = True


_OLDER = "A rule of ASCE 7-10: look whether the edition in force has it; 7-16 and 7-22 go by rods and loads."
_FLEXIBLE = "Flexible connections where the line moves against its equipment, and positive attachment to the structure."

EXEMPTIONS: tuple[ExemptionRule, ...] = (
    ExemptionRule(
        "by_category", "ASCE 7-16 13.1.4", "Category A; categories B and C with I_p = 1.0, of ceilings B alone."
    ),
    ExemptionRule(
        "by_weight",
        "ASCE 7-16 13.1.4",
        "I_p = 1.0 and a distribution system of at most 5 lb/ft, all lines of a trapeze and what stands on them"
        f" together, nothing at one place above 20 lb. {_FLEXIBLE}",
    ),
    ExemptionRule(
        "by_short_hangers",
        "ASCE 7-10 13.6.5.6, 13.6.7, 13.6.8.3",
        "Every hanger of the run at most 12 in from its structure, with a swivel or the like against bending of the"
        f" rod. One longer hanger ends it for the whole run. {_OLDER}",
    ),
    ExemptionRule(
        "by_trapeze_weight",
        "ASCE 7-10 13.6.5.6, 13.6.7, 13.6.8.3",
        f"All lines of a trapeze, filled, and what stands on it together weigh less than 10 lb/ft. {_OLDER}",
    ),
    ExemptionRule(
        "by_rod_load",
        "ASCE 7-16 13.6.5, 13.6.6, 13.6.7.3",
        f"I_p = 1.0, single rods of 3/8 or 1/2 in at most 12 in long, at most 50 lb on any. {_FLEXIBLE}",
    ),
    ExemptionRule(
        "by_trapeze_load",
        "ASCE 7-16 13.6.5, 13.6.6, 13.6.7.3",
        "I_p = 1.0 and on any trapeze at most 100 lb with 3/8 in rods to 12 in, 200 lb with 1/2 in rods to 12 in,"
        f" 100 lb with 1/2 in rods to 24 in. {_FLEXIBLE}",
    ),
    ExemptionRule(
        "by_duct_area",
        "ASCE 7-16 13.6.6",
        "Duct of less than 6 ft2 and at most 20 lb/ft with I_p = 1.0, kept from hitting larger ducts and equipment."
        " In-line equipment that needs bracing of its own still does.",
    ),
    ExemptionRule(
        "by_pipe_size",
        "ASCE 7-16 13.6.7.3",
        "Pipe with R_p of at least 4.5, kept from hitting anything: category C to NPS 2 with I_p above 1.0; D, E, F to"
        " NPS 1 with I_p above 1.0 and to NPS 3 with I_p = 1.0.",
    ),
)

_TRAPEZE_LOAD = (
    "distributes*on_trapeze*(i_p <= 1)*max((d_rod >= 0.375)*(hanger_length <= 12)*(p_hanger <= 100),"
    " (d_rod >= 0.5)*(hanger_length <= 12)*(p_hanger <= 200),"
    " (d_rod >= 0.5)*(hanger_length <= 24)*(p_hanger <= 100)) == 1"
)


@record
class BracingExemptions(Record):
    """Which limits of an exemption from bracing are kept, one column a rule of `EXEMPTIONS`."""

    TITLE: ClassVar[str] = "Claims of exemption from seismic bracing, for the engineer to confirm"
    AXIS: ClassVar[Axis] = Axis.LOAD

    category: Annotated[Codes, given("seismic design category", labels=CATEGORIES, clause="ASCE 7-16 11.6")]
    i_p: Annotated[Floats, given("I_p", clause="ASCE 7-16 13.1.3")]
    ceiling: Annotated[Bools, given("a ceiling", clause="ASCE 7-16 13.1.4")]
    by_category: Annotated[
        Bools,
        formula(
            "category",
            "",
            "max(category == 0, (category <= where(ceiling, 1, 2))*(i_p <= 1)) == 1",
            clause="ASCE 7-16 13.1.4",
        ),
    ]
    distributes: Annotated[Bools, given("a distribution system")]
    w_line: Annotated[Floats, given("w of the line or of all on a trapeze, with what stands there", "lbf/ft")]
    p_place: Annotated[Floats, given("largest weight that stands at one place", "lbf")]
    by_weight: Annotated[
        Bools,
        formula("5 lb/ft", "", "distributes*(w_line <= 5)*(p_place <= 20)*(i_p <= 1) == 1", clause="ASCE 7-16 13.1.4"),
    ]
    hanger_length: Annotated[Floats, given("longest hanger of the run", "in")]
    bending_free: Annotated[Bools, given("no bending in the rod")]
    by_short_hangers: Annotated[
        Bools, formula("12 in", "", "distributes*(hanger_length <= 12)*bending_free == 1", clause="ASCE 7-10 13.6.8.3")
    ]
    on_trapeze: Annotated[Bools, given("on a trapeze")]
    by_trapeze_weight: Annotated[
        Bools, formula("10 lb/ft", "", "distributes*on_trapeze*(w_line < 10) == 1", clause="ASCE 7-10 13.6.8.3")
    ]
    d_rod: Annotated[Floats, given("thinnest rod", "in", clause="thread standard")]
    p_hanger: Annotated[Floats, given("largest load of a single rod or of a trapeze", "lbf")]
    by_rod_load: Annotated[
        Bools,
        formula(
            "50 lb",
            "",
            "distributes*where(on_trapeze, 0, 1)*(i_p <= 1)*(d_rod >= 0.375)*(hanger_length <= 12)*(p_hanger <= 50)"
            " == 1",
            clause="ASCE 7-16 13.6.7.3",
        ),
    ]
    by_trapeze_load: Annotated[Bools, formula("100 or 200 lb", "", _TRAPEZE_LOAD, clause="ASCE 7-16 13.6.7.3")]
    duct_area: Annotated[Floats, given("area of the duct, 0 where it is none", "ft**2")]
    by_duct_area: Annotated[
        Bools,
        formula(
            "6 ft2",
            "",
            "distributes*(duct_area > 0)*(duct_area < 6)*(w_line <= 20)*(i_p <= 1) == 1",
            clause="ASCE 7-16 13.6.6",
        ),
    ]
    nominal: Annotated[Floats, given("NPS, 0 where it is no pipe", "in", clause="pipe standard")]
    r_p: Annotated[Floats, given("R_p", clause="ASCE 7-16 Table 13.6-1")]
    nominal_max: Annotated[
        Floats,
        formula(
            "largest NPS",
            "in",
            "where(i_p <= 1, 3, where(category >= 3, 1, 2))",
            clause="ASCE 7-16 13.6.7.3",
            coefficient="in",
        ),
    ]
    by_pipe_size: Annotated[
        Bools,
        formula(
            "NPS",
            "",
            "distributes*(nominal > 0)*(nominal <= nominal_max)*(r_p >= 4.5)*(category >= 2) == 1",
            clause="ASCE 7-16 13.6.7.3",
        ),
    ]


def bracing_exemptions(
    *,
    category: Codes,
    i_p: Floats,
    ceiling: Bools,
    distributes: Bools,
    w_line: Floats,
    p_place: Floats,
    hanger_length: Floats,
    bending_free: Bools,
    on_trapeze: Bools,
    d_rod: Floats,
    p_hanger: Floats,
    duct_area: Floats,
    nominal: Floats,
    r_p: Floats,
) -> BracingExemptions:
    """Limits kept by each line, every array of shape (n,).

    ``category`` codes of `CATEGORIES`; ``distributes`` where it is raceways, ducts or pipes; weights are operating
    weights, filled and insulated, ``w_line`` of all lines of a trapeze and of what stands on them, ``p_place`` the
    largest of that at one place in lbf; ``hanger_length`` in inches is that of the longest hanger of the run, from the
    support point of the line to the structure; ``p_hanger`` the largest load in lbf on a single rod, or on a whole
    trapeze where ``on_trapeze``; ``duct_area`` in ft2 and ``nominal`` in inches are 0 where there is no duct or pipe.
    A column that is true is a claim, see the module. From memory.
    """
    ordinary, short = i_p <= 1.0, hanger_length <= 12.0
    thin, thick = d_rod >= 0.375, d_rod >= 0.5
    light, heavy = p_hanger <= 100.0, p_hanger <= 200.0
    nominal_max = np.where(ordinary, 3.0, np.where(category >= _D, 1.0, 2.0))
    trapeze_load = (thin & short & light) | (thick & short & heavy) | (thick & (hanger_length <= 24.0) & light)
    return BracingExemptions(
        category=category,
        i_p=i_p,
        ceiling=ceiling,
        by_category=(category == _A) | ((category <= np.where(ceiling, _B, _C)) & ordinary),
        distributes=distributes,
        w_line=w_line,
        p_place=p_place,
        by_weight=distributes & (w_line <= 5.0) & (p_place <= 20.0) & ordinary,
        hanger_length=hanger_length,
        bending_free=bending_free,
        by_short_hangers=distributes & short & bending_free,
        on_trapeze=on_trapeze,
        by_trapeze_weight=distributes & on_trapeze & (w_line < 10.0),
        d_rod=d_rod,
        p_hanger=p_hanger,
        by_rod_load=distributes & ~on_trapeze & ordinary & thin & short & (p_hanger <= 50.0),
        by_trapeze_load=distributes & on_trapeze & ordinary & trapeze_load,
        duct_area=duct_area,
        by_duct_area=distributes & (duct_area > 0.0) & (duct_area < 6.0) & (w_line <= 20.0) & ordinary,
        nominal=nominal,
        r_p=r_p,
        nominal_max=nominal_max,
        by_pipe_size=distributes & (nominal > 0.0) & (nominal <= nominal_max) & (r_p >= 4.5) & (category >= _C),
    )
