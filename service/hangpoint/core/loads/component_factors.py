"""Coefficients of mechanical and electrical components: a_p, R_p, Omega_0 of ASCE 7-16, Table 13.6-1.

a_p and R_p of the rows of equipment agree with a reprint of ASCE 7-10's table; every other figure, and Omega_0
throughout, is from memory, and each row says so. Two permits that were read use 2.5 and 6 for sheet-metal units.
Coefficients of ASCE 7-22 (C_AR, R_po, Omega_0p) are not tabulated here: a request of that edition states them, and so
does a request for any component that isn't listed. Dimensionless.
"""

from typing import NamedTuple


class ComponentFactors(NamedTuple):
    """Amplification, response modification and overstrength of a kind of component, and which kind."""

    a_p: float
    r_p: float
    omega_0: float
    text: str
    from_memory: bool = True


ISOLATED = ("spring_isolated", "isolated_in_line")
"""Names of components on isolators."""

CEILING = "ceiling"
"""The architectural component of the list."""

NO_LINES = ("air_side", "wet_side", "pump", CEILING, *ISOLATED)
"""Names of components that are no distribution system."""

FACTORS_16: dict[str, ComponentFactors] = {
    "air_side": ComponentFactors(
        2.5, 6.0, 2.0, "Air-side equipment of sheet metal framing: fans, air handlers, air conditioners, air boxes."
    ),
    "wet_side": ComponentFactors(
        1.0, 2.5, 2.0, "Wet-side equipment: boilers, chillers, water heaters, heat exchangers."
    ),
    "pump": ComponentFactors(1.0, 2.5, 2.0, "Pumps, compressors, engines, turbines."),
    "ceiling": ComponentFactors(1.0, 2.5, 2.0, "Suspended ceilings (Table 13.5-1)."),
    "spring_isolated": ComponentFactors(2.5, 2.0, 2.0, "Components on springs, closely restrained by snubbers."),
    "isolated_in_line": ComponentFactors(
        2.5,
        2.5,
        2.0,
        "Suspended equipment on isolators in line with duct, and suspended internally isolated equipment.",
    ),
    "pipe_b31_welded": ComponentFactors(2.5, 12.0, 2.0, "Piping to ASME B31, joints welded or brazed."),
    "pipe_b31_threaded": ComponentFactors(
        2.5, 6.0, 2.0, "Piping to ASME B31, joints threaded, bonded, compression couplings or grooved couplings."
    ),
    "pipe_ductile_welded": ComponentFactors(
        2.5, 9.0, 2.0, "Other piping of high deformability, joints welded or brazed."
    ),
    "pipe_ductile_threaded": ComponentFactors(
        2.5, 4.5, 2.0, "Other piping of high or limited deformability, joints threaded, bonded, grooved or coupled."
    ),
    "pipe_brittle": ComponentFactors(
        2.5, 3.0, 2.0, "Piping of low deformability: cast iron, glass, nonductile plastics."
    ),
    "duct_welded": ComponentFactors(2.5, 9.0, 2.0, "Duct of high deformability, joints welded or brazed."),
    "duct": ComponentFactors(2.5, 6.0, 2.0, "Duct of high or limited deformability, joints by other means."),
    "raceway": ComponentFactors(2.5, 6.0, 2.0, "Electrical conduit and cable tray."),
    "bus_duct": ComponentFactors(1.0, 2.5, 2.0, "Bus duct."),
    "plumbing": ComponentFactors(1.0, 2.5, 2.0, "Plumbing."),
}
"""By name: a_p, R_p, Omega_0."""
