"""What an installation card says beside the data of its product, by how the anchor holds.

Each sentence that is not of a named rule is common practice without a source, or from memory, and the card says so:
"to be confirmed" is from memory.
Old rules of thumb for edge and spacing in embedments are not among them: the data and 17.9 decide (reading 45).
"""

from collections.abc import Mapping, Sequence
from typing import NamedTuple

from hangpoint.product.family import Principle
from hangpoint.product.principles import CAST_IN, PINS

PRINCIPLE_TEXTS: Mapping[Principle, str] = {
    "torque_controlled_expansion": "Expansion anchor, torque-controlled: the torque draws the cone into the sleeve.",
    "displacement_controlled_expansion": "Expansion anchor, displacement-controlled: the blow drives the plug.",
    "undercut": "Undercut anchor: it bears on a widening of the hole.",
    "screw": "Concrete screw: its thread cuts into the wall of the hole.",
    "adhesive": "Adhesive anchor: the cured adhesive bonds the rod to the wall of the hole.",
    "headed_cast_in": "Headed anchor, cast in.",
    "hooked_cast_in": "Hooked anchor, cast in.",
    "cast_in_insert": "Threaded insert, cast in.",
    "driven_pin": "Pin driven by a tool.",
    "hammer_set_pin": "Pin set with a hammer.",
}

INVENTED_BANNER = "INVENTED DATA. A specimen: nothing may be built by this card."
SUPPLIED_BANNER = "Data as supplied: compare them with the current document and with what came in the package."
NO_SOURCE_BANNER = "Data without document and date: do not set by this card before both are stated."

AT_A_BAR: tuple[str, ...] = (
    "Stop drilling. Reinforcement or a tendon is never cut or drilled through.",
    "Tell the foreman and the engineer: damage to steel, and every contact with a tendon, is theirs to judge.",
    "A tendon was touched: leave the place at once, keep others away, call the engineer.",
    "Have the office check the new place, edges and neighbours, before drilling.",
    "Fill the given-up hole with high-strength mortar as the engineer says, and write down where it is.",
)
"""Common practice, from memory; the engineer's policy for a struck bar stands above it."""

AT_A_BAR_CAST_IN = (
    "Reinforcement or a tendon in the way: neither is cut, bent or pushed aside, and the anchor is not moved.",
    "Tell the foreman and the engineer before the concrete or grout is placed.",
    "Have the office check the new place, edges and neighbours first.",
)


def at_a_bar(principle: Principle) -> list[str]:
    """What is done at reinforcement or a tendon, by how the anchor comes into the base."""
    if principle in CAST_IN:
        return list(AT_A_BAR_CAST_IN)
    return [text.replace("drilling", "driving") for text in AT_A_BAR] if principle == "driven_pin" else list(AT_A_BAR)


SILICA = (
    "Silica dust: shroud and extractor with the airflow that the tool's maker asks, a filter of 99 % or better with a"
    " cleaning mechanism, a HEPA vacuum for holes (29 CFR 1926.1153, Table 1), or as the local rule asks."
    " No blowing out by mouth."
)
SILICA_IN_SHORT = (
    "Drilling frees silica dust: work with shroud and extractor, as 29 CFR 1926.1153 or the local rule asks."
)
"""What data say of it where they say no more than `SILICA`."""
POWDER = (
    "Powder-actuated tool: trained operators only, tested each day before loading, shield on, loaded only to fire,"
    " never into soft, hard or brittle material (29 CFR 1926.302(e), to be confirmed). A charge that does not fire:"
    " hold the tool on the base for half a minute, then do as its instructions say (to be confirmed)."
)
POWERED = (
    "Driven by powder, gas or battery: never where gas, vapour or dust may explode; the power level by trial, from the"
    " lowest up (29 CFR 1926.302(e), to be confirmed)."
)
OVERHEAD = "Overhead: eye protection, nobody below, a lift or scaffold that stands; an anchor that fails can kill."
DECIDES = "The product's current instructions, the engineer of record and the local code stand above this card."

EUROPEAN = (
    "The figures are by European assessment: the least distances are theirs, and what is stated of the place was"
    " compared with them by EN 1992-4."
)

RETORQUE = (
    "Torque falls by itself after setting, to half or so: a later reading below the installation torque alone is no"
    " failure. It is not tightened again unless the engineer says so (common practice, no source)."
)
NOT_REUSED = "An anchor that was taken out is not set again, and nothing else is set in its hole."
ROD_IS_NO_PROOF = (
    "A rod that can be turned in does not show that the anchor is set. If one is found unset, check the whole row"
    " before loading."
)


class Inspection(NamedTuple):
    """How often an inspector looks, by which rule."""

    kind: str
    clause: str
    text: str


CONTINUOUS = Inspection(
    "continuous",
    "IBC Table 1705.3; ACI 318-19 26.13.3.2(e) (to be confirmed)",
    "An inspector is present for every anchor: adhesive, horizontal or upwards, under tension that stays.",
)
PERIODIC = Inspection(
    "periodic",
    "IBC Table 1705.3; ACI 318-19 26.13 (to be confirmed)",
    "An inspector looks at intervals: product, hole, cleaning, embedment, edge, spacing, torque.",
)
PERIODIC_CAST_IN = Inspection(
    "periodic",
    "IBC Table 1705.3; ACI 318-19 26.13 (to be confirmed)",
    "An inspector looks before and while concrete is placed: place, embedment, fixing to the form.",
)
_OF_EXECUTION = "EN 1992-4 annex F, from memory; who inspects and how often, the project says (to be confirmed)"
BY_ENGINEER = Inspection(
    "by_engineer",
    "outside ACI 318-19 chapter 17 (17.1.5)",
    "The table of inspections does not name these pins: the engineer says what is inspected and pulled.",
)


IN_MASONRY = Inspection(
    "periodic",
    "IBC 1705.4; TMS 402 and TMS 602 quality assurance (from memory)",
    "An inspector looks at intervals: product, unit and place in it, hole, embedment, distance to joints and edges.",
)
CAST_IN_MASONRY = Inspection(
    "periodic",
    "IBC 1705.4; TMS 402 and TMS 602 quality assurance (from memory)",
    "An inspector looks before the grout is placed: type, size, place and embedment of the bolt, the clean cell.",
)
SET_IN_GROUT: tuple[str, ...] = (
    "Hold the bolt at its place and depth in the clean cell or bond beam before the grout, with grout all around it.",
    "Survey its place before the grout and after it.",
    "Tighten the nut snug only, once the grout has hardened.",
)
"""Instead of the steps for formwork (common practice, no source)."""


def setting_of(*, principle: Principle, base: str, steps: Sequence[str]) -> list[str]:
    """Steps of setting in a base: those of the data, which for cast-in anchors speak of formwork."""
    return list(SET_IN_GROUT if principle in CAST_IN and base == "masonry" else steps)


def inspection(*, principle: Principle, face: str, base: str = "concrete", european: bool = False) -> Inspection:
    """Inspection of an anchor in a ``face``. Tension is taken as one that stays, as blank cells are (reading 0).

    ``european``: its figures are for EN 1992-4, which names no inspector.
    """
    if european:
        looked_at = PERIODIC_CAST_IN if principle in CAST_IN else PERIODIC
        return looked_at._replace(clause=_OF_EXECUTION)
    if base == "masonry" and principle not in PINS:
        return CAST_IN_MASONRY if principle in CAST_IN else IN_MASONRY
    if principle == "adhesive":
        return CONTINUOUS if face in ("soffit", "side") else PERIODIC
    if principle in CAST_IN:
        return PERIODIC_CAST_IN
    return BY_ENGINEER if principle in PINS else PERIODIC
