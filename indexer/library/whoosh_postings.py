"""Whoosh's posting lists and columns as numpy arrays.

This reaches into the insides of Whoosh 2.7.4 (the version is pinned). Segments are read one after the
other; a document's number is its place in its segment plus the segment's offset, as everywhere in Whoosh.

Not safe for threads: Whoosh's readers share one file position.
"""

from collections import Counter
from collections.abc import Collection
from struct import Struct
from typing import NamedTuple

import numpy as np
from whoosh.reading import IndexReader, SegmentReader, TermNotFound
from whoosh.util.numeric import byte_to_length

Array = np.ndarray
_NO_DOCS = np.empty(0, np.int32)
_NONE = np.empty(0, np.uint8)
_LENGTHS_BEFORE = Struct("!ii")  # of key and value, before each entry of a term table
_FIELD_NUMBER = Struct("!H")  # at the start of a key
_BEFORE_DOCUMENTS = 5  # bytes of a term's value before the number of its documents: flags, weight
_DOCUMENTS = Struct("!I")
_LENGTHS = np.array([byte_to_length(byte) for byte in range(256)])
_FEW = 16  # times fewer; then looking each one up is faster than marking them


class Postings(NamedTuple):
    """One term of one field, over all segments, deleted documents left out.

    docs       document numbers, ascending, int32
    counts     how often the term occurs in each; all 1 in a field of exact values
    positions  of all documents, one after another: counts[0] of the first, counts[1] of the second, ...;
               empty when not asked for and in a field without positions

    Counts and positions are unsigned and as small as they lie on disk, mostly one byte each: kept in a
    cache they take little room, and whoever calculates with them first makes them larger.
    """

    docs: Array
    counts: Array
    positions: Array


class Segments:
    """The segments of one open reader, with the deleted documents known."""

    def __init__(self, reader: IndexReader):
        self.reader = reader
        self.size = reader.doc_count_all()
        self.leaves: list[tuple[SegmentReader, int]] = list(reader.leaf_readers()) if self.size else []
        self.live = np.ones(self.size, bool)
        for leaf, offset in self.leaves:
            for number in leaf.segment().deleted_docs():
                self.live[offset + number] = False

    def postings(self, field: str, term: str, with_positions: bool = False) -> Postings:
        docs, counts, positions = [_NO_DOCS], [_NONE], [_NONE]
        for leaf, offset in self.leaves:
            try:
                matcher = leaf._terms.matcher(field, term.encode(), leaf.schema[field].format)
            except TermNotFound:
                continue
            for block_docs, block_counts, block_positions in matcher.blocks(with_positions):
                docs.append(block_docs + np.int32(offset))
                counts.append(block_counts)
                if block_positions is not None:
                    positions.append(block_positions)
        return self._without_deleted(*map(np.concatenate, (docs, counts, positions)))

    def _without_deleted(self, docs: Array, counts: Array, positions: Array) -> Postings:
        kept = self.live[docs]
        if kept.all():
            return Postings(docs, counts, positions)
        if len(positions):
            positions = positions[np.repeat(kept, counts)]
        return Postings(docs[kept], counts[kept], positions)

    def holds(self, field: str, term: str) -> bool:
        """Whether a document that is not deleted holds the term."""
        encoded = term.encode()
        holding = [leaf for leaf, _ in self.leaves if (field, encoded) in leaf._terms]
        if all(leaf.segment().has_deletions() for leaf in holding):
            return bool(holding) and len(self.postings(field, term).docs) > 0
        return True

    def frequencies(self, fields: Collection[str]) -> Counter[str]:
        """For each term, how many times a document holds it in one of the fields, deleted ones included."""
        found: Counter[str] = Counter()
        for leaf, _ in self.leaves:
            table = leaf._terms._tindex
            numbers = {leaf._terms._fieldmap[field] for field in fields if field in leaf._terms._fieldmap}
            entries = bytes(table.dbfile.get(table.startofdata, table.endofdata - table.startofdata))
            place = 0
            while place < len(entries):
                key_length, value_length = _LENGTHS_BEFORE.unpack_from(entries, place)
                key = place + _LENGTHS_BEFORE.size
                value = key + key_length
                if _FIELD_NUMBER.unpack_from(entries, key)[0] in numbers:
                    term = entries[key + _FIELD_NUMBER.size : value].decode()
                    found[term] += _DOCUMENTS.unpack_from(entries, value + _BEFORE_DOCUMENTS)[0]
                place = value + value_length
        return found

    def terms(self, field: str) -> list[str]:
        """Every term of a field, sorted, also those of deleted documents only."""
        return sorted({term.decode() for leaf, _ in self.leaves for term in leaf.lexicon(field)})

    def numbers(self, field: str) -> Array:
        """A column of unsigned 32-bit numbers, int64, one per document, deleted or not."""
        found = np.zeros(self.size, np.int64)
        for leaf, offset in self.leaves:
            if leaf.has_column(field):
                column = leaf.column_reader(field, translate=False)
                values = np.frombuffer(column._dbfile.get(column._basepos, column._count * 4), ">u4")
                found[offset : offset + len(values)] = values  # trailing zeros are not written
        return found

    def texts(self, field: str) -> list[str]:
        """A column of texts, one per document, deleted or not."""
        found: list[str] = []
        for leaf, _ in self.leaves:
            column = leaf.column_reader(field, translate=False)
            whole = column._dbfile.get(column._basepos, column._length)
            found += [
                whole[start : start + length].decode()
                for start, length in zip(column._offsets, column._lengths, strict=True)
            ]
        return found

    def close(self) -> None:
        self.reader.close()


def places_of(docs: Array, among: Array) -> Array:
    """Where in `among` each of `docs` stands: both ascending, and every one is there."""
    if len(docs) == len(among):
        return np.arange(len(docs))
    if len(docs) * _FEW < len(among):
        return np.searchsorted(among, docs)
    wanted = np.zeros(int(among[-1]) + 1, bool)
    wanted[docs] = True
    return np.flatnonzero(wanted[among])


def rounded(lengths: Array) -> Array:
    """Field lengths as Whoosh keeps them, in one byte: up to the next of 256 steps."""
    return _LENGTHS[np.minimum(np.searchsorted(_LENGTHS, lengths), 255)]
