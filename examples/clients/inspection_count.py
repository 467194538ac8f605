"""Posts a CSV of hang points and prints, for one level, how many anchors of each product there are to test, and how
hard. Standard library only.

    python inspection_count.py hang_points.csv LEVEL [http://127.0.0.1:8000]

The rule is this client's own, from memory of secondary texts: the lesser of 1.25 times the design strength in tension
and 0.8 of the yield of the steel. POST /v1/test-plans of the service has rules with a name, and says which anchors to
pull. Of a product whose anchors differ in strength the least one counts. The engineer of record and the authority
decide which rule holds, how many of the anchors are pulled, and for how long. Points that don't pass are not counted:
they are named. Exit code 2 if the file can't be read, has nothing on the level, or the service refused it or doesn't
answer.
"""

import csv
import json
import sys
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import Request, urlopen

RULE = "lesser of 1.25 x design strength and 0.8 x yield"
TENSION = ("steel_tension", "pullout", "adhesive_bond", "concrete_breakout_tension", "side_face_blowout")
NEWTON = 1 / 4.4482216152605
"""One newton in lbf."""


def get(address, file=None):
    """A JSON answer of the service; to a CSV, if one is sent."""
    request = Request(  # noqa: S310
        address,
        data=file and Path(file).read_bytes(),
        headers={"Content-Type": "text/csv; charset=utf-8"} if file else {},
    )
    with urlopen(request, timeout=60) as response:  # noqa: S310
        return json.load(response)


def design_strength(item):
    """Least design strength of one anchor in tension, over the modes that apply, in lbf."""
    return min(mode["design_strength"] for mode in item["modes"] if mode["applies"] and mode["mode"] in TENSION)


def yield_force(service, product):
    """A_se f_ya of a product ``family/size/h_ef``, in lbf."""
    family_id, _, rest = product.partition("/")
    size = rest.rpartition("/")[0]
    family = get(f"{service}/v1/families/{family_id}")
    own = next(each for each in family["sizes"] if each["size"] == size)
    return own["a_se"] * own["f_ya"] * (NEWTON if family["units"] == "si" else 1.0)


def main():
    if len(sys.argv) < 3:
        print(__doc__, file=sys.stderr)
        return 2
    file, level = sys.argv[1:3]
    service = (sys.argv[3] if len(sys.argv) > 3 else "http://127.0.0.1:8000").rstrip("/")
    try:
        with open(file, newline="", encoding="utf-8-sig") as opened:
            here = {row.get("id") for row in csv.DictReader(opened) if row.get("level") == level}
        answer = get(f"{service}/v1/hang-points?format=json&detail=modes", file)
    except HTTPError as error:
        print(error.read().decode(), file=sys.stderr)
        return 2
    except OSError as error:
        print(f"{file} to {service}: {error}", file=sys.stderr)
        return 2
    if not here:
        print(f"{file} has no row whose column level is {level}.", file=sys.stderr)
        return 2
    strengths = {}
    for item in (each for each in answer["items"] if each["id"] in here):
        if item["status"] == "passed":
            strengths.setdefault(item["product"]["address"], []).append(design_strength(item))
        else:
            print(f"not counted, {item['status']}: {item['id']}")
    print(f"{'product on ' + level:44} {'count':>5} {'test load [lbf]':>16}  {RULE}")
    for product in sorted(strengths):
        by_strength, by_yield = 1.25 * min(strengths[product]), 0.8 * yield_force(service, product)
        decides = "design strength" if by_strength <= by_yield else "yield"
        print(f"{product:44} {len(strengths[product]):5} {min(by_strength, by_yield):16.0f}  {decides}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
