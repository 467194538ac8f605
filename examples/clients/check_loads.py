"""Posts hanger loads to a service and what they make, hang points, to its check. Standard library only.

    python check_loads.py loads.json anchors.json [http://127.0.0.1:8000]

``loads.json`` is a request for hanger loads, ``anchors.json`` holds what its hang points lack: anchor, base, seismic
design category. Exit code 0 if every hang point passed, 1 if some did not, 2 if a file can't be read, or the service
refused a request or doesn't answer.
"""

import json
import sys
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import Request, urlopen


def post(address, body):
    """The answer of the service, as it came."""
    request = Request(  # noqa: S310
        address, data=json.dumps(body).encode(), headers={"Content-Type": "application/json"}, method="POST"
    )
    with urlopen(request, timeout=60) as response:  # noqa: S310
        return json.load(response)


def hang_points(loads):
    """Every hang point of every item that could be read."""
    return [point for item in loads["items"] for point in item.get("hang_points", ())]


def main():
    if len(sys.argv) < 3:
        print(__doc__, file=sys.stderr)
        return 2
    loads_file, anchors_file = sys.argv[1:3]
    service = (sys.argv[3] if len(sys.argv) > 3 else "http://127.0.0.1:8000").rstrip("/")
    try:
        request, defaults = (json.loads(Path(file).read_text(encoding="utf-8")) for file in (loads_file, anchors_file))
        loads = post(f"{service}/v1/hanger-loads", request)
        check = {
            "units": request["units"],
            "load_standard": loads["load_standard"],
            "defaults": defaults,
            "items": hang_points(loads),
        }
        answer = post(f"{service}/v1/hang-points", check)
    except HTTPError as error:
        print(error.read().decode(), file=sys.stderr)
        return 2
    except OSError as error:
        print(f"{loads_file}, {anchors_file} to {service}: {error}", file=sys.stderr)
        return 2
    for item in loads["items"]:
        if item["status"] != "passed":
            print(f"{item['status']:8} {item['id']}  as loads")
    for item in answer["items"]:
        governing = item.get("governing")
        used = f"  {governing['utilisation']:.0%}  {governing['text']}" if governing else ""
        print(f"{item['status']:8} {item['id']}{used}")
    print(*(f"- {caution}" for caution in answer["cautions"]), sep="\n")
    return 0 if answer["summary"]["passed"] == answer["summary"]["total"] else 1


if __name__ == "__main__":
    sys.exit(main())
