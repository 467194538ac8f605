"""Points in side faces near each other: brackets on a wall that looks somewhere on plan.

Places on plan are computed by hand beside each, expected numbers by ACI 318-19 chapter 17 and readings 6 and 30. The
building is invented.
"""

import math
import re

import pytest

from api.bodies import GONE, change

FAR = dict.fromkeys(("x_minus", "x_plus", "y_minus", "y_plus"), "none")
PHI_N_B = 0.65 * 17 * math.sqrt(4000) * 2.75**1.5
"""phi N_b of an anchor 2.75 in deep, cracked: 17.6.2.2.1, phi 0.65 of category 1, lbf."""
BRACKET = {
    "at": {"level": "L1", "x": 0, "y": 0, "z": "9 ft"},
    "hangs": {"kind": "forces", "components": [{"nature": "dead"}]},
    "anchor": {"family": "wedge-expansion-zinc", "size": "5/8", "h_ef": 2.75},
    "base": {
        "kind": "concrete",
        "strength": {"f_c": 4000},
        "density": "normalweight",
        "thickness": 10,
        "member": "W1",
        "face": "side",
        "facing": 0,
        "edges": FAR,
    },
    "seismic": {"category": "B"},
}


def bracket(name, right, up, *, facing, out=0.0, tension=0.6 * PHI_N_B / 1.4, **changes):
    """A point so many inches to the right, up and out of a face that looks to ``facing``, from a corner of the job.

    To the right of who looks at a face, against its outward direction (cos, sin), is (-sin, cos) on plan.
    """
    angle = math.radians(facing)
    place = {
        "at.x": (20 * 12 - right * math.sin(angle) + out * math.cos(angle)) / 12,
        "at.y": (30 * 12 + right * math.cos(angle) + out * math.sin(angle)) / 12,
        "at.z": 9 + up / 12,
    }
    paths = {path.replace("__", "."): GONE if value is None else value for path, value in changes.items()}
    made = change(BRACKET, place | {"base.facing": facing} | paths) | {"id": name}
    made["hangs"]["components"][0]["tension"] = tension
    return made


@pytest.fixture(scope="module")
def ask(send):
    """Results by id."""

    def of(*items, **top):
        body = {"units": "us", "detail": "modes", **top, "items": list(items)}
        return {each["id"]: each for each in send(body, status=200)["items"]}

    return of


def mode(result, name):
    (found,) = [each for each in result["modes"] if each["mode"] == name]
    return found


@pytest.mark.parametrize("facing", [0, 90, 180, -90, 360, 33.7])
@pytest.mark.parametrize(("right", "up"), [(5.5, 0), (0, 5.5), (-5.5, 0)])
def test_two_brackets_of_a_wall_share_its_concrete(ask, facing, right, up):
    """2 h_ef apart along an axis of the face A_Nc / A_Nco = 5/3, whichever way it looks: 1.2 / (5/3) = 0.72."""
    found = ask(bracket("a", 0, 0, facing=facing), bracket("b", right, up, facing=facing))
    for result, other in zip(found.values(), "ba", strict=True):
        assert result["neighbours"]["together"] == [other]
        assert mode(result, "concrete_breakout_tension")["utilisation"] == pytest.approx(0.72, rel=1e-6)
        assert result["not_checked"]
        assert not {"neighbours", "near-in-side-face"} & set(result["not_checked"])


def test_axes_of_the_face_are_those_of_its_edges(ask):
    """The wall looks north; its end is 6 in to the left of the left bracket, beyond 1.5 h_ef, and 11.5 of the right.

    Sheared 400 lbf each to the left, where the edge is: c_a1 6 and 11.5 in of one edge on the left. Were x to the
    left instead, the stated edges would put the end in two places 11 in apart.
    """
    near, far = ({**FAR, "x_minus": distance} for distance in (6, 11.5))
    pull = {"nature": "dead", "tension": 10, "shear_x": -400}
    items = [bracket("a", 0, 0, facing=90, base__edges=near), bracket("b", 5.5, 0, facing=90, base__edges=far)]
    for item in items:
        item["hangs"]["components"] = [pull]
    for result in ask(*items).values():
        assert "edges-disagree" not in {each["code"] for each in result["findings"]}
    items[1]["base"]["edges"] = {**FAR, "x_minus": 0.5}
    assert "edges-disagree" in {each["code"] for each in ask(*items)["a"]["findings"]}


def test_a_row_along_an_edge_of_a_wall(ask):
    """Two in a row 12 in below the top of a wall, 20 in apart, pushed up at it: nearer than 3 c_a1 = 36 in.

    A_Vc / A_Vco = (36 + 20) 10 / (4.5 144), V_b = 9 sqrt(f'c) c_a1^1.5 at most (17.7.2.2.1b); psi_h,V =
    sqrt(18 / 10); cracked without reinforcement psi_c,V = 1; phi 0.70: both together over twice 1.4 x 2,000 lbf.
    """
    top = {**FAR, "y_plus": "12 in"}
    items = [bracket(name, at, 0, facing=180, base__edges=top) for name, at in (("a", 0), ("b", 20))]
    for item in items:
        item["hangs"]["components"] = [{"nature": "dead", "shear_y": 2000}]
    root, c_a1, d_a, l_e = math.sqrt(4000), 12.0, 0.625, 2.75
    v_b = min(7 * (l_e / d_a) ** 0.2 * math.sqrt(d_a), 9) * root * c_a1**1.5
    strength = 0.70 * (3 * c_a1 + 20) * 10 / (4.5 * c_a1**2) * math.sqrt(1.5 * c_a1 / 10) * v_b
    for result in ask(*items).values():
        own = mode(result, "concrete_breakout_shear")
        assert own["design_strength"] == pytest.approx(strength, rel=1e-9)
        assert own["utilisation"] == pytest.approx(2 * 1.4 * 2000 / strength, rel=1e-9)


@pytest.mark.parametrize(
    ("other", "together", "may_be_near"),
    [
        ({"facing": 0}, True, False),
        ({"facing": 0.004}, True, False),  # one way, to a hundredth of a degree
        ({"facing": 0, "out": 0.4}, True, False),  # a drawing is rounded
        ({"facing": 0, "out": 4}, False, True),  # a step in the wall
        ({"facing": 0, "out": 9}, False, False),
        ({"facing": 90}, False, True),  # round a corner
        ({"facing": 180}, False, True),  # its other side
        ({"facing": 0, "base__facing": None}, False, True),
        ({"facing": 0, "at__z": None}, False, True),
        ({"facing": 0, "base__member": "W2"}, False, False),
        ({"facing": 0, "base__face": "soffit", "base__facing": None}, False, False),
    ],
)
def test_who_is_in_one_plane(ask, other, together, may_be_near):
    """5 in to the right; 8.25 in is near. Whoever may be near and was not compared is told."""
    found = ask(bracket("a", 0, 0, facing=0), bracket("b", 5 if other["facing"] < 1 else 0, 0, **other))
    for result in found.values():
        assert ("neighbours" in result) is together
        assert ("near-in-side-face" in result["not_checked"]) is may_be_near


def test_far_along_a_wall_of_a_rounded_direction(ask):
    """Directions that differ by less than is told apart are one, so that 1,000 ft away nothing moves by it."""
    items = [bracket(name, 12_000 + at, 0, facing=33.7) for name, at in (("a", 0), ("b", 5.5))]
    items[1]["base"]["facing"] = 33.704
    assert ask(*items)["a"]["neighbours"]["together"] == ["b"]


def test_on_a_level_walls_are_told_apart_by_their_planes(ask):
    """No member is named: a bracket of the other side of the room, which looks the same way, is in another plane."""
    found = ask(*(bracket(name, 0, 0, facing=0, out=out, base__member=None) for name, out in (("a", 0), ("b", 8.3))))
    for result in found.values():
        assert "neighbours" not in result
        assert not {"neighbours", "near-in-side-face"} & set(result["not_checked"])
        assert "member-by-level" in result["assumptions"]


def test_only_a_side_face_looks_to_a_side(send):
    item = bracket("a", 0, 0, facing=0, base__face="top")
    (result,) = send({"units": "us", "items": [item]}, status=200)["items"]
    (error,) = result["problem"]["errors"]
    assert (error["pointer"], error["code"]) == ("#/items/0/base/facing", "contradiction")
    del item["base"]["facing"]
    (result,) = send({"units": "us", "defaults": {"base": {"facing": 90}}, "items": [item]}, status=200)["items"]
    assert result["status"] == "passed"


def test_the_direction_is_part_of_the_question(send):
    """Of one request the digest is the same for 90 and -270 degrees, and another for 91."""
    digests = [
        send({"units": "us", "items": [bracket("a", 0, 0, facing=0) | {"base": BRACKET["base"] | {"facing": facing}}]})[
            "request_digest"
        ]
        for facing in (90, -270, 91)
    ]
    assert digests[0] == digests[1] != digests[2]


def test_the_sheet_draws_the_neighbour_where_it_is(client):
    """5 in to the right and 3 up on a wall that looks to 180: so it stands in the sketch of the left one."""
    items = [bracket("LEFT", 0, 0, facing=180), bracket("RIGHT", 5, 3, facing=180)]
    page = client.post("/v1/hang-points?format=html", json={"units": "us", "items": items}).text
    (sketch,) = re.findall(r"<svg.*?RIGHT, 5.831 in away.*?</svg>", page, re.DOTALL)
    own, other = (
        [float(each) for each in re.search(rf'<circle{kind} cx="([0-9.]+)" cy="([0-9.]+)"', sketch).groups()]
        for kind in ("", ' class="together"')
    )
    right, up = other[0] - own[0], own[1] - other[1]
    assert right > 0
    assert up / right == pytest.approx(3 / 5, rel=0.02)
    assert ">Face<" in sketch
    assert ">Plan<" not in sketch


def test_a_move_goes_along_the_face(asking_back):
    """3 in to the right and 4 up on a wall that looks to 180: south, and up."""
    item = bracket("a", 0, 0, facing=180)
    asked = {"units": "us", "item": item, "old_hole": {"depth": 2}, "move": {"dx": 3, "dy": 4}}
    (place,) = asking_back.post("/v1/relocations", asked)["places"]
    assert place["patch"]["at"] == {"y": pytest.approx(30 - 3 / 12), "z": pytest.approx(9 + 4 / 12)}


def test_a_neighbour_in_the_face_of_a_relocation(asking_back):
    """A point 0.6 of phi N_b used, moved until 5.5 in from its like above it: 1.2 / (5/3) = 0.72 as in a batch."""
    item = bracket("a", 0, -20, facing=90)
    other = bracket("b", 0, 0, facing=90)
    asked = {
        "units": "us",
        "item": item,
        "old_hole": {"depth": 2},
        "move": {"dx": 0, "dy": 14.5},
        "neighbours": [other],
    }
    (place,) = asking_back.post("/v1/relocations", asked)["places"]
    assert place["outcome"]["utilisation"] == pytest.approx(0.72, rel=1e-6)
    assert place["neighbours"][0]["before"]["utilisation"] == pytest.approx(0.6, rel=1e-6)
    assert place["neighbours"][0]["after"]["utilisation"] == pytest.approx(0.72, rel=1e-6)


def test_coordinates_stay_where_the_face_is_not_known(asking_back):
    item = bracket("a", 0, 0, facing=90, base__facing=None)
    asked = {"units": "us", "item": item, "old_hole": {"depth": 2}, "move": {"dx": 10, "dy": 0}}
    answer = asking_back.post("/v1/relocations", asked)
    assert "at" not in answer["places"][0]["patch"]
    assert "coordinates-left-as-stated" in answer["assumptions"]


@pytest.mark.parametrize("title", ["facing", "Facing", "base.facing"])
def test_the_direction_is_a_column(send_csv, title):
    """Two brackets 6 in apart on a wall that looks to 180: to the right is towards -y."""
    head = (
        "id,at.x,at.y,at.z,base.member,hangs.kind,hangs.components.0.nature,hangs.components.0.tension [lbf],family,"
        f"anchor_size,h_ef [in],base.kind,base.density,thickness [in],face,{title},edge_x_minus,edge_x_plus,"
        "edge_y_minus,edge_y_plus,seismic_category"
    )
    rest = "W1,forces,dead,100,wedge-expansion-zinc,5/8,2.75,concrete,normalweight,10,side,180,none,none,none,none,B"
    found = send_csv(f"{head}\nA,0 ft,3 ft,9 ft,{rest}\nB,0 ft,2.5 ft,9 ft,{rest}\n", "?format=json", status=200)
    assert [each["neighbours"]["together"] for each in found["items"]] == [["B"], ["A"]]
