"""Groups of adhesive anchors at random, by 17.6.5 in plain loops: own code, no outside check.

From the product in its condition, the crack state, the concrete and the seismic category to the set of anchors of which
bond is used most, and to bond under tension that stays. Areas are sums over cells that the sides of all squares cut.
"""

import math

import numpy as np
import pytest

COUNT = 260
SIDES = {"x_minus": (0, -1.0), "x_plus": (0, 1.0), "y_minus": (1, -1.0), "y_plus": (1, 1.0)}
PHI = {1: (0.65, 0.75), 2: (0.55, 0.65), 3: (0.45, 0.55)}
"""Table 17.5.3(b) by category: without and with supplementary reinforcement."""
LIGHT = {"normalweight": 1.0, "sand_lightweight": 0.6 * 0.85, "all_lightweight": 0.6 * 0.75}
"""Table 17.2.4.1, bond."""
FAMILIES = [f"adhesive-{kind}-rod-{steel}" for kind in ("fast", "slow") for steel in ("36", "105", "stainless")]


def layout(rng, least, reach):
    """Rows, rectangles and scattered anchors, apart by less and by more than twice their reach."""
    a, b = rng.uniform(max(least, 0.3 * reach), 2.5 * reach, 2)
    kind = rng.integers(3)
    if kind == 0:
        places = [(a * i, 0.0) for i in range(rng.integers(2, 6))]
    elif kind == 1:
        places = [(a * i, b * j) for i in range(rng.integers(2, 4)) for j in range(2)]
    else:
        places = [(0.0, 0.0)]
        for place in rng.uniform(-2 * reach, 2 * reach, (200, 2)).tolist():
            if len(places) < 6 and all(math.dist(place, other) > max(least, 0.3 * reach) for other in places):
                places.append(tuple(place))
    places = np.array(places)
    return np.round(places - places.mean(axis=0) + rng.uniform(-0.5, 0.5, 2) * least, 2)


class Made:
    """One group: the body, and what the loops read."""

    def __init__(self, rng, families):
        family = families[str(rng.choice(FAMILIES))]
        size = family["sizes"][rng.integers(len(family["sizes"]))]
        own = size["embedments"][rng.integers(len(size["embedments"]))]
        bond = own["bond"][rng.integers(len(own["bond"]))]
        self.bond, self.d, self.h, self.c_ac = bond, size["d_a"], own["h_ef"], own["c_ac"]
        self.reach = 10 * self.d * math.sqrt(bond["tau_uncr"] / 1_100)
        self.places = layout(rng, own["s_min"], self.reach)
        self.cracked, self.extra = bool(rng.random() < 0.5), bool(rng.random() < 0.3)
        self.f_c, self.category = float(rng.choice([2_500, 4_000, 8_000])), str(rng.choice(["B", "B", "D"]))
        self.density = str(rng.choice(list(LIGHT))) if own.get("lightweight") else "normalweight"
        self.box, self.stays = bool(rng.random() < 0.3), float(rng.uniform(0.05, 1.0))
        self.edges = {side: self._edge(rng, own["c_min"], *SIDES[side]) for side in SIDES}
        self.load, middle = float(rng.uniform(500, 2e4)), self.places.mean(axis=0)
        x, y = middle + rng.uniform(-0.15, 0.15, 2) * np.ptp(self.places, axis=0)
        self.moments = self.load * y, -self.load * x
        adhesive = {"temperature": bond["temperature"], "hole": bond["hole"], "concrete_age": 28}
        anchor = {"family": family["id"], "size": size["size"], "h_ef": self.h, "adhesive": adhesive}
        anchor["layout"] = [{"x": x, "y": y} for x, y in self.places.tolist()]
        self.body = self._body(anchor, max(own["h_min"], 40.0))

    def _edge(self, rng, least, axis, sign):
        if rng.random() < 0.5:
            return math.inf
        return float((sign * self.places[:, axis]).max() + rng.uniform(1.02 * least, least + 1.5 * self.reach))

    def _body(self, anchor, thickness):
        base = {"kind": "concrete", "strength": {"f_c": self.f_c}, "density": self.density, "thickness": thickness}
        base |= {"state": "cracked"} if self.cracked else {"state": "uncracked", "state_decided_by": "nobody"}
        base |= {"supplementary": self.extra, "face": "top"}
        base["edges"] = {side: "none" if math.isinf(far) else far for side, far in self.edges.items()}
        force = {"nature": "dead", "tension": self.load, "moment_x": self.moments[0], "moment_y": self.moments[1]}
        group = {"id": "group", "anchor": anchor, "base": base, "seismic": {"category": self.category}}
        group["loads"] = {"components": [force], "sustained_fraction": self.stays, "earthquake_fraction": 0}
        group["options"] = {"group_area": "rectangle" if self.box else "union"}
        return {"units": "us", "combinations": "given_factored", "detail": "modes", "group": group}


@pytest.fixture(scope="module")
def answered(client):
    """The groups that are checked and whose anchors are all pulled, each with the modes of its answer."""
    rng = np.random.default_rng(1765)
    families = {name: client.get(f"/v1/families/{name}").json() for name in FAMILIES}
    found = []
    for _ in range(COUNT):
        made = Made(rng, families)
        response = client.post("/v1/anchor-group", json=made.body)
        assert response.status_code == 200, response.text[:600]
        (item,) = response.json()["items"]
        if item["status"] != "refused" and not {"anchor-pushed", "no-equilibrium"} & codes(item):
            found.append((made, {each["mode"]: each for each in item["modes"]}))
    assert len(found) > 0.5 * COUNT
    return found


def codes(item):
    return {each["code"] for each in item["findings"]}


def tensions(made):
    """Those of a rigid plate on alike anchors, the least squares of all in balance."""
    balance = np.stack((np.ones(len(made.places)), made.places[:, 1], -made.places[:, 0]))
    return np.linalg.lstsq(balance, [made.load, *made.moments], rcond=1e-9)[0]


def sets_of(made, pulled):
    """Chains of anchors nearer than twice the reach, each by itself, and each with its direct neighbours."""
    near = {i: [j for j in pulled if math.dist(made.places[i], made.places[j]) < 2 * made.reach] for i in pulled}
    found = {(i,) for i in pulled} | {tuple(sorted(near[i])) for i in pulled}
    for i in pulled:
        chain, last = {i}, set()
        while chain != last:
            last, chain = chain, {k for j in chain for k in near[j]}
        found.add(tuple(sorted(chain)))
    return found


def area(made, members):
    """Union of the squares cut at the edges, or the rectangle around them."""
    c, edges = made.reach, made.edges
    squares = [
        (
            max(x - c, -edges["x_minus"]),
            min(x + c, edges["x_plus"]),
            max(y - c, -edges["y_minus"]),
            min(y + c, edges["y_plus"]),
        )
        for x, y in made.places[list(members)]
    ]
    x, y = (np.unique([own[at] for own in squares for at in axis]) for axis in ((0, 1), (2, 3)))
    if made.box:
        return (x[-1] - x[0]) * (y[-1] - y[0])
    inside = np.zeros((len(x) - 1, len(y) - 1), dtype=bool)
    for left, right, low, high in squares:
        inside |= np.outer((x[:-1] >= left) & (x[1:] <= right), (y[:-1] >= low) & (y[1:] <= high))
    return np.diff(x) @ inside @ np.diff(y)


def basic(made):
    """N_ba of 17.6.5.2, by the tests of earthquake in categories C to F (17.10.3)."""
    bond = made.bond
    tau = bond["tau_cr"] if made.cracked or made.category == "D" else bond["tau_uncr"]
    tau *= bond["alpha_n_seis"] if made.category == "D" else 1.0
    tau *= (made.f_c / bond.get("f_c_ref", made.f_c)) ** bond.get("tau_exponent", 0.0)
    return LIGHT[made.density] * tau * math.pi * made.d * made.h


def strength(made, members, pulls):
    """phi N_ag of 17.6.5.1 with its three factors."""
    places, own = made.places[list(members)], pulls[list(members)]
    whole = 4 * made.reach**2
    nominal = basic(made) * min(area(made, members) / whole, len(members))
    for off in np.abs(own @ places / own.sum() - places.mean(axis=0)):
        nominal /= 1 + off / made.reach
    nearest = min(
        far - (sign * places[:, axis]).max()
        for (axis, sign), far in zip(SIDES.values(), made.edges.values(), strict=True)
    )
    nominal *= min(1.0, 0.7 + 0.3 * nearest / made.reach)
    if not made.cracked:
        nominal *= min(1.0, max(nearest, made.reach) / made.c_ac)
    return PHI[made.bond["category"]][made.extra] * nominal


def test_bond(answered):
    large = edged = 0
    for made, modes in answered:
        pulls = tensions(made)
        pulled = [i for i in range(len(pulls)) if pulls[i] > 1e-9 * pulls.max()]
        used = {
            members: pulls[list(members)].sum() / strength(made, members, pulls) for members in sets_of(made, pulled)
        }
        most = max(used.values())
        told = modes["adhesive_bond"]
        assert told["utilisation"] == pytest.approx(most, rel=1e-9)
        assert used[tuple(told["anchors"])] == pytest.approx(most, rel=1e-9)
        large += len(told["anchors"]) > 1
        edged += any(map(math.isfinite, made.edges.values()))
    assert large > 20
    assert edged > 50


def test_bond_under_tension_that_stays(answered):
    """17.5.2.2: 0.55 phi N_ba of the anchor that is pulled most."""
    for made, modes in answered:
        pull = made.stays * tensions(made).max()
        held = 0.55 * PHI[made.bond["category"]][made.extra] * basic(made)
        assert modes["sustained_bond"]["utilisation"] == pytest.approx(pull / held, rel=1e-9)
