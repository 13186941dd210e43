"""How posting lists lie on disk: Whoosh's blocks, with the numbers in a block kept as arrays of machine
integers.

Whoosh 2.7.4 pickles one Python object per posting. Here a block is (document numbers as differences,
counts, positions of all its postings one after another), each one byte string, so that numpy takes it as it
is: reading a long list costs a few nanoseconds a posting in place of a microsecond. Whoosh's own matchers
read it as well. Numbers are in the machine's own byte order: an index is a cache of one machine and is not
carried to another.
"""

from array import array
from collections.abc import Iterator

import numpy as np
from whoosh.codec.whoosh3 import W3Codec, W3LeafMatcher, W3PostingsWriter

Array = np.ndarray
_BLOCK = 4096  # postings; a block costs about as much to open as its postings to read
_POSITION = "I"
_POSITION_BYTES = array(_POSITION).itemsize
_BY_SIZE = {array(code).itemsize: code for code in "BHI"}


class ArrayCodec(W3Codec):
    """Whoosh's codec with array blocks. Counts must be whole numbers: fields have no boosts at indexing."""

    length_stats = False  # only used to skip blocks, which we never do; looking up each length is slow

    def __init__(self):
        super().__init__(blocklimit=_BLOCK, compression=0)  # unpacking took most of the time of reading

    def postings_writer(self, dbfile, byteids=False):
        return _BlockWriter(dbfile, self._blocklimit, byteids, self._compression)

    def postings_reader(self, dbfile, terminfo, format_, term=None, scorer=None):
        offset, length = terminfo.extent()
        return BlockMatcher(dbfile, offset, length, format_, term=term, scorer=scorer)


def pack_positions(positions: list[int]) -> bytes:
    """The value of one posting, as Whoosh passes it on."""
    return array(_POSITION, positions).tobytes()


def unpack_positions(packed: bytes) -> list[int]:
    return array(_POSITION, packed).tolist()


def count_positions(packed: bytes) -> int:
    return len(packed) // _POSITION_BYTES


class _BlockWriter(W3PostingsWriter):
    def add_posting(self, id_, weight, vbytes, length=None) -> None:
        if len(self._ids) >= self._blocklimit:
            self._write_block()
        self._ids.append(id_)
        self._weights.append(weight)
        if weight > self._maxweight:
            self._maxweight = weight
        if vbytes:
            self._values.append(vbytes)

    def _mini_ids(self) -> bytes:
        if len(self._ids) == 1:
            return self._ids.tobytes()
        return _smallest(np.diff(np.frombuffer(self._ids, np.uint32), prepend=np.uint32(0)))

    def _mini_weights(self) -> bytes | None:
        if self._maxweight == 1:
            return None
        return _smallest(np.frombuffer(self._weights, np.float32).astype(np.uint32))

    def _mini_values(self) -> bytes | None:
        if not self._values:
            return None
        return _smallest(np.frombuffer(b"".join(self._values), np.uint32))


def _smallest(numbers: Array) -> bytes:
    """In one, two or four bytes each, whichever holds the largest."""
    return numbers.astype(np.min_scalar_type(numbers.max())).tobytes()


def _numbers(packed: bytes, count: int) -> Array:
    return np.frombuffer(packed, _BY_SIZE[len(packed) // count])


class BlockMatcher(W3LeafMatcher):
    """Walks a posting list as Whoosh does, or gives it block by block as arrays."""

    def blocks(self, with_positions: bool) -> Iterator[tuple[Array, Array, Array | None]]:
        """Every block from here on: document numbers (int32), counts, positions (None in a field without),
        these in the smallest type that holds them."""
        while True:
            yield self._block(with_positions)
            if self._lastblock:
                return
            self._next_block()

    def _block(self, with_positions: bool = False) -> tuple[Array, Array, Array | None]:
        if self._data is None:
            self._read_data()
        ids, counts, positions = self._data
        size = self._blocklength
        numbers = np.ones(size, np.uint8) if counts is None else _numbers(counts, size)
        wanted = with_positions and positions is not None
        places = _numbers(positions, int(numbers.sum())) if wanted else None
        return np.cumsum(_numbers(ids, size), dtype=np.int32), numbers, places

    def _read_ids(self) -> None:
        self._ids = self._block()[0].tolist()

    def _read_weights(self) -> None:
        self._weights = self._block()[1].astype(float).tolist()

    def _read_values(self) -> None:
        _, counts, places = self._block(with_positions=True)
        if places is None:
            self._values = (None,) * self._blocklength
        else:
            ends = np.cumsum(counts).tolist()
            listed = places.tolist()
            self._values = tuple(
                pack_positions(listed[start:end]) for start, end in zip([0, *ends], ends, strict=False)
            )
