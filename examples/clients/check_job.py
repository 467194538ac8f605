"""Posts a CSV of hang points to a service and prints what does not pass. Standard library only.

    python check_job.py hang_points.csv [http://127.0.0.1:8000]

Exit code 0 if every point passed, 1 if some did not, 2 if the file can't be read, or the service refused it or
doesn't answer.
"""

import json
import sys
from pathlib import Path
from urllib.error import HTTPError
from urllib.request import Request, urlopen


def check(file, service):
    """The answer of the service, as it came."""
    request = Request(  # noqa: S310
        f"{service}/v1/hang-points?format=json",
        data=Path(file).read_bytes(),
        headers={"Content-Type": "text/csv; charset=utf-8", "Accept": "application/json"},
        method="POST",
    )
    with urlopen(request, timeout=60) as response:  # noqa: S310
        return json.load(response)


def why(item):
    """What is wrong with one point, in words."""
    if item["status"] == "invalid":
        return "; ".join(
            f"line {error.get('line', '?')} {error['pointer']}: {error['detail']}"
            for error in item["problem"]["errors"]
        )
    if item["status"] == "refused":
        return item["reason"]["text"]
    violations = [finding["text"] for finding in item["findings"] if finding["severity"] == "violation"]
    over = [item["governing"]["text"]] if item["governing"]["utilisation"] > 1 else []
    return " ".join(over + violations)


def main():
    if len(sys.argv) < 2:
        print(__doc__, file=sys.stderr)
        return 2
    file, service = sys.argv[1], sys.argv[2] if len(sys.argv) > 2 else "http://127.0.0.1:8000"
    try:
        answer = check(file, service.rstrip("/"))
    except HTTPError as error:
        print(error.read().decode(), file=sys.stderr)
        return 2
    except OSError as error:
        print(f"{file} to {service}: {error}", file=sys.stderr)
        return 2
    for item in answer["items"]:
        if item["status"] != "passed":
            print(f"{item['status']:8} {item['id']}  {why(item)}")
    summary = answer["summary"]
    print("\nSummary:", ", ".join(f"{summary[name]} {name}" for name in ("passed", "failed", "refused", "invalid")))
    print(*(f"- {caution}" for caution in answer["cautions"]), sep="\n")
    return 0 if summary["passed"] == summary["total"] else 1


if __name__ == "__main__":
    sys.exit(main())
