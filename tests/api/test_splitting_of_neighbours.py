"""Unlike fasteners by EN 1992-4 whose splitting reaches farther than their cones: areas cut between them, by hand."""

import math

import pytest
from starlette.testclient import TestClient

from hangpoint.app import create_app

CLIENT = TestClient(create_app())
BASE = {
    "kind": "concrete",
    "strength": {"class": "C20/25"},
    "density": "normalweight",
    "state": "cracked",
    "thickness": "200 mm",
    "member": "S1",
    "bar_spacing": "wide",
    "edges": {"x_minus": "none", "x_plus": "100 mm", "y_minus": "none", "y_plus": "none"},
}
WEDGE = {"family": "en-wedge-expansion-zinc", "size": "M10", "h_ef": "50 mm"}
SCREW = {"family": "en-screw-zinc", "size": "10", "h_ef": "68 mm"}


def splitting(*points):
    items = [
        {
            "id": f"P{at}",
            "at": {"level": "L1", "x": "0 m", "y": f"{y} mm"},
            "hangs": {"kind": "weight", "weight": "1 kN", "nature": "dead"},
            "anchor": anchor,
        }
        for at, (anchor, y) in enumerate(points)
    ]
    body = {"units": "si", "design_code": "en1992_4", "defaults": {"base": BASE}, "items": items}
    results = CLIENT.post("/v1/hang-points", json=body).json()["items"]
    return [next(mode for mode in each["modes"] if mode["mode"] == "en_splitting") for each in results]


def test_the_area_of_splitting_is_cut_between_unlike_fasteners():
    """M10 at 50 mm, its data: N0_Rk,sp 12 kN, c_cr,sp 110 mm, gamma_inst 1.2, h_min 100 mm; 100 mm from the edge.

    200 mm from a screw at 68 mm, farther than 1.5 (50 + 68) = 177 mm, the boundary is 200 x 50/118 = 84.7 mm from it:
    A_c,N = (110 + 100) x (110 + 84.7) in place of (110 + 100) x 220; A0 220^2; psi_s 0.7 + 0.3 x 100/110;
    psi_h,sp = min((200/100)^(2/3), ((50 + 150)/100)^(2/3)) = 1.587.
    """
    psi = (0.7 + 0.3 * 100 / 110) * 2 ** (2 / 3)
    alone, cut = (210 * width / 220**2 * psi * 12.0 / 1.8 for width in (220, 110 + 200 * 50 / 118))
    (mode,) = splitting((WEDGE, 0))
    assert mode["design_strength"] == pytest.approx(alone, rel=1e-9)
    mode, _ = splitting((WEDGE, 0), (SCREW, 200))
    assert mode["design_strength"] == pytest.approx(cut, rel=1e-9)
    assert math.isclose(cut / alone, 0.885, rel_tol=1e-3)
