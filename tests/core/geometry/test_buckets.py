"""Buckets of rows: each row of two or more once, with those of its count, in blocks of the size to hold."""

import numpy as np
import pytest

from hangpoint.core.geometry import buckets


@pytest.mark.parametrize("block", [1, 40, 1 << 20])
def test_each_row_once_with_its_count(monkeypatch, block):
    monkeypatch.setattr(buckets, "BLOCK", block)
    count = np.random.default_rng(3).integers(0, 6, 200)
    seen = []
    for size, rows in buckets.buckets(count, cells=lambda n: n * n):
        assert set(count[rows].tolist()) == {size}
        assert len(rows) == 1 or len(rows) * size * size <= block
        seen += rows.tolist()
    assert sorted(seen) == np.flatnonzero(count > 1).tolist()


def test_no_rows():
    assert list(buckets.buckets(np.zeros(0, dtype=np.intp), cells=lambda n: n)) == []
