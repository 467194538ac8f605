"""Load maps: what hang points load the structure with, where, on a plan and in a table."""

from hangpoint.api.csv_resource import CsvBody
from hangpoint.api.examples_load_maps import LOAD_MAPS_CSV, LOAD_MAPS_JSON
from hangpoint.api.load_maps import run_load_maps, run_load_maps_csv
from hangpoint.api.media import HTML, PDF
from hangpoint.api.resource import FileForm, Resource
from hangpoint.api.schemas.load_maps import LoadMapAnswer, LoadMapHead
from hangpoint.api.schemas.request import BatchRequest
from hangpoint.report.load_map.page import load_map_html, sheet_count

DESCRIPTION = """\
The loads of hang points on the structure, by place: what the engineer of record asks for before anything is hung.

A body of `POST /v1/hang-points` is read as it is and checked; its `detail` is not used. Every point comes back with its
place, its service loads by nature, the load on the structure (of a sprinkler point weight + 250 lb, not 5 x weight +
250 lb), the largest tension and shear of its load cases, and its verdict; every level has the sums, those of points
that pull apart from those that push. A level is a map, for each face that points hang from; points that state no level
are on the map of their member. Points that don't state both coordinates are listed and in the sums. One bad item never
costs the others.

As HTML and as PDF it is a plan of every level to scale, with the table of its points, on sheets of up to 60 points
each. Whether the structure carries the loads is not checked.
"""

CSV_TEXT = """\
One row a hang point, with the columns of a CSV of `POST /v1/hang-points`. `project.name=TEXT` and the other texts of a
project, and `default.COLUMN=CELL`, may stand in the query.\
"""

LOAD_MAPS = Resource(
    path="/v1/load-maps",
    operation_id="mapLoads",
    tag="hang points",
    summary="Loads on the structure, by place",
    description=DESCRIPTION,
    request=BatchRequest,
    answer=LoadMapAnswer,
    answer_text="The maps with their sums, and the loads or a problem for every item.",
    example=LOAD_MAPS_JSON,
    run=run_load_maps,
    files=(
        FileForm(word="html", media=HTML, name="load_map.html", write=load_map_html, sheets=sheet_count),
        FileForm(word="pdf", media=PDF, name="load_map.pdf", write=load_map_html, sheets=sheet_count),
    ),
    by_item=True,
    csv=CsvBody(head=LoadMapHead, run=run_load_maps_csv, text=CSV_TEXT, example=LOAD_MAPS_CSV, project=True),
)
