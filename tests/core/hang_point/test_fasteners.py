"""The chain by EN 1992-4 from its columns, in inches and pounds, against scalar code in mm and N."""

import pytest

from core.builders import FASTENER_ROW, HEADED_FASTENER, INF
from core.en1992_4 import independent
from core.en1992_4.hang_points import MODES
from core.hang_point.verdicts import checked, governing_mode, mode_of
from hangpoint.core.hang_point.points import Basis
from hangpoint.core.vocabulary import Mode

BY_EN = Basis(factored=False, allowable=False, load_standard="en1990")
NEWTONS, MM = 4.4482216152605, 25.4
SHARED = {name: own for name, own in FASTENER_ROW.items() if "_state" not in name and name != "known"}


def scalar(fasteners, *, edge, n, v_x, v_y, cracked):
    """One fastener with dead load alone, 1.35 of it, edge below along x."""
    own = SHARED | fasteners
    state = (FASTENER_ROW | fasteners)["n_rk_p_cr_state" if cracked else "n_rk_p_ucr_state"]
    f = own | {
        "h": 12 * MM,
        "cracked": cracked,
        "pull_out_by_tests": state == 1,
        "pull_out_governs": own["headed"] or state != 2,
        "n_rk_p": own["n_rk_p_cr" if cracked else "n_rk_p_ucr"],
        "either_x": False,
        "either_y": False,
        "lever_arm": False,
        "psi_2": 0.0,
        "staying": [1.0],
        "anchors": [(0.0, 0.0)],
        "edges": (-edge * MM, INF, -INF, INF),
        "n": [1.35 * n * NEWTONS],
        "v_x": [1.35 * v_x * NEWTONS],
        "v_y": [1.35 * v_y * NEWTONS],
    }
    return independent.check(f)


@pytest.mark.parametrize("cracked", [True, False])
@pytest.mark.parametrize("edge", [1.5, 4.0, 20.0])
@pytest.mark.parametrize("v", [(0.0, 0.0), (-500.0, 300.0)])
@pytest.mark.parametrize(
    "fasteners",
    [{}, HEADED_FASTENER, {"n_rk_p_cr_state": 2, "n_rk_p_ucr_state": 2}, {"splitting_bars": True, "wide_bars": True}],
)
def test_one_fastener(fasteners, v, edge, cracked):
    hangs = {"dead": 900.0, "v_dead": v}
    bases = {"c_a": [[edge, INF, INF, INF]], "cracked": cracked}
    verdicts = checked(basis=BY_EN, hangs=hangs, bases=bases, fasteners=fasteners)
    rows = scalar(fasteners, edge=edge, n=900.0, v_x=v[0], v_y=v[1], cracked=cracked)
    most = {}
    for code, name in MODES.items():
        found = mode_of(verdicts, next(mode for mode in Mode if mode.value.code == code))
        most[code] = independent.worst(rows.get(name, []))
        assert found.utilisation[0] == pytest.approx(most[code], rel=1e-9), code
        if most[code] and not found.mode.is_ratio:
            strength, demand = max(rows[name], key=lambda row: row[1] / row[0])
            assert found.design_strength[0] * NEWTONS == pytest.approx(strength, rel=1e-9), code
            assert found.demand[0] * NEWTONS == pytest.approx(demand, rel=1e-9), code
    assert verdicts.utilisation[0] == pytest.approx(max(most.values()), rel=1e-9)
    assert most[governing_mode(verdicts).value.code] == pytest.approx(max(most.values()), rel=1e-9)
    assert verdicts.failed[0] == (max(most.values()) > 1 or edge < 2.75)
