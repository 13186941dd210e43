"""Rows of a parts list tied together: the assembly above each by its dots, and what attaches what."""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum

from indexer.tagging.parts_rows import PartsRow


class MarkKind(StrEnum):
    """Lines between the rows that are no rows."""

    ATTACHING = "attaching parts begin"  # ATTACHING PARTS
    END = "attaching parts end"  # ***, ---*---


@dataclass(frozen=True, slots=True)
class TreeMark:
    """A mark and its place: `before` is the ordinal of the first row under it (past all: the end)."""

    kind: MarkKind
    before: int


def read_mark(text: str) -> MarkKind | None:
    """What a printed line that is no row marks; None = it is no such mark."""
    return None


def with_tree(rows: Sequence[PartsRow], marks: Sequence[TreeMark] = ()) -> tuple[PartsRow, ...]:
    """The same rows with `above`, `attaching`, `attaches` and the flag ATTACHING set.

    rows   of a whole publication in printed order, ordinals as they stand there; figures may run over pages
    marks  in printed order; they hold within one figure only
    """
    return tuple(rows)
