"""ACI 318-19, tables 17.5.3 and 17.2.4.1 and the limits of 17.3.1 and 17.6.1.2, as secondary texts give them."""

import pytest

from core.builders import anchor_cases
from hangpoint.core.aci318_19.check import check
from hangpoint.core.vocabulary import Mode


def basis_of(**changed):
    return check(*anchor_cases(**changed)).basis


CONCRETE_MODES = [
    ("cast-in", 0, True, 0.75),
    ("cast-in", 0, False, 0.70),
    ("post-installed", 1, True, 0.75),
    ("post-installed", 2, True, 0.65),
    ("post-installed", 3, True, 0.55),
    ("post-installed", 1, False, 0.65),
    ("post-installed", 2, False, 0.55),
    ("post-installed", 3, False, 0.45),
]


@pytest.mark.parametrize(("kind", "category", "supplementary", "phi"), CONCRETE_MODES)
def test_phi_of_breakout_and_blowout(kind, category, supplementary, phi):
    """Table 17.5.3(b), tension: with and without supplementary reinforcement, categories 1 to 3."""
    made = check(
        *anchor_cases(cast_in=kind == "cast-in", category=category, supplementary=supplementary, c_a=[[2.0] * 4])
    )
    basis, found = made.basis, made.outcomes
    assert basis.phi_c[0] == phi
    for outcome in found:
        if outcome.mode in (Mode.CONCRETE_BREAKOUT_TENSION, Mode.SIDE_FACE_BLOWOUT):
            assert (outcome.record.phi == phi).all()
            assert len(outcome.record.phi)


@pytest.mark.parametrize("supplementary", [True, False])
@pytest.mark.parametrize(
    ("kind", "category", "phi"),
    [("cast-in", 0, 0.70), ("post-installed", 1, 0.65), ("post-installed", 2, 0.55), ("post-installed", 3, 0.45)],
)
def test_phi_of_pullout(kind, category, phi, supplementary):
    """Table 17.5.3(c): reinforcement changes nothing."""
    made = check(*anchor_cases(cast_in=kind == "cast-in", category=category, supplementary=supplementary))
    basis, found = made.basis, made.outcomes
    assert basis.phi_p[0] == phi
    assert next(outcome for outcome in found if outcome.mode is Mode.PULLOUT).record.phi[0] == phi


@pytest.mark.parametrize(("ductile", "phi"), [(True, 0.75), (False, 0.65)])
def test_phi_of_steel(ductile, phi):
    """Table 17.5.3(a), tension."""
    found = check(*anchor_cases(ductile=ductile)).outcomes
    assert found[0].mode is Mode.STEEL_TENSION
    assert found[0].record.phi[0] == phi


@pytest.mark.parametrize("lambda_c", [0.75, 0.85])
@pytest.mark.parametrize(
    ("cast_in", "undercut", "factor"), [(True, False, 1.0), (False, True, 1.0), (False, False, 0.8)]
)
def test_lightweight_factor(cast_in, undercut, factor, lambda_c):
    """Table 17.2.4.1: 1.0 lambda cast-in and undercut, 0.8 lambda expansion and screw; lambda of 19.2.4 (0.75 all-
    lightweight, 0.85 sand-lightweight) from memory.
    """
    basis = basis_of(
        cast_in=cast_in, undercut=undercut, category=0 if cast_in else 1, lightweight=True, lambda_c=lambda_c
    )
    assert basis.lambda_a[0] == pytest.approx(factor * lambda_c, rel=1e-15)


@pytest.mark.parametrize(("cast_in", "undercut"), [(True, False), (False, True), (False, False)])
def test_no_lightweight_factor_in_normalweight_concrete(cast_in, undercut):
    """Table 17.2.4.1 is for lightweight concrete: lambda_a is 1 elsewhere, for expansion anchors as well."""
    assert basis_of(cast_in=cast_in, undercut=undercut, category=0 if cast_in else 1).lambda_a[0] == 1.0


@pytest.mark.parametrize(
    ("cast_in", "specified", "used"),
    [
        (True, 10_000, 10_000),
        (True, 12_000, 10_000),
        (False, 8_000, 8_000),
        (False, 9_000, 8_000),
        (False, 3_000, 3_000),
    ],
)
def test_limit_of_concrete_strength(cast_in, specified, used):
    """17.3.1: 10,000 psi cast-in, 8,000 psi post-installed."""
    basis = basis_of(cast_in=cast_in, category=0 if cast_in else 1, f_c_specified=specified)
    assert basis.f_c[0] == used


@pytest.mark.parametrize(
    ("f_uta", "f_ya", "used"),
    [(58_000, 36_000, 58_000), (80_000, 36_000, 68_400), (150_000, 130_000, 125_000), (150_000, 50_000, 95_000)],
)
def test_limit_of_steel_strength(f_uta, f_ya, used):
    """17.6.1.2: f_uta at most 1.9 f_ya and 125,000 psi."""
    found = check(*anchor_cases(f_uta=f_uta, f_ya=f_ya)).outcomes
    assert found[0].record.f_uta[0] == pytest.approx(used, rel=1e-15)
