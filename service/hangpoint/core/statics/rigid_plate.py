"""Forces of anchors and concrete under a rigid plate with axial force and moments about both axes.

Elastic analysis as ACI 318-19 17.2.1 and EN 1992-4 6.2.1 ask for. Units: in, lbf, psi, lbf*in.

Taken for granted: the plate is rigid and stays elastic; the strains of concrete and anchors are those of one plane,
over the same length, so that only E_s/E_c decides; concrete is linear, takes compression only, under the whole
rectangle, holes not deducted; anchors have the stiffness of their stress area, are not prestressed and take tension
only, none in the compressed zone (reading 22). A plate without contact (levelling nuts, stand-off) rests on its anchors
alone, which pull and push; one that pushes is named. No shear, no prying and no bending of anchors is in it.

Limit: plates that bend raise the forces of the anchors above these. That a plate is stiff enough is for its design to
show; on pipe supports nearly half of the plates inspected were not (NRC Bulletin 79-02).

Signs: z out of the concrete, tension and N positive along it, moments right-handed about the axes x and y, N along the
z axis: N = sum T - C; M_x = sum T y - C y_C; M_y = -(sum T x - C x_C). Stress of concrete positive in compression.
"""

import numpy as np

from hangpoint.core.frozen import frozen
from hangpoint.core.quantity import Bools, Floats, Index
from hangpoint.core.statics.plate_balance import (
    PlateAnchor,
    PlateBalance,
    SustainedPlateAnchor,
    SustainedPlateBalance,
    plate_anchor,
    plate_balance,
)
from hangpoint.core.statics.plate_solution import stress_plane
from hangpoint.core.statics.tension_resultant import TensionResultant, resultant, tension_resultant

LARGEST_RESIDUAL = 1e-9


@frozen
class RigidPlate:
    """Plates by case, their anchors on the flat axis, and the tensioned anchors of each plate as one group a case."""

    balance: PlateBalance
    anchors: PlateAnchor
    tensioned: TensionResultant

    def as_sustained(self) -> "RigidPlate":
        """The same, with records that say that the load is the part which stays."""
        return RigidPlate(
            balance=SustainedPlateBalance(**vars(self.balance)),
            anchors=SustainedPlateAnchor(**vars(self.anchors)),
            tensioned=self.tensioned,
        )


def rigid_plate(
    *,
    x0: Floats,
    x1: Floats,
    y0: Floats,
    y1: Floats,
    n: Floats,
    m_x: Floats,
    m_y: Floats,
    contact: Bools,
    e_s: Floats,
    e_c: Floats,
    x: Floats,
    y: Floats,
    a_s: Floats,
    case_of_anchor: Index,
) -> RigidPlate:
    """Balance of each plate.

    Args:
        x0, x1, y0, y1: (cases,) sides of the rectangle, x0 < x1 and y0 < y1, in.
        n: (cases,) axial force at the origin of the coordinates, tension positive, lbf.
        m_x, m_y: (cases,) moments about the axes through that origin, right-handed, lbf*in.
        contact: (cases,) boolean, whether the plate bears on the concrete.
        e_s, e_c: (cases,) moduli of anchors and concrete, psi.
        x, y: (anchors,) within the rectangle (the caller excludes the rest), in.
        a_s: (anchors,) stress area, above zero, in2.
        case_of_anchor: (anchors,) in rising order.

    Returns:
        Records of the cases and of the anchors. No equilibrium is data (``in_equilibrium``), never an exception.
    """
    alpha_e = np.where(contact, e_s / e_c, 1.0)
    x_p, y_p = (x0 + x1) / 2, (y0 + y1) / 2
    m_x_p, m_y_p = m_x - n * y_p, m_y + n * x_p
    half_x, half_y = (x1 - x0) / 2, (y1 - y0) / 2
    x_p_anchor, y_p_anchor = x_p[case_of_anchor], y_p[case_of_anchor]
    alpha_e_anchor = alpha_e[case_of_anchor]
    plane, under, residual = stress_plane(
        half_x=half_x,
        half_y=half_y,
        load=np.stack((-n, m_y_p, -m_x_p)),
        on_concrete=contact,
        x=x - x_p_anchor,
        y=y - y_p_anchor,
        stiffness=alpha_e_anchor * a_s,
        case_of_anchor=case_of_anchor,
    )
    in_equilibrium = residual < LARGEST_RESIDUAL
    sigma_p, sigma_x, sigma_y = np.where(in_equilibrium, plane, 0.0)
    force, force_x, force_y = np.where(in_equilibrium, under, 0.0)
    anchors = plate_anchor(
        x=x,
        y=y,
        a_s=a_s,
        contact=contact[case_of_anchor],
        alpha_e=alpha_e_anchor,
        x_p=x_p_anchor,
        y_p=y_p_anchor,
        sigma_p=sigma_p[case_of_anchor],
        sigma_x=sigma_x[case_of_anchor],
        sigma_y=sigma_y[case_of_anchor],
        in_equilibrium=in_equilibrium[case_of_anchor],
    )
    tensioned = tension_resultant(tension=anchors.tension, x=x, y=y, group_of_anchor=case_of_anchor, group_count=len(n))
    pushed = np.flatnonzero(anchors.compressed)
    push, x_push, y_push = resultant(
        force=-anchors.tension[pushed], x=x[pushed], y=y[pushed], row=case_of_anchor[pushed], count=len(n)
    )
    bears = force > 0.0
    divisor = np.where(bears, force, 1.0)
    c = np.where(contact, force, push)
    x_c = np.where(bears, x_p + force_x / divisor, x_push)
    y_c = np.where(bears, y_p + force_y / divisor, y_push)
    t = np.where(in_equilibrium, tensioned.t, np.inf)
    return RigidPlate(
        anchors=anchors,
        tensioned=tensioned,
        balance=plate_balance(
            x0=x0,
            x1=x1,
            y0=y0,
            y1=y1,
            n=n,
            m_x=m_x,
            m_y=m_y,
            contact=contact,
            e_s=e_s,
            e_c=e_c,
            alpha_e=alpha_e,
            x_p=x_p,
            y_p=y_p,
            m_x_p=m_x_p,
            m_y_p=m_y_p,
            sigma_p=sigma_p,
            sigma_x=sigma_x,
            sigma_y=sigma_y,
            residual=residual,
            in_equilibrium=in_equilibrium,
            c=c,
            x_c=x_c,
            y_c=y_c,
            t=t,
            x_t=tensioned.x_t,
            y_t=tensioned.y_t,
        ),
    )
