"""Loads of one item at its hangers, in plain floats and loops, from statics and the standards.

`loads_of` takes an item as `item_columns` has it. Documents: weights by geometry; NFPA 13's 5 W + 250 lb; MSS SP-58 and
ACI 318-19 17.6.1.2 for rods; ASCE 7-16 and 7-22 chapter 13 and combinations; readings 29, 32 to 35. W_p of a run is
that of its lines between braces and of every dead point load on it, of a trapeze that of its lines and of as many of it
as stand between braces, one at least.
"""

from itertools import combinations
from math import cos, pi, sqrt, tan

from core.hanger.independent_beams import MODELS, PICKED, Beam, Bent, any_three, direction, springs, without
from core.hanger.independent_combinations import combined, least
from core.hanger.item_columns import NATURES, NEUTRAL_LINES, RUN, SEISMIC, TIER
from hangpoint.core.hanger.spacing import RULE_NAMES

STEEL = 490.0
ADDED = 250.0
THREADS = {
    "3/8": (0.375, 1 / 16),
    "1/2": (0.5, 1 / 13),
    "5/8": (0.625, 1 / 11),
    "M10": (10 / 25.4, 1.5 / 25.4),
    "M12": (12 / 25.4, 1.75 / 25.4),
}
UNIFIED_ROOT, UNIFIED_STRESS, METRIC_ROOT, METRIC_STRESS = 1.299038, 0.9743, 1.226869, 0.938194
PARTS = ("dead", "fluid", "live", "test")


def circle(d):
    return pi * d * d / 4


def line_weight(line):
    """lbf/ft of one line: dead, contents, live on the span of its own, test fluid (None where it isn't tested)."""
    given = {**NEUTRAL_LINES[line["kind"]], **line}
    kind, more = line["kind"], 1 + given.get("allowance", 0.0)
    if kind == "pipe":
        outer, inner, wrapped = (given["d_o"] + 2 * by for by in (0.0, -given["t"], given["t_ins"]))
        dead = given["rho_pipe"] * (circle(outer) - circle(inner)) + given["rho_ins"] * (
            circle(wrapped) - circle(outer)
        )
        dead = dead / 144 + pi * wrapped / 12 * given["q_jacket"]
        bore = circle(inner) / 144 * more
        return dead * more, bore * given["rho_contents"], 0.0, bore * given["rho_test"] or None
    if kind == "duct":
        a, b = given["a"], given["b"]
        around = {"rectangular": a + b + a + b, "round": pi * a, "flat_oval": pi * b + a - b + a - b}[given["shape"]]
        sheet = around / 12 * given["q_sheet"] * (1 + given["reinforcement"])
        liner = around / 12 * given["t_liner"] / 12 * given["rho_liner"]
        wrap = (around / 12 + 4 * given["t_wrap"] / 12) * given["t_wrap"] / 12 * given["rho_wrap"]
        return sheet + liner + wrap, 0.0, 0.0, None
    if kind == "conduit":
        filling = given["fill"] * circle(given["d_i"]) / 144 * given["rho_fill"]
        return given["w_conduit"] + given["w_cables"] + filling, 0.0, 0.0, None
    if kind == "tray":
        dead = given["w_tray"] + given["w_class"] + given["w_cables"]
        return dead, 0.0, 2 * given["p_static"] / given["l_span"], None
    return given["w_stated"] * more, given["w_filling"] * more, 0.0, None


def weights_of(item):
    """Each line's weights, with what stands in a line that isn't tested during the test of another."""
    found = []
    for line in item.get("lines", ()):
        dead, fluid, live, test = line_weight(line)
        found.append((dead, fluid, live, fluid if test is None else test, test is not None))
    return found


def per_foot(item, weights):
    """Sums over the lines of a run or riser."""
    numbers = [line.get("number", 1.0) for line in item.get("lines", ())]
    return {
        part: sum(n * own[place] for n, own in zip(numbers, weights, strict=True)) for place, part in enumerate(PARTS)
    }


def statics(item):
    """(load, span that it is stated for) of every tray with a static load, as often as there are alike ones."""
    lines = [{**NEUTRAL_LINES[line["kind"]], **line} for line in item.get("lines", ())]
    return [(line.get("number", 1.0) * line["p_static"], line["l_span"]) for line in lines if line.get("p_static")]


def spread(beam, span):
    """Reactions by model to static loads of 1 on all spans: 2 / span as slices, over its own length if shorter.

    Gauss points of a span integrate the cubics of the continuous beam and the lines of the others exactly.
    """
    found = {model: [0.0] * len(beam.at) for model in MODELS}
    for left, length in zip(beam.at, beam.spans, strict=False):
        for node in (-(1 / sqrt(3)), 1 / sqrt(3)):
            shares = beam.point(left + length * (1 + node) / 2)
            for model in MODELS:
                for i, share in enumerate(shares[model]):
                    found[model][i] += 2 / min(span, length) * length / 2 * share
    return found


def by_models(beam, w, loads, standing=()):
    """At every support and by model the reactions of each nature, and what takes away of what may be absent.

    ``w`` is per foot, ``loads`` are (place, {nature: weight}), ``standing`` static loads of trays with their spans.
    Dead load always counts, the rest where it adds; the contents of a run, which are there or aren't along all of it,
    as they come. A static load stands on all spans at once, and at a tip by itself.
    """
    count = len(beam.at)
    found = {part: {model: [0.0] * count for model in MODELS} for part in (*PARTS, "relief")}
    for model in MODELS:
        for i in range(count):
            length = beam.uniform[model][i]
            for part in ("dead", "fluid", "test"):
                found[part][model][i] = w[part] * length
            found["relief"][model][i] += w["fluid"] * min(length, 0.0)
    tips = [tip for tip, reach in ((-beam.start, beam.start), (beam.at[-1] + beam.end, beam.end)) if reach > 0]
    for p, span in standing:
        for shares in (spread(beam, span), *map(beam.point, tips)):
            for model in MODELS:
                for i, share in enumerate(shares[model]):
                    found["live"][model][i] += p * max(share, 0.0)
                    found["relief"][model][i] += p * min(share, 0.0)
    for place, weight in loads:
        shares = beam.point(place)
        for model in MODELS:
            for i, share in enumerate(shares[model]):
                found["dead"][model][i] += weight.get("dead", 0.0) * share
                for part in ("fluid", "live", "test"):
                    found[part][model][i] += weight.get(part, 0.0) * max(share, 0.0)
                kept = weight.get("kept", 0.0)
                found["dead"][model][i] += kept * max(share, 0.0)
                may_lack = kept + weight.get("live", 0.0) + weight.get("fluid", 0.0)
                found["relief"][model][i] += may_lack * min(share, 0.0) - kept * max(share, 0.0)
                lacks = weight.get("dead", 0.0) - weight.get("sure", weight.get("dead", 0.0))
                found["relief"][model][i] -= lacks * max(share, 0.0)
    return found


def taken(found, models, i):
    """One support: largest of the picked models by nature, sums by model, least by continuous and hinged."""
    own = {part: max(found[part][model][i] for model in models) for part in PARTS}
    sums = [sum(found[part][model][i] for part in ("dead", "fluid", "live")) for model in MODELS]
    least = [found["dead"][model][i] + found["relief"][model][i] for model in MODELS[1:]]
    own["sure"] = min(own["dead"], *least)
    return own, sums, least


def stood(weight, nature):
    """A point load by nature; contents (`fluid`) are there during a test as well."""
    return {"fluid": weight, "test": weight} if nature == "fluid" else {nature: weight}


def run_reactions(item, weights):
    run = {**RUN, **item["run"]}
    count, models = len(run["spans"]) + 1, PICKED[run["model"]]
    w = per_foot(item, weights)
    loads = [(place, stood(weight, nature)) for place, weight, nature in item.get("loads", ())]
    missing = run["missing"]
    turns = [None, *range(1, count - 1)] if missing == "any" else [missing]
    found = [None] * count
    for lost in turns:
        beam = Beam(without(run["spans"], lost) if lost else run["spans"], run["start"], run["end"])
        reactions = by_models(beam, w, loads, statics(item))
        for i in range(len(beam.at)):
            own, sums, least = taken(reactions, models, i)
            total = own["dead"] + own["fluid"] + own["live"]
            hanger = i + (lost is not None and i >= lost)
            before = found[hanger]
            if before is None:
                found[hanger] = [own, sums, least, total]
            else:
                for part in PARTS:
                    before[0][part] = max(before[0][part], own[part])
                before[0]["sure"] = min(before[0]["sure"], own["sure"])
                before[2] = [min(pair) for pair in zip(before[2], least, strict=True)]
                if total > before[3]:
                    before[1], before[3] = sums, total
    return found


def with_room(weight, spare):
    """A load with what is kept free beside it: of dead load as a part of its own, which may be absent."""
    more = {part: (1.0 if part == "dead" else 1.0 + spare) * own for part, own in weight.items()}
    return {**more, "kept": spare * weight.get("dead", 0.0)}


def trapeze_reactions(item, weights):
    run, spare = {**RUN, **item["run"]}, item.get("spare", 0.0)
    along = Beam(run["spans"], run["start"], run["end"])
    reach = along.uniform
    length = max(reach[model][run["support"]] for model in PICKED[run["model"]])
    least_length = min(reach[model][run["support"]] for model in MODELS)
    count = len(item["tiers"][0]["spans"]) + 1
    found = [[dict.fromkeys(PARTS, 0.0), [0.0] * 3, [0.0] * 2, 0.0] for _ in range(count)]
    bars, lowest = [], [[0.0] * 2 for _ in range(count)]
    for number, given in enumerate(item["tiers"]):
        tier = {**TIER, **given}
        loads = []
        for line, own in zip(item.get("lines", ()), weights, strict=True):
            if line["tier"] == number:
                many = line.get("number", 1.0)
                weight = {part: many * max(length, 0.0) * own[place] for place, part in enumerate(PARTS)}
                kept = spare * weight["dead"]
                weight["dead"] = many * length * own[0]
                weight["live"] = 0.0
                for p, span in statics({"lines": [line]}):
                    stood_on = spread(along, span)
                    stands = max(stood_on[model][run["support"]] for model in PICKED[run["model"]])
                    weight["live"] += p * max(stands, 0.0)
                sure = {"sure": many * least_length * own[PARTS.index("dead")]}
                loads.append((line["at"], {**with_room(weight, spare), **sure, "kept": kept}))
        loads += [(x, with_room(stood(weight, nature), spare)) for x, weight, nature in tier["loads"]]
        beam = Beam(tier["spans"], tier["start"], tier["end"])
        w = {"dead": tier["w_bar"], "fluid": 0.0, "test": 0.0}
        reactions = by_models(beam, w, loads)
        for i in range(count):
            own, sums, least = taken(reactions, PICKED["bar"], i)
            for part in PARTS:
                found[i][0][part] += own[part]
            found[i][1] = [a + b for a, b in zip(found[i][1], sums, strict=True)]
            found[i][2] = [a + b for a, b in zip(found[i][2], least, strict=True)]
            lowest[i] = [min(pair) for pair in zip(lowest[i], least, strict=True)]
        if tier["section"]:
            bars.append((number, bar_check(beam, tier, loads, item.get("seismic", {}).get("s_ds", 0.0))))
    for own, alone in zip(found, lowest, strict=True):
        own[0]["sure"] = min(own[0]["dead"], *own[2])
        own[2] = [min(pair) for pair in zip(own[2], alone, strict=True)]
    return found, bars


def largest_moment(beam, tier, loads, permanent, live, there):
    """Of the bar with dead load and contents times ``permanent`` and live load times ``live``; see `bar_check`."""
    points = []
    for x, weight in loads:
        comes = permanent * (weight.get("fluid", 0.0) + weight.get("kept", 0.0)) + live * weight.get("live", 0.0)
        points.append((x, permanent * weight.get("dead", 0.0) + (comes if part_of(tier, x) in there else 0.0)))
    reactions = [permanent * tier["w_bar"] * r for r in beam.uniform["continuous"]]
    for x, p in points:
        for i, share in enumerate(beam.point(x)["continuous"]):
            reactions[i] += p * share
    return Bent(beam, reactions, permanent * tier["w_bar"], points, 1.0).largest_moment()


def part_of(tier, x):
    """Part of the bar that a place is in, the overhang at the start is the first."""
    edges = [0.0]
    for span in tier["spans"]:
        edges.append(edges[-1] + span)
    return sum(x > edge for edge in edges)


def bar_check(beam, tier, loads, s_ds):
    """Moment, stress, deflection and its limit under service loads; moment and stress also of ASCE 7, 2.4.5: 1.0 D +
    0.7 E_v, and 1.0 D + 0.525 E_v with 0.75 L, E_v 0.2 S_DS D and contents as dead load.

    What may be absent is there or not in each part of the bar; the overhang at the start is the first part.
    """
    section, moment, parts = tier["section"], 0.0, None
    loaded = sorted({part_of(tier, x) for x, _ in loads})
    for there in (some for count in range(len(loaded) + 1) for some in combinations(loaded, count)):
        points = []
        for x, weight in loads:
            comes = max(weight.get("fluid", 0.0), weight.get("test", 0.0)) + weight.get("live", 0.0)
            comes += weight.get("kept", 0.0)
            points.append((x, weight.get("dead", 0.0) + (comes if part_of(tier, x) in there else 0.0)))
        reactions = [tier["w_bar"] * r for r in beam.uniform["continuous"]]
        for x, p in points:
            for i, share in enumerate(beam.point(x)["continuous"]):
                reactions[i] += p * share
        bent = Bent(beam, reactions, tier["w_bar"], points, section["e"] * section["i_x"])
        moment = max(moment, bent.largest_moment())
        own = bent.parts()
        parts = own if parts is None else [(max(a[0], b[0]), a[1]) for a, b in zip(parts, own, strict=True)]
        if s_ds:
            for permanent, live in ((1 + 0.14 * s_ds, 0.0), (1 + 0.105 * s_ds, 0.75)):
                moment = max(moment, largest_moment(beam, tier, loads, permanent, live, there))
    bow, length = max(parts, key=lambda part: part[0] / part[1])
    return {
        "moment": moment,
        "stress": 12 * moment / section["s_x"],
        "utilisation": 12 * moment / section["s_x"] / section["f_b"],
        "deflection": bow,
        "limit": 12 * length / section["limit"],
    }


def body_reactions(body):
    """Share of each rod, what lifts and the share that is surely there; None where nothing holds the body."""
    model = body.get("model", "larger")
    three = any_three(body["rods"], body["x_g"], body["y_g"])
    if three is None:
        return None
    alike = springs(body["rods"], body["x_g"], body["y_g"])
    share = {"equal_springs": alike, "any_three": three}.get(
        model, [max(pair) for pair in zip(alike, three, strict=True)]
    )
    weight = body["dead"] + body.get("contents", 0.0)
    rigid = model == "equal_springs" or len(body["rods"]) <= (2 if direction(body["rods"]) is not None else 3)
    return [
        (own, 0.0 if model == "any_three" else weight * spring, spring if rigid else 0.0)
        for own, spring in zip(share, alike, strict=True)
    ]


def carried(item, weights):
    """[parts, sums by model, least reactions, unused] of each hanger, None where it is lost; bars; held."""
    kind = item["kind"]
    if kind == "run":
        return run_reactions(item, weights), [], True
    if kind == "trapeze":
        return *trapeze_reactions(item, weights), True
    if kind == "riser":
        riser, w = item["riser"], per_foot(item, weights)
        share = riser["length"] if riser.get("one_carries") else riser["length"] / riser["supports"]
        own = {"dead": w["dead"] * share, "fluid": w["fluid"] * share, "live": 0.0, "test": w["test"] * share}
        own["sure"] = 0.0 if riser.get("one_carries") else own["dead"]
        total = own["dead"] + own["fluid"]
        return [[dict(own), [0.0] * 3, [total] * 2, 0.0] for _ in range(riser["supports"])], [], True
    body = item["equipment"]
    shares = body_reactions(body)
    found = []
    for share, lift, sure in shares or [(0.0, 0.0, 0.0)] * len(body["rods"]):
        own = {"dead": share * body["dead"], "fluid": share * body.get("contents", 0.0), "live": 0.0, "test": 0.0}
        own["sure"] = sure * body["dead"]
        found.append([own, [0.0] * 3, [lift] * 2, 0.0])
    return found, [], shares is not None


def component_force(own, w_p):
    """F_p of ASCE 7-16 or 7-22, 13.3.1."""
    s, i_p = own["s_ds"], own["i_p"]
    z_h = min(max(own["z"] / own["h"], 0.0), 1.0)
    if own["newer"]:
        h_f, r_mu = 1.0, 1.0
        if not own["at_grade"]:
            h_f, r_mu = 1 + 2.5 * z_h, 1.3
            if own["period_known"]:
                t = own["t_a"]
                h_f = 1 + min(1 / t, 2.5) * z_h + max(1 - (0.4 / t) ** 2, 0.0) * z_h**10
            if own["system_known"]:
                r_mu = max(sqrt(1.1 * own["r"] / (own["i_e"] * own["omega_building"])), 1.3)
        f_p = 0.4 * s * i_p * w_p * h_f / r_mu * own["c_ar"] / own["r_po"]
    else:
        f_p = 0.4 * own["a_p"] * s * w_p / (own["r_p"] / i_p) * (1 + 2 * z_h)
    f_p = max(0.3 * s * i_p * w_p, min(f_p, 1.6 * s * i_p * w_p))
    return f_p * (2 if own["isolator_gap"] else 1)


def exemptions(item, own, weights, loads):
    """Claims of exemption: ASCE 7-16 13.1.4, 13.6.5 to 13.6.7, ASCE 7-10 13.6.5.6, all from memory; none of sprinkler
    lines, which have the rules of NFPA 13.
    """
    lines = item.get("lines", ())
    if any(line.get("sprinkler") for line in lines):
        return []
    rod = item.get("rod") or {}
    each = [line.get("number", 1.0) * (w[0] + w[1]) for line, w in zip(lines, weights, strict=True)]
    ordinary, category, trapeze = own["i_p"] <= 1, own["category"], item["kind"] == "trapeze"
    most = sum(loads) if trapeze else max(loads)
    inches = 12 * rod["l_rod"] if rod.get("l_rod") and item["kind"] != "riser" else 1e6
    d = THREADS[rod["size"]][0] if rod.get("size") else 0.0
    kinds = {line["kind"] for line in lines}
    places, foot = standing_on(item, sum(each) * (1 + item.get("spare", 0.0)))
    line = item["kind"] != "equipment" and not own["ceiling"]
    claims = {
        "by_category": category == 0 or (category <= (1 if own["ceiling"] else 2) and ordinary),
        "by_weight": line and ordinary and foot <= 5 and max(places, default=0) <= 20,
        "by_short_hangers": line and own["bending_free"] and inches <= 12,
        "by_trapeze_weight": line and trapeze and foot < 10,
        "by_rod_load": line and not trapeze and ordinary and d >= 0.375 and inches <= 12 and most <= 50,
        "by_trapeze_load": line
        and trapeze
        and ordinary
        and any(
            d >= thick and inches <= long and most <= load
            for thick, long, load in ((0.375, 12, 100), (0.5, 12, 200), (0.5, 24, 100))
        ),
        "by_duct_area": False,
        "by_pipe_size": False,
    }
    if kinds == {"duct"}:
        area = max(line["a"] * (line.get("b") or line["a"]) / 144 for line in lines)
        claims["by_duct_area"] = line and ordinary and 0 < area < 6 and foot <= 20
    if kinds == {"pipe"} and not own["newer"]:
        size = max(line.get("nominal", 0.0) for line in lines)
        largest = 3 if ordinary else 1 if category >= 3 else 2
        claims["by_pipe_size"] = line and 0 < size <= largest and own["r_p"] >= 4.5 and category >= 2
    return sorted(name for name, holds in claims.items() if holds)


def standing_on(item, lines):
    """What stands at each place of the lines of an item but live load, and all of it a foot with the ``lines``."""
    on_run = [weight for _, weight, nature in item.get("loads", ()) if nature != "live"]
    on_bars = [own[1] for tier in item.get("tiers", ()) for own in {**TIER, **tier}["loads"] if own[2] != "live"]
    stated = {}
    for given in item.get("given", ()):
        if given["nature"] in ("dead", "contents"):
            stated[given["hanger"]] = stated.get(given["hanger"], 0.0) + max(given.get("n", 0.0), 0.0)
    spans, length = item.get("run", {}).get("spans", ()), 1.0
    if item["kind"] == "run":
        length = sum(spans) + item["run"].get("start", 0.0) + item["run"].get("end", 0.0)
    elif item["kind"] == "trapeze":
        at = item["run"]["support"]
        length = sum(spans[i] for i in (at - 1, at) if 0 <= i < len(spans)) / 2
    elif item["kind"] == "riser":
        length = item["riser"]["length"]
    whole = sum(on_run) + (1 + item.get("spare", 0.0)) * sum(on_bars) + sum(stated.values())
    return [*on_run, *on_bars, *stated.values()], lines + whole / length


def beside_lines(item, l_brace):
    """Point loads of a run but live ones; the bars of a trapeze and what is on them, as often as they stand there."""
    found = sum(weight for _, weight, nature in item.get("loads", ()) if nature != "live")
    if item["kind"] != "trapeze":
        return found
    run, at = item["run"], item["run"]["support"]
    reach = sum(run["spans"][i] for i in (at - 1, at) if 0 <= i < len(run["spans"])) / 2
    for given in item["tiers"]:
        tier = {**TIER, **given}
        found += tier["w_bar"] * (sum(tier["spans"]) + tier["start"] + tier["end"])
        room = 1 + item.get("spare", 0.0)
        found += room * sum(weight for _, weight, nature in tier["loads"] if nature != "live")
    return found * max(l_brace / reach, 1.0)


def seismic_of(item, weights, sure, pushes, service):
    """Force of the component, its brace, and claims; ``sure`` dead, ``service`` and pushes of the hangers there."""
    own = {**SEISMIC, **item["seismic"]}
    if item["kind"] == "equipment":
        w_p = item["equipment"]["dead"] + item["equipment"].get("contents", 0.0)
    else:
        w = per_foot(item, weights)
        w_p = (w["dead"] + w["fluid"]) * (1 + item.get("spare", 0.0))
        if own["braced"]:
            w_p = w_p * own["l_brace"] + beside_lines(item, own["l_brace"])
    f_p = component_force(own, w_p)
    omega = own["omega_0p"] if own["newer"] else own["omega_0"]
    found = {"w_p": w_p, "f_p": f_p, "f_p_anchorage": omega * f_p, "e_v": 0.2 * own["s_ds"] * w_p, "brace": None}
    if own["braced"]:
        theta = own["theta_v"] * pi / 180
        each = f_p / own["braces"]
        v = each / tan(theta)
        least = max(0.9 - 0.2 * own["s_ds"], 0.0)
        held = min(least * max(dead, 0.0) - push for dead, push in zip(sure, pushes, strict=True))
        lean = (item.get("rod") or {}).get("angle", 0.0) * pi / 180
        found["brace"] = {
            "axial": sqrt(each**2 + v**2),
            "v": v,
            "c_rod": max(v - held, 0.0) / cos(lean),
            "anchor_v": omega * v,
            "anchor_shear": omega * each,
        }
    found["claims"] = exemptions(item, own, weights, service) if own["category"] >= 0 else []
    return found


def rod_by_size(item):
    """Diameter that NFPA 13 asks for the largest sprinkler pipe, from memory; 0 beyond its table, None without one."""
    sizes = [line.get("nominal", 0.0) for line in item.get("lines", ()) if line.get("sprinkler")]
    if not sizes:
        return None
    size = max(sizes)
    return 0.625 if size in (10, 12) else 0.5 if size in (5, 6, 8) else 0.375 if 0 < size <= 4 else 0.0


def divided_rule(rule):
    """Weight that a load of the sprinkler rule, 5 W + 250 lb, counts, and its added part."""
    return ((rule - ADDED) / 5, ADDED) if rule > ADDED else (0.0, rule)


def rod_strength(rod):
    """(strength, whether against the factored load) of a rod's rule."""
    d, pitch = THREADS[rod["size"]]
    metric = rod["size"].startswith("M")
    if rod["rule"] == "tensile_strength":
        return 0.75 * rod["f_u"] * circle(d - (METRIC_STRESS if metric else UNIFIED_STRESS) * pitch), True
    stress = 9_000.0 if rod["rule"] == "sp58_allowable_older" else 50_000.0 / 3.5 * 0.75
    return stress * circle(d - (METRIC_ROOT if metric else UNIFIED_ROOT) * pitch), False


def rod_load(rod):
    """Weight of the rod: a cylinder at the pitch diameter of its thread."""
    if not rod.get("size"):
        return 0.0
    d, pitch = THREADS[rod["size"]]
    return STEEL * circle(d - 0.649519 * pitch) / 144 * rod.get("l_rod", 0.0)


def by_nature(item, own, there, stated):
    """Service loads of one hanger by nature, and the two sums of the sprinkler rule."""
    rod, impact = item.get("rod") or {}, item.get("impact", 1.0)
    sprinkler = any(line.get("sprinkler") for line in item.get("lines", ()))
    loads = dict.fromkeys(NATURES, 0.0)
    if not there:
        return loads, None
    loads["dead"] = impact * own["dead"] + rod_load(rod)
    loads["contents"] = impact * own["fluid"]
    loads["live"] = own["live"] + item.get("erection", 0.0) + (ADDED if sprinkler else 0.0)
    filled = max(own["dead"] + max(own["fluid"], 0.0) + stated, 0.0)
    rule = (5 * filled + ADDED, filled + ADDED) if sprinkler else None
    if rule:
        loads["sprinkler_rule"] = rule[0]
    return loads, rule


def together(nature, loads):
    """Loads of one nature at one hanger: what may be absent takes nothing from what pulls."""
    if min(loads) >= 0.0 or max(loads) <= 0.0:
        return sum(loads)
    if nature == "earthquake":
        return sum(abs(load) for load in loads)
    if nature == "dead":
        return sum(loads)
    return sum(load for load in loads if load > 0.0)


def lowest_of(item, number, sure):
    """The least that each nature may be at a hanger, and whether a load other than earthquake and one of it are stated.

    Dead load is what is sure and what is stated; of everything else all that pushes.
    """
    own = [(each["nature"], each.get("n", 0.0)) for each in item.get("given", ()) if each["hanger"] == number]
    lowest = dict.fromkeys(NATURES, 0.0)
    for nature in NATURES:
        loads = [load for of, load in own if of == nature]
        if nature == "dead":
            lowest[nature] = sure + sum(loads)
        elif nature != "earthquake":
            lowest[nature] = sum(min(load, 0.0) for load in loads)
    pushes = any(load < 0.0 for nature, load in own if nature != "earthquake")
    return lowest, (pushes, any(load for nature, load in own if nature == "earthquake"))


def loads_of(item, edition):
    """Every number of the answer for one item."""
    weights = weights_of(item)
    found, bars, held = carried(item, weights)
    tested = any(own[4] for own in weights)
    rod = item.get("rod") or {}
    slope = tan(rod.get("angle", 0.0) * pi / 180)
    nothing = [{**dict.fromkeys(PARTS, 0.0), "sure": 0.0}, [0.0] * 3, [0.0] * 2, 0.0]
    hangers = []
    for own in found:
        parts, sums, least, _ = own or nothing
        stated = sum(
            max(given.get("n", 0.0), 0.0)
            for given in item.get("given", ())
            if given["hanger"] == len(hangers) and given["nature"] in ("dead", "contents")
        )
        loads, rule = by_nature(item, parts, own is not None, stated)
        loads["test"] = parts["test"] if tested else 0.0
        hangers.append(
            {
                "there": own is not None,
                "parts": parts,
                "models": sums,
                "least": least,
                "rule": rule,
                "tension": loads,
                "shear": {nature: [0.0, 0.0] for nature in NATURES},
                "slides": {nature: [] for nature in NATURES},
            }
        )
    seismic, s_ds = None, 0.0
    if "seismic" in item:
        alive = [hanger["tension"] for hanger in hangers if hanger["there"]]
        stated = [
            sum(
                max(given.get("n", 0.0), 0.0)
                for given in item.get("given", ())
                if given["hanger"] == number and given["nature"] in ("dead", "contents")
            )
            for number, hanger in enumerate(hangers)
            if hanger["there"]
        ]
        service = [loads["dead"] + loads["contents"] + own for loads, own in zip(alive, stated, strict=True)]
        sure = [
            hanger["parts"]["sure"]
            + sum(
                min(given.get("n", 0.0), 0.0)
                for given in item.get("given", ())
                if given["hanger"] == number and given["nature"] in ("dead", "contents")
            )
            for number, hanger in enumerate(hangers)
            if hanger["there"]
        ]
        pushes = [
            sum(
                abs(given.get("n", 0.0)) if given["nature"] == "earthquake" else max(-given.get("n", 0.0), 0.0)
                for given in item.get("given", ())
                if given["hanger"] == number and given["nature"] in ("earthquake", "thermal")
            )
            for number, hanger in enumerate(hangers)
            if hanger["there"]
        ]
        seismic = seismic_of(item, weights, sure, pushes, service)
        s_ds = item["seismic"]["s_ds"]
    for number, hanger in enumerate(hangers):
        hanger["lowest"] = lowest_of(item, number, hanger["parts"]["sure"])
        for nature in NATURES:
            hanger["tension"][nature] = together(
                nature,
                [
                    hanger["tension"][nature],
                    *(
                        given.get("n", 0.0)
                        for given in item.get("given", ())
                        if given["hanger"] == number and given["nature"] == nature
                    ),
                ],
            )
    for given in item.get("given", ()):
        hanger = hangers[given["hanger"]]
        wet = tested and given["nature"] == "contents"
        if wet:
            hanger["tension"]["test"] += max(given.get("n", 0.0), 0.0)
        for nature in [given["nature"], *(["test"] if wet else [])]:
            hanger["slides"][nature].append(given.get("v", (0.0, 0.0)))
    for hanger in hangers:
        for nature, slides in hanger["slides"].items():
            hanger["shear"][nature] = [one_way(nature, [v[axis] for v in slides]) for axis in (0, 1)]
        finish(item, hanger, seismic, s_ds, slope, edition)
    return {"hangers": hangers, "bars": bars, "held": held, "seismic": seismic, "weights": weights}


def one_way(nature, shears):
    """Shears along an axis: what may be absent takes nothing from the rest, the larger sum of one sign counts."""
    if nature in ("dead", "earthquake"):
        return sum(shears)
    return max(sum(v for v in shears if v > 0), sum(v for v in shears if v < 0), key=abs)


def finish(item, hanger, seismic, s_ds, slope, edition):
    """Brace, rod out of plumb, combinations and the check of the rod at one hanger."""
    loads, rod = hanger["tension"], item.get("rod") or {}
    if seismic and seismic["brace"] and hanger["there"]:
        loads["earthquake"] = abs(loads["earthquake"]) + seismic["brace"]["v"]
    lowest, stated = hanger["lowest"]
    hanger["pushed"] = []
    for push in (0.0, -abs(loads["earthquake"])):
        own = lowest | {"earthquake": push} | {of: min(loads[of], lowest[of]) for of in ("test", "sprinkler_rule")}
        hanger["pushed"].append(least(loads, hanger["shear"], own, s_ds, edition))
    hanger["stated"] = stated
    for name, allowable in (("strength", False), ("allowable", True)):
        cases = combined(loads, hanger["shear"], s_ds, edition, allowable, slope)
        hanger[name] = cases
        hanger[f"worst_{name}"] = max(pull for pull, _ in cases.values())
        hanger[f"worst_shear_{name}"] = max(slide for _, slide in cases.values())
    if rod.get("rule"):
        strength, factored = hanger["rod"] = rod_strength(rod)
        pull = hanger["worst_strength" if factored else "worst_allowable"]
        if not factored and loads["sprinkler_rule"] > 0:
            # what the rule counts five times hangs there once, and its 250 lb
            counted, added = divided_rule(loads["sprinkler_rule"])
            pull = max(pull, counted + added)
        hanger["demand"] = max(pull, 0.0) * sqrt(1 + slope**2)
        hanger["utilisation"] = hanger["demand"] / strength


def findings_of(item, answer):
    """(code, part, of which kind, value, limit, rule) of everything that is seen."""
    hangers, kind = answer["hangers"], item["kind"]
    rod, found = item.get("rod") or {}, []
    totals = [hanger["parts"]["dead"] + hanger["parts"]["fluid"] + hanger["parts"]["live"] for hanger in hangers]
    dust = 1e-9 * max(map(abs, totals))
    if not answer["held"]:
        found.append(("no-balance", -1, "item", 0.0, 0.0, ""))
    for i, (hanger, total) in enumerate(zip(hangers, totals, strict=True)):
        continuous, hinged = hanger["least"]
        models = {**RUN, **item.get("run", {})}["model"]
        least = hinged if kind == "run" and models != "continuous" else min(continuous, hinged)
        if answer["held"]:
            if least < -dust:
                found.append(("hanger-uplift", i, "hanger", least, 0.0, ""))
            elif kind == "run" and continuous < -dust:
                found.append(("run-lifts-off", i, "hanger", continuous, 0.0, ""))
            if abs(total) <= dust and hanger["there"]:
                found.append(("hanger-unloaded", i, "hanger", total, 0.0, ""))
        pushes, shakes = hanger["stated"]
        plain, shaken = hanger["pushed"]
        if answer["held"] and pushes and plain < -1e-9:
            found.append(("hanger-pushed", i, "hanger", plain, 0.0, ""))
        elif answer["held"] and shakes and shaken < -1e-9:
            found.append(("rod-pushed-by-earthquake", i, "hanger", shaken, 0.0, ""))
        tributary, as_continuous = hanger["models"][:2]
        if kind == "run" and as_continuous > tributary * (1 + 1e-6) + dust:
            found.append(("first-interior-hanger", i, "hanger", as_continuous, tributary, ""))
        if hanger["rule"]:
            found.append(("sprinkler-structure-load", i, "hanger", hanger["rule"][1], 0.0, ""))
        needed = rod_by_size(item)
        if rod.get("rule") and needed is not None:
            d = THREADS[rod["size"]][0]
            if d < needed:
                found.append(("rod-below-size-table", i, "hanger", d, needed, ""))
            if not needed:
                found.append(("rod-size-not-covered", i, "hanger", d, 0.0, ""))
        if hanger.get("utilisation", 0.0) > 1 + 1e-9:
            found.append(("rod-overloaded", i, "hanger", hanger["demand"], hanger["rod"][0], ""))
    for number, bar in answer["bars"]:
        if bar["utilisation"] > 1 + 1e-9:
            f_b = item["tiers"][number]["section"]["f_b"]
            found.append(("bar-overstressed", number, "tier", bar["stress"], f_b, ""))
        if bar["deflection"] > bar["limit"]:
            found.append(("bar-deflection", number, "tier", bar["deflection"], bar["limit"], ""))
    found += sprinkler_bars(item, answer["weights"])
    return found + line_findings(item) + seismic_findings(item, answer["seismic"])


def sprinkler_bars(item, weights):
    """Annex of NFPA 13, from memory: (15 w + 250) L / (4 x 15,000 psi), off the middle L = 4 a b / (a + b), summed."""
    found = []
    for number, given in enumerate(item.get("tiers", ())):
        tier = {**TIER, **given}
        mine = [
            (line["at"], own[0] + own[1], line.get("number", 1.0))
            for line, own in zip(item["lines"], weights, strict=True)
            if line["tier"] == number and line.get("sprinkler")
        ]
        if not (tier["section"] and mine):
            continue
        span = tier["spans"][0]
        inside = [one for one in mine if len(tier["spans"]) == 1 and 0 < one[0] < span]
        needed = sum(n * (15 * w + 250) * 4 * a * (span - a) / span * 12 / 60_000 for a, w, n in inside)
        if tier["section"]["s_x"] < needed * (1 - 1e-9):
            found.append(("bar-below-sprinkler-modulus", number, "tier", tier["section"]["s_x"], needed, ""))
        if len(inside) < len(mine):
            found.append(("bar-modulus-not-covered", number, "tier", tier["section"]["s_x"], needed, ""))
    return found


def line_findings(item):
    lines, run, found = item.get("lines", ()), {**RUN, **item.get("run", {"spans": [0.0]})}, []
    longest, over = max(run["spans"]), max(run["start"], run["end"])
    for i, line in enumerate(lines):
        rule = line.get("spacing")
        if rule:
            if longest > rule["limit"] * (1 + 1e-9):
                found.append(("spacing-exceeded", i, "line", longest, rule["limit"], ""))
            if not rule["covered"]:
                found.append(("spacing-not-covered", i, "line", 0.0, 0.0, ""))
            found += [("spacing-rule-without-value", i, "line", 0.0, 0.0, RULE_NAMES[code]) for code in rule["lacking"]]
            if rule["vapour"] and line.get("rho_contents", 0.0) > 20.0:
                found.append(("spacing-rule-for-vapour", i, "line", 0.0, 0.0, ""))
            if rule["uniform_only"] and item["kind"] == "run" and item.get("loads"):
                found.append(("spacing-rule-with-point-load", i, "line", 0.0, 0.0, ""))
            if over > rule["end_limit"] * (1 + 1e-9):
                found.append(("overhang-exceeded", i, "line", over, rule["end_limit"], ""))
    some = [bool(line.get("sprinkler")) for line in lines]
    loaded = any(tier.get("loads") for tier in item.get("tiers", ()))
    if item["kind"] == "trapeze" and any(some) and (loaded or not all(some)):
        found.append(("shared-sprinkler-support", -1, "item", 0.0, 0.0, ""))
    return found


def seismic_findings(item, seismic):
    if seismic is None:
        return []
    found = [("bracing-exemption", -1, "item", 0.0, 0.0, name) for name in seismic["claims"]]
    if seismic["brace"] is None:
        found.append(("seismic-unbraced", -1, "item", 0.0, 0.0, ""))
    elif seismic["brace"]["c_rod"] > 0:
        found.append(pushed_rod(item.get("rod", {}), seismic["brace"]["c_rod"]))
    return found


def pushed_rod(rod, push):
    """A rod as a column of AISC 360 E3, F_y 30 ksi, tried from 0 to 200 radii of gyration."""
    free = rod.get("l_free") or 12 * rod.get("l_rod", 0.0)
    if not rod.get("size") or not free:
        return ("rod-pushed-by-brace", -1, "item", push, 0.0, "")
    d, pitch = THREADS[rod["size"]]
    root = d - (1.299038 if "/" in rod["size"] or rod["size"] == "1" else 1.226869) * pitch

    def carries(ratio):
        f_e = pi**2 * 29e6 / ratio**2
        f_cr = 0.658 ** (30e3 / f_e) * 30e3 if ratio <= 4.71 * sqrt(29e6 / 30e3) else 0.877 * f_e
        return 0.9 * f_cr * circle(root)

    low, high = 1e-9, 200.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if carries(middle) >= push else (low, middle)
    longest = 200.0 if carries(200.0) >= push else low
    longest *= root / 4
    code = "rod-pushed" if free <= longest else "rod-buckles"
    return (code, -1, "item", free, longest, "")
