"""The cache never holds more than its room, keeps what was used last, and reads once what it holds."""

import numpy as np

from indexer.library.array_cache import ENTRY_BYTES, ArrayCache


def of_size(count):
    return (np.zeros(count, np.uint8),)


def reading(cache, asked, key, count):
    """Ask for a key, and note when it had to be read."""

    def read():
        asked.append(key)
        return of_size(count)

    return cache.of(key, read)


def test_what_was_used_last_stays_within_the_room():
    cache, asked = ArrayCache(3 * (ENTRY_BYTES + 100)), []
    for key in ("a", "b", "c", "a", "d"):  # there is room for three; "b" was used longest ago
        reading(cache, asked, key, 100)
        assert cache.bytes <= 3 * (ENTRY_BYTES + 100)
    for key in ("a", "c", "d", "b"):
        reading(cache, asked, key, 100)
    assert asked == ["a", "b", "c", "d", "b"]


def test_what_is_larger_than_the_room_is_given_and_not_kept():
    cache, asked = ArrayCache(ENTRY_BYTES + 10), []
    reading(cache, asked, "small", 10)
    for _ in range(2):
        assert len(reading(cache, asked, "large", 11)[0]) == 11
    reading(cache, asked, "small", 10)
    assert asked == ["small", "large", "large"] and cache.bytes == ENTRY_BYTES + 10


def test_words_that_stand_nowhere_do_not_pile_up():
    cache = ArrayCache(10 * ENTRY_BYTES)
    for number in range(1000):
        cache.of(number, lambda: of_size(0))
    assert cache.bytes <= 10 * ENTRY_BYTES and len(cache._held) == 10


def test_one_entry_may_be_made_of_others():
    cache, asked = ArrayCache(1 << 20), []

    def whole():
        return (np.concatenate([*reading(cache, asked, "a", 1), *reading(cache, asked, "b", 2)]),)

    assert len(cache.of("whole", whole)[0]) == 3
    reading(cache, asked, "b", 2)
    assert asked == ["a", "b"] and cache.bytes == 3 * ENTRY_BYTES + 6
