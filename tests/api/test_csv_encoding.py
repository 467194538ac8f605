"""The encoding of a CSV: UTF-8, or windows-1252 where that is stated, and never a guess.

The bytes of windows-1252 are those of the encoding's published table: 0xB0 degree sign, 0xBD one half, 0xA0 a space
that does not break, 0x96 an en dash, 0x92 a right quote; 0x81 is no character of it.
"""

import pytest

from api.test_csv import JOB, written
from hangpoint.api.media import CSV
from hangpoint.api.routes.hang_points import BATCH_PATH

WINDOWS = {"id": "H-1 90\xb0", "base.edges.y_plus": '8\xbd"', "base.thickness": "6\xa0in", "trade": "east \x96 riser"}
PLAIN = {"id": "H-1 90°", "base.edges.y_plus": "8.5 in", "base.thickness": "6 in", "trade": "east \u2013 riser"}
BODY = written([JOB[0] | WINDOWS]).encode("latin-1")
UTF_8 = written([JOB[0] | PLAIN]).encode()


def test_a_file_of_windows_is_refused_and_told_what_to_state(send_csv):
    problem = send_csv(BODY, status=400)
    assert problem["errors"][0]["line"] == 2
    assert "or state encoding=windows-1252 (of the command, --encoding windows-1252)" in problem["detail"]


@pytest.mark.parametrize(
    ("query", "media"),
    [
        ("&encoding=windows-1252", CSV),
        ("", f"{CSV}; charset=windows-1252"),
        ("", f'{CSV};Charset="Windows-1252"'),
        ("&encoding=windows-1252", f"{CSV}; charset=utf-8"),
    ],
)
def test_a_stated_encoding_is_read(client, checked, send_csv, query, media):
    response = client.post(f"{BATCH_PATH}?format=json{query}", content=BODY, headers={"content-type": media})
    answer = checked(response)
    assert answer["items"][0]["id"] == "H-1 90°"
    assert answer["request_digest"] == send_csv(UTF_8, "?format=json", status=200)["request_digest"]


@pytest.mark.parametrize("body", [UTF_8, b"\xef\xbb\xbf" + written(JOB).encode()])
def test_a_file_in_utf_8_is_not_read_otherwise(send_csv, body):
    """Its degree sign would be two other signs, unsaid."""
    (error,) = send_csv(body, "?encoding=windows-1252", status=422)["errors"]
    assert (error["pointer"], error["code"]) == ("?encoding", "contradiction")


@pytest.mark.parametrize("query", ["?encoding=windows-1252", "?encoding=utf-8"])
def test_a_file_of_plain_letters_is_the_same_in_both(send_csv, query):
    assert send_csv(written(JOB), query, status=200) == send_csv(written(JOB), status=200)


def test_a_byte_that_windows_has_no_character_for(send_csv):
    problem = send_csv(BODY.replace(b"\x96", b"\x81"), "?encoding=windows-1252", status=400)
    assert "is not in windows-1252" in problem["detail"]
    assert problem["errors"][0]["line"] == 2


@pytest.mark.parametrize("media", [f"{CSV}; charset=latin-1", "application/json; charset=windows-1252"])
def test_other_encodings_are_not_read(client, checked, media):
    response = client.post(BATCH_PATH, content=b"{}", headers={"content-type": media})
    assert checked(response)["status"] == 415


def test_an_encoding_that_there_is_not(send_csv):
    (error,) = send_csv(BODY, "?encoding=latin-1", status=422)["errors"]
    assert error["allowed"] == ["utf-8", "windows-1252"]
