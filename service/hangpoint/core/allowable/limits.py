"""Where a table of allowable loads ends: what is nearer, thinner or weaker than its tests is a violation. in, psi."""

import numpy as np

from hangpoint.core.outcome import FindingColumn, below
from hangpoint.core.quantity import Bools, Floats
from hangpoint.core.vocabulary import Finding


def table_findings(
    *,
    checked: Bools,
    c_a: Floats,
    spacing: Floats,
    thickness: Floats,
    f_base: Floats,
    joint: Floats,
    cover: Floats,
    strand: Floats,
    face_shell: Floats,
    one_a_cell: Bools,
    c_least: Floats,
    s_least: Floats,
    h_least: Floats,
    f_least: Floats,
    joint_least: Floats,
    cover_least: Floats,
    strand_least: Floats,
    shell_least: Floats,
) -> list[FindingColumn]:
    """Findings of points that go by a table, (points,) each.

    Args:
        checked: the point goes by a table and is checked.
        c_a: nearest edge of any anchor; ``spacing`` the nearest two anchors; infinite where there is none.
        thickness, f_base, joint, cover, strand, face_shell: of the base, infinite where none matters.
        one_a_cell: the least spacing is the width of a cell.
        c_least, s_least, h_least, f_least, joint_least, cover_least, strand_least, shell_least: limits of the tables.
    """
    near = below(spacing, limit=s_least)
    compared = (
        (Finding.TABLE_EDGE, c_a, c_least, below(c_a, limit=c_least)),
        (Finding.TABLE_SPACING, spacing, s_least, near & ~one_a_cell),
        (Finding.ONE_A_CELL, spacing, s_least, near & one_a_cell),
        (Finding.TABLE_THICKNESS, thickness, h_least, below(thickness, limit=h_least)),
        (Finding.TABLE_STRENGTH, f_base, f_least, below(f_base, limit=f_least)),
        (Finding.TABLE_JOINT, joint, joint_least, below(joint, limit=joint_least)),
        (Finding.TABLE_COVER, cover, cover_least, below(cover, limit=cover_least)),
        (Finding.TABLE_STRAND, strand, strand_least, below(strand, limit=strand_least)),
        (Finding.TABLE_FACE_SHELL, face_shell, shell_least, below(face_shell, limit=shell_least)),
    )
    return [
        FindingColumn(finding=finding, holds=below & checked, value=np.where(below, value, 0.0), limit=limit)
        for finding, value, limit, below in compared
    ]
