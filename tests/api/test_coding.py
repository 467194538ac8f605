"""Content codings: bodies that come compressed, within their limits while they inflate, and answers that go so."""

import gzip
import json
import time
import tracemalloc
import zlib
from functools import cache

import pytest
from backports import zstd
from starlette.testclient import TestClient

from api.bodies import BATCH_JSON, SINGLE_JSON, as_lines
from hangpoint.api.coding import MAX_STREAMS, PIECE, Inflation
from hangpoint.api.compression import SMALLEST
from hangpoint.api.examples import BATCH_CSV, BATCH_LINES
from hangpoint.api.media import CSV, JSON, NDJSON
from hangpoint.api.problems import ProblemError
from hangpoint.api.routes.hang_points import BATCH_PATH, SINGLE_PATH
from hangpoint.app import create_app
from hangpoint.settings import Settings

PACK = {"gzip": gzip.compress, "x-gzip": gzip.compress, "GZIP": gzip.compress, "zstd": zstd.compress}
BODIES = {JSON: json.dumps(BATCH_JSON), NDJSON: BATCH_LINES, CSV: BATCH_CSV}
MEBIBYTE = 1024 * 1024
both = pytest.mark.parametrize("coding", ["gzip", "zstd"])


def with_checksum(coding):
    """An empty object, packed with a checksum, which gzip always has."""
    if coding == "gzip":
        return gzip.compress(b"{}")
    return zstd.compress(b"{}", options={zstd.CompressionParameter.checksum_flag: 1})


@cache
def spaces(coding, mebibytes):
    """A body of spaces, made piece by piece so that it never stands whole in memory."""
    packer = zlib.compressobj(9, zlib.DEFLATED, 31) if coding == "gzip" else zstd.ZstdCompressor(level=19)
    piece = b" " * MEBIBYTE
    return b"".join([*(packer.compress(piece) for _ in range(mebibytes)), packer.flush()])


@pytest.mark.parametrize("coding", PACK)
@pytest.mark.parametrize("media", BODIES)
def test_a_compressed_body_is_the_body(send, coding, media):
    plain = send(BODIES[media], media=media, status=200)
    packed = PACK[coding](BODIES[media].encode())
    assert send(packed, media=media, headers={"content-encoding": coding}, status=200) == plain


@both
def test_a_single_check_may_be_compressed(send_one, coding):
    packed = PACK[coding](json.dumps(SINGLE_JSON).encode())
    assert send_one(packed, headers={"content-encoding": coding}, status=200) == send_one(SINGLE_JSON, status=200)


@both
def test_streams_that_follow_one_another_are_one_body(send, coding):
    lines = [f"{json.dumps(line)}\n".encode() for line in as_lines(BATCH_JSON)]
    packed = b"".join(PACK[coding](line) for line in lines)
    plain = send(BATCH_LINES, media=NDJSON, status=200)
    assert send(packed, media=NDJSON, headers={"content-encoding": coding}, status=200) == plain


@pytest.mark.parametrize("media", BODIES)
@both
@pytest.mark.parametrize(
    "spoil",
    [
        lambda packed: packed[:-1],
        lambda packed: packed[: len(packed) // 2],
        lambda packed: packed[:1],
        lambda packed: packed + b"\x00",
        lambda packed: packed[:-6] + bytes(6),
        lambda packed: b"{}",
        lambda packed: bytes(len(packed)),
        lambda packed: packed * (MAX_STREAMS + 1),
    ],
    ids=["one byte less", "half", "one byte", "one byte more", "checksum", "not packed", "zeros", "too many"],
)
def test_a_broken_body_is_malformed(send, media, coding, spoil):
    problem = send(spoil(with_checksum(coding)), media=media, headers={"content-encoding": coding}, status=400)
    assert problem["type"] == "/problems/malformed"
    assert f"is not {coding} as its Content-Encoding says" in problem["detail"]


@pytest.mark.parametrize("coding", ["br", "deflate", "compress", "gzip, gzip", "gzip;q=1", "nope"])
@pytest.mark.parametrize("path", [SINGLE_PATH, BATCH_PATH])
@pytest.mark.parametrize("media", [JSON, NDJSON])
def test_a_coding_that_is_not_read(client, checked, coding, path, media):
    response = client.post(path, content=b"{}", headers={"content-type": media, "content-encoding": coding})
    assert (response.status_code, response.headers["accept-encoding"]) == (415, "gzip, zstd")
    assert checked(response)["type"] == "/problems/unsupported-media"


def test_a_coding_stated_in_parts_is_one_list(client, checked):
    headers = [("content-type", JSON), ("content-encoding", "gzip"), ("content-encoding", "gzip")]
    body = gzip.compress(gzip.compress(json.dumps(SINGLE_JSON).encode()))
    assert checked(client.post(SINGLE_PATH, content=body, headers=headers))["type"] == "/problems/unsupported-media"


def test_a_body_that_says_it_is_as_it_is(send_one):
    send_one(SINGLE_JSON, headers={"content-encoding": "identity"}, status=200)


@both
@pytest.mark.parametrize(
    ("path", "media", "limit"),
    [
        (SINGLE_PATH, JSON, 256 * 1024),
        (BATCH_PATH, JSON, 16 * MEBIBYTE),
        (BATCH_PATH, CSV, 16 * MEBIBYTE),
        (BATCH_PATH, NDJSON, 128 * MEBIBYTE),
    ],
)
def test_a_bomb_is_stopped_at_the_limit(client, checked, coding, path, media, limit):
    """A gibibyte of spaces in about a mebibyte, or far less: neither its time nor its memory is spent."""
    bomb = spaces(coding, 1024)
    assert len(bomb) < 1.1 * MEBIBYTE
    tracemalloc.start()
    started = time.perf_counter()
    response = client.post(path, content=bomb, headers={"content-type": media, "content-encoding": coding})
    seconds = time.perf_counter() - started
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    problem = checked(response)
    assert (response.status_code, problem["type"], problem["limit"]) == (413, "/problems/too-large", limit)
    assert limit < problem["received"] <= max(limit + PIECE, len(bomb))
    assert seconds < 5
    assert peak < min(limit, 16 * MEBIBYTE) * 1.2 + 8 * MEBIBYTE


@both
def test_a_body_at_its_limit_inflated_and_one_byte_more(coding):
    text = json.dumps(SINGLE_JSON)
    client = TestClient(create_app(Settings(max_single_bytes=4096)))
    for size, status in ((4096, 200), (4097, 413)):
        packed = PACK[coding](text.ljust(size).encode())
        headers = {"content-type": JSON, "content-encoding": coding}
        assert client.post(SINGLE_PATH, content=packed, headers=headers).status_code == status


def test_many_bytes_that_inflate_to_none_are_counted_too(send_one):
    skipped = b"\x50\x2a\x4d\x18" + (300_000).to_bytes(4, "little") + bytes(300_000)
    problem = send_one(skipped + zstd.compress(b"{}"), headers={"content-encoding": "zstd"}, status=413)
    assert problem["limit"] == 256 * 1024


def test_a_window_that_takes_too_much_memory_is_not_made(send):
    """RFC 9659: a window of more than 8 MiB is not for HTTP."""
    options = {zstd.CompressionParameter.window_log: 24, zstd.CompressionParameter.content_size_flag: 0}
    packer = zstd.ZstdCompressor(options=options)
    packed = b"".join([*(packer.compress(b" " * MEBIBYTE) for _ in range(12)), packer.flush()])
    problem = send(packed, headers={"content-encoding": "zstd"}, status=400)
    assert problem["type"] == "/problems/malformed"


@both
@pytest.mark.parametrize("step", [1, 7, 1000, 10**6])
def test_pieces_are_whole_and_bounded(coding, step):
    """However the bytes of a body come, by themselves or together."""
    text = b"".join(b"%d," % at for at in range(200_000))
    packed = PACK[coding](text[:-1000]) + PACK[coding](text[-1000:])
    packed = packed if step > 10 else PACK[coding](text[:2000])
    inflation = Inflation(coding)
    pieces = [piece for at in range(0, len(packed), step) for piece in inflation.pieces(packed[at : at + step])]
    inflation.end()
    assert b"".join(pieces) == (text if step > 10 else text[:2000])
    assert all(0 < len(piece) <= PIECE for piece in pieces)


def test_a_body_without_bytes_has_no_streams():
    inflation = Inflation("gzip")
    assert list(inflation.pieces(b"")) == []
    inflation.end()


def test_an_unknown_coding_is_refused_before_any_byte():
    with pytest.raises(ProblemError, match="unsupported-media"):
        Inflation("br")


LARGE = {**BATCH_JSON, "items": [{"id": f"P{at}"} for at in range(200)]}


def raw(client, path, accept_encoding, **options):
    """Headers and bytes as they were sent."""
    headers = {"accept-encoding": accept_encoding, "content-type": JSON}
    with client.stream("POST", path, content=json.dumps(LARGE), headers=headers, **options) as response:
        return response.headers, b"".join(response.iter_raw())


@pytest.mark.parametrize("form", ["json", "ndjson", "csv"])
def test_a_large_answer_is_compressed_where_the_caller_asks(client, form):
    plain_headers, plain = raw(client, f"{BATCH_PATH}?format={form}", "identity")
    headers, packed = raw(client, f"{BATCH_PATH}?format={form}", "br, gzip;q=0.5")
    assert "content-encoding" not in plain_headers
    assert (headers["content-encoding"], headers["vary"]) == ("gzip", "Accept-Encoding")
    assert len(plain) > SMALLEST
    assert len(packed) < len(plain) / 4
    assert gzip.decompress(packed) == plain


@pytest.mark.parametrize("asked", ["gzip;q=0", "br, gzip; q=0.000, deflate", "identity", ""])
def test_it_is_not_where_the_caller_does_not(client, asked):
    assert "content-encoding" not in raw(client, BATCH_PATH, asked)[0]


def test_a_workbook_is_compressed_already(client):
    assert "content-encoding" not in raw(client, f"{BATCH_PATH}?format=xlsx", "gzip")[0]


def test_a_small_answer_is_sent_as_it_is(client):
    response = client.post(SINGLE_PATH, json=SINGLE_JSON, headers={"accept-encoding": "gzip"})
    assert len(response.content) < SMALLEST
    assert "content-encoding" not in response.headers


def test_what_has_a_strong_etag_has_one_form(client):
    response = client.get("/v1/quantities", headers={"accept-encoding": "gzip"})
    assert "content-encoding" not in response.headers


def test_a_stream_is_compressed_line_by_line(client):
    """Each block can be read when it has come."""
    headers = {"accept-encoding": "gzip", "content-type": NDJSON}
    lines = as_lines({**LARGE, "detail": "verdict", "items": [{"id": f"P{at}"} for at in range(1500)]})
    text = "\n".join(json.dumps(line) for line in lines)
    with client.stream("POST", BATCH_PATH, content=text, headers=headers) as response:
        assert response.headers["content-encoding"] == "gzip"
        opener = zlib.decompressobj(31)
        parts = [opener.decompress(part) for part in response.iter_raw()]
    ends = [part.endswith(b"\n") for part in parts if part]
    assert len(ends) >= 3
    assert all(ends)
    assert b"".join(parts).count(b"\n") == 1502
