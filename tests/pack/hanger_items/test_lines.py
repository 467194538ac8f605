"""Lines in their columns, in core units. Lines and jobs are invented; tables are named beside their figures."""

import numpy as np
import pytest

from pack.hanger_items.builders import (
    CONDUIT,
    DUCT,
    EQUIPMENT,
    KG_M,
    KG_M2,
    KG_M3,
    KN,
    MM,
    PIPE,
    RISER,
    STATED,
    TRAY,
    M,
    assumed,
    close,
    columns,
    pack,
    run_of,
    trapeze_of,
    unchecked,
)

JACKET = {"thickness": 1.5, "density": 11, "jacket": 0.23}


def test_a_pipe_by_schedule():
    """4.500 in and 0.237 in of 4 in schedule 40 (ASME B36.10M), 490 and 62.4 lb/ft3 (reading 23)."""
    line = PIPE | {"insulation": JACKET, "allowance": 0.1, "number": 3}
    items = columns(EQUIPMENT, run_of(line))
    pipe = items.pipes
    assert pipe.line.tolist() == [0]
    close(pipe.d_o, 4.5)
    close(pipe.t, 0.237)
    close(pipe.nominal, 4)
    close(pipe.rho_pipe, 490)
    close(pipe.rho_contents, 62.4)
    close(pipe.rho_test, 0)
    close([pipe.t_ins[0], pipe.rho_ins[0], pipe.q_jacket[0]], 1.5, 11, 0.23)
    close(pipe.allowance, 0.1)
    assert (items.lines.item.tolist(), items.lines.tier.tolist()) == ([1], [-1])
    close(items.lines.number, 3)
    assert not items.lines.sprinkler.any()


def test_a_pipe_by_wall_in_si():
    """4 in of PVC is 4.500 in outside (ASTM D1785); a stated wall is taken as it is, 1.40 g/cm3 is 87.4 lb/ft3."""
    line = {
        "kind": "pipe",
        "material": "pvc",
        "size": "4",
        "wall": 6.5,
        "contents_density": 1030.0,
        "hydrotest": True,
        "insulation": {"thickness": 25.0, "density": 60.0, "jacket": 1.2},
    }
    pipe = columns(run_of(line), system="si").pipes
    close([pipe.d_o[0], pipe.t[0]], 4.5, 6.5 * MM)
    np.testing.assert_allclose(pipe.rho_pipe, 1400 * KG_M3, rtol=1e-6)
    close(pipe.rho_contents, 1030 * KG_M3)
    close(pipe.rho_test, 62.4)
    close([pipe.t_ins[0], pipe.rho_ins[0], pipe.q_jacket[0]], 25 * MM, 60 * KG_M3, 1.2 * KG_M2)


def test_the_least_wall_of_plastic_by_schedule_is_made_the_average_one():
    """0.237 in is the least wall of 4 in schedule 40 (ASTM D1785); pipe is 6 % thicker on the average."""
    close(columns(run_of(PIPE | {"material": "pvc"})).pipes.t, 0.237 * 1.06)


@pytest.mark.parametrize("line", [{"contents": "steam"}, {"contents": "air"}, {"contents": "gas"}])
@pytest.mark.parametrize(("tested", "rho"), [(True, 62.4), (False, 0)])
def test_a_test_of_gases(line, tested, rho):
    close(columns(run_of(PIPE | line | {"hydrotest": tested})).pipes.rho_test, rho)


@pytest.mark.parametrize("empty", [{"contents": "empty"}, {"contents": None, "contents_density": 0}])
def test_an_empty_pipe_is_not_tested_unless_it_is_said(empty):
    own = {key: value for key, value in (PIPE | empty).items() if value is not None}
    items = [run_of(own), run_of(own | {"hydrotest": True}), run_of(own | {"hydrotest": False}), run_of(PIPE)]
    assert ["empty-pipe-not-tested" in codes for codes in assumed(*items)] == [True, False, False, False]
    close(columns(*items).pipes.rho_test, 0, 62.4, 0, 0)


def test_a_sprinkler_line_is_filled_with_water():
    silent = {key: value for key, value in PIPE.items() if key != "contents"} | {"sprinkler": True}
    packed = pack(run_of(silent), run_of(PIPE | {"sprinkler": True}))
    close(packed.items.pipes.rho_contents, 62.4, 62.4)
    assert packed.items.lines.sprinkler.all()
    both = assumed(run_of(silent), run_of(PIPE | {"sprinkler": True}), run_of(PIPE))
    assert ["contents-water-assumed" in each for each in both] == [True, False, False]
    assert ["listing" in each for each in unchecked(run_of(silent), run_of(PIPE))] == [True, False]


def test_a_duct_by_gauge():
    """24 gauge is 1.156 lb/ft2 galvanised and 1.000 uncoated (Fan Engineering, appendix E, table E.1)."""
    layers = {"liner": {"thickness": 1, "density": 3}, "wrap": {"thickness": 2, "density": 0.75}}
    duct = columns(run_of(DUCT | layers | {"reinforcement": 0.2}), run_of(DUCT | {"gauge_table": "uncoated"})).ducts
    assert (duct.line.tolist(), duct.shape.tolist()) == ([0, 1], [0, 0])
    close(duct.a, 24, 24)
    close(duct.b, 12, 12)
    close(duct.q_sheet, 1.156, 1.0)
    close(duct.reinforcement, 0.2, 0.25)
    close([duct.t_liner[0], duct.rho_liner[0], duct.t_wrap[0], duct.rho_wrap[0]], 1, 3, 2, 0.75)
    close([duct.t_liner[1], duct.rho_liner[1], duct.t_wrap[1], duct.rho_wrap[1]], 0, 0, 0, 0)


def test_a_duct_by_thickness():
    """1 mm of steel of 490 lb/ft3: 490/12/25.4 lb/ft2; no zinc is added."""
    round_duct = {"kind": "duct", "shape": "round", "diameter": 400.0, "thickness": 1.0}
    oval = {"kind": "duct", "shape": "flat_oval", "width": 500.0, "height": 250.0, "thickness": "0.5 mm"}
    duct = columns(run_of(round_duct), run_of(oval), system="si").ducts
    assert duct.shape.tolist() == [1, 2]
    close([duct.a[0], duct.a[1], duct.b[1]], 400 * MM, 500 * MM, 250 * MM)
    close(duct.q_sheet, 490 / 12 / 25.4, 490 / 12 / 50.8)


def test_a_conduit():
    """EMT of 2: 1.48 lb/ft, the heaviest list (association of tube makers), bore 2.067 in (NEC chapter 9 table 4).

    Cables by fill: copper of 558 lb/ft3 on 0.70 of their section.
    """
    conduit = columns(run_of(CONDUIT), run_of(CONDUIT | {"cables": "3 kg/m"}), run_of(_filled(0.4))).conduits
    close(conduit.w_conduit, 1.48, 1.48, 1.48)
    close(conduit.d_i, 2.067, 2.067, 2.067)
    close(conduit.w_cables, 2.5, 3 * KG_M, 0)
    close(conduit.fill, 0, 0, 0.4)
    close(conduit.rho_fill, *[0.7 * 558] * 3)


def _filled(fill):
    return {key: value for key, value in CONDUIT.items() if key != "cables"} | {"fill": fill}


def test_a_tray():
    """Class 12B: 75 lb/ft (NEMA VE 1). Cables add up."""
    listed = {"kind": "tray", "self_weight": 6.0, "cables": [1.5, "2 kg/m", 3], "static_load": 0.9, "span": 3.6}
    tray = columns(run_of(TRAY), run_of(listed), system="us").trays
    close(tray.w_tray, 4, 6)
    close(tray.w_class, 75, 0)
    close(tray.w_cables, 0, 4.5 + 2 * KG_M)
    close(tray.p_static, 0, 0.9)
    close(tray.l_span, 1, 3.6)
    si = columns(run_of(listed), system="si").trays
    close([si.w_tray[0], si.w_cables[0]], 6 * KG_M, 6.5 * KG_M)
    close([si.p_static[0], si.l_span[0]], 0.9 * KN, 3.6 * M)


def test_a_line_of_stated_weight():
    """Bare numbers of SI are kg/m; filling comes on top."""
    stated = columns(run_of(STATED | {"weight": 9.0, "filling": "20 N/m", "allowance": 0.05}), system="si").stated
    close([stated.w_stated[0], stated.w_filling[0]], 9 * KG_M, 20 / 1000 * KN / M)
    close(stated.allowance, 0.05)


def test_lines_rise_by_item_and_each_table_points_at_its_own():
    items = columns(
        trapeze_of(DUCT, PIPE | {"number": 4}, TRAY, id="a"),
        EQUIPMENT,
        RISER,
        trapeze_of(STATED, PIPE | {"size": "2"}, id="b"),
        run_of(CONDUIT),
        run_of(PIPE | {"size": "6"}, id="c"),
    )
    assert items.lines.item.tolist() == [0, 0, 0, 2, 3, 3, 4, 5]
    assert items.lines.tier.tolist() == [0, 0, 0, -1, 1, 1, -1, -1]
    close(items.lines.number, 1, 4, 1, 1, 1, 1, 1, 1)
    assert items.pipes.line.tolist() == [1, 3, 5, 7]
    close(items.pipes.nominal, 4, 4, 2, 6)
    tables = (items.ducts, items.trays, items.stated, items.conduits)
    assert [table.line.tolist() for table in tables] == [[0], [2], [4], [6]]


def test_labels_of_lines():
    lines = pack(trapeze_of(PIPE, DUCT, CONDUIT, TRAY, STATED | {"description": "bus duct"}, _cabled())).lines
    assert list(lines.kind) == ["pipe", "duct", "conduit", "tray", "line", "tray"]
    assert list(lines.weight_by) == ["computed", "computed", "table", "table", "stated", "stated"]
    assert list(lines.description) == [None, None, None, None, "bus duct", None]


def _cabled():
    return {"kind": "tray", "self_weight": 4, "cables": [1]}


def test_what_is_assumed_of_lines():
    insulated = PIPE | {"insulation": JACKET, "allowance": 0.0, "contents": "empty"}
    wrapped = DUCT | {"wrap": {"thickness": 1, "density": 1}, "reinforcement": 0.25}
    lines = [PIPE, insulated, DUCT, wrapped, CONDUIT, _filled(0.4), _filled(0.0), TRAY, STATED]
    lines += [STATED | {"filling": 1, "allowance": 0.1}]
    found = assumed(*(run_of(line, id=str(at)) for at, line in enumerate(lines)))
    codes = {
        "no-insulation-assumed": [0, 2],
        "no-allowance-assumed": [0, 4, 5, 6, 7, 8],
        "contents-factored-as-dead": [0, 9],
        "duct-reinforcement-assumed": [2],
        "cables-by-fill": [5],
        "contents-water-assumed": [],
    }
    assert {code: [at for at, each in enumerate(found) if code in each] for code in codes} == codes


@pytest.mark.parametrize(
    ("line", "system", "mass"),
    [
        (STATED, "us", False),
        (STATED, "si", True),
        (STATED | {"weight": "3 kg/m"}, "us", True),
        (STATED | {"weight": "30 N/m"}, "si", False),
        (STATED | {"weight": "30 N/m", "filling": "1 kg/m"}, "us", True),
        (_cabled(), "us", False),
        (_cabled() | {"cables": [1, "1 kg/m"]}, "us", True),
        (TRAY | {"self_weight": "4 kg/m"}, "us", True),
        (CONDUIT | {"cables": "4 kg/m"}, "us", True),
        (PIPE, "si", False),
        (PIPE | {"insulation": JACKET | {"jacket": "1 kg/m2"}}, "us", True),
    ],
)
def test_a_mass_for_a_weight_is_told(line, system, mass):
    assert ("mass-by-standard-gravity" in assumed(run_of(line), system=system)[0]) is mass
