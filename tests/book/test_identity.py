"""UUIDv7 as in RFC 9562."""

from __future__ import annotations

import time
from uuid import UUID

import pytest

from fieldbook.book.identity import accept_id, uuid7
from fieldbook.errors import UnsuitableText


def test_uuid7_has_version_variant_and_time() -> None:
    """Version 7, variant 10b, and the milliseconds since 1970 in its first 48 bits (RFC 9562, 5.7)."""
    before = time.time_ns() // 1_000_000
    made = UUID(uuid7())
    assert made.version == 7
    assert made.int >> 62 & 0b11 == 0b10
    assert before - 1 <= made.int >> 80 <= time.time_ns() // 1_000_000 + 1


def test_uuid7_layout_is_that_of_the_published_example() -> None:
    """The example of RFC 9562, A.6, is read by the same layout: 1645557742000 ms, rand_a 0xCC3."""
    example = UUID(accept_id("id", "017F22E2-79B0-7CC3-98C4-DC0C0C07398F"))
    assert example.int >> 80 == 1_645_557_742_000
    assert example.int >> 64 & 0xFFF == 0xCC3


def test_uuid7_in_one_process_always_grows() -> None:
    """Ids made one after another sort in that order, so that a device's entries do."""
    made = [uuid7() for _ in range(5_000)]
    assert made == sorted(set(made))


@pytest.mark.parametrize("value", [None, 7, "", "R1", "017f22e2"])
def test_accept_id_other_value_is_refused(value: object) -> None:
    """What is no UUID is refused by the field it came under."""
    with pytest.raises(UnsuitableText) as refusal:
        accept_id("item", value)
    assert refusal.value.field == "item"
