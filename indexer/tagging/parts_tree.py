"""Rows of a parts list tied together: the assembly above each by its dots, and what attaches what.

Attaching parts stand after the item that they attach, at its indenture, between "ATTACHING PARTS" and "***"
or "---*---" (the introduction of an illustrated parts catalog, iSpec 2200). Details of the item come after
them, so an attaching part is never taken for the assembly of what follows its group.
"""

import re
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from enum import StrEnum

from indexer.tagging.parts_rows import PartsRow, RowFlag
from indexer.trade.misreadings import folded


class MarkKind(StrEnum):
    """Lines between the rows that are no rows."""

    ATTACHING = "attaching parts begin"  # ATTACHING PARTS
    GOES_ON = "attaching parts go on"  # ATTACHING PARTS (CONT), at the head of the next page
    END = "attaching parts end"  # ***, ---*---


@dataclass(frozen=True, slots=True)
class TreeMark:
    """A mark and its place: `before` is the ordinal of the first row under it (past all: the end)."""

    kind: MarkKind
    before: int


# As `folded` writes them.
_ATTACHING = re.compile("(?:ATTACH1NG|ATTACHMENT)(?:PART5?|HARDWARE)(?:(?:F0R|0F|(?P<on>C0NT)).*)?")
_END_WORDS = re.compile("END(?:0F)?ATTACH1NGPART5?")
_DASH = r"[-\u2010-\u2015\u2212_~=.]"
_STAR = (
    r"[*\u00d7\u2217\u22c6\u2605\u204exXkK%\u00a5+#\u00b0'\"\u201c\u201d\u2018\u2019]"  # and as OCR reads one
)
_STARS = r"(?:[*\u2217\u00d7\u22c6%\u00a5+#]\s*){3,}"
_END = re.compile(rf"(?:{_DASH}\s*){{2,}}{_STAR}{{1,3}}(?:\s*{_DASH}){{2,}}|{_STARS}")


def read_mark(text: str) -> MarkKind | None:
    """What a printed line that is no row marks; None = it is no such mark.

    The end: "***", "* * *", "---*---", "- - - * - - -", "END ATTACHING PARTS", also as OCR may read them.
    Dashes alone are no end: a ruling looks the same.
    """
    letters = folded(re.sub(r"[^A-Za-z0-9|]", "", text))
    if _END.fullmatch(text.strip()) or _END_WORDS.fullmatch(letters):
        return MarkKind.END
    begins = _ATTACHING.fullmatch(letters)
    if begins is None:
        return None
    return MarkKind.GOES_ON if begins["on"] else MarkKind.ATTACHING


def with_tree(rows: Sequence[PartsRow], marks: Sequence[TreeMark] = ()) -> tuple[PartsRow, ...]:
    """The same rows with `above`, `attaching`, `attaches` and the flags INDENTURE and ATTACHING set.

    rows   of a whole publication in printed order, ordinals as they stand there; figures may run over pages
    marks  in printed order; they hold within the figure of the row before them
    Where a row's dots were not read, or a dot is left out (none, then two), the assembly above is not told.
    Without an end, only the first attaching part is called one: of the rows behind it no one can tell.
    """
    tied: dict[int, PartsRow] = {}
    for figure in dict.fromkeys(row.figure for row in rows):
        mine = [row for row in rows if row.figure == figure]
        tied.update((row.ordinal, row) for row in _tied(mine, *_groups(mine, marks)))
    return tuple(tied[row.ordinal] for row in rows)


@dataclass(slots=True)
class _Group:
    """Attaching parts: places in the figure's rows, first included, end not; None = no end was printed."""

    start: int
    end: int | None = None
    inner: list["_Group"] = field(default_factory=list)


@dataclass(slots=True)
class _Assemblies:
    """The last row at each indenture, by its dots; None = which row it is is not certain."""

    at: dict[int, int | None] = field(default_factory=dict)

    def above(self, dots: int) -> tuple[int | None, bool]:
        """The assembly above a row with so many dots, and whether that is certain."""
        shallower = [level for level in self.at if level < dots]
        if not shallower:
            return None, True
        nearest = max(shallower)
        return (self.at[nearest], self.at[nearest] is not None) if nearest == dots - 1 else (None, False)

    def enter(self, dots: int, ordinal: int | None) -> None:
        self.at = {level: row for level, row in self.at.items() if level < dots} | {dots: ordinal}

    def doubt_from(self, dots: int) -> None:
        """A row that cannot be placed may be the last at any indenture from here on."""
        deepest = max(self.at, default=-1) + 1
        self.at = {level: None if level >= dots else row for level, row in self.at.items()}
        self.at |= {level: None for level in range(dots, deepest + 1)}


def _groups(rows: Sequence[PartsRow], marks: Sequence[TreeMark]) -> tuple[list[_Group], list[int]]:
    """The outermost groups of one figure's rows, and the places of ends without a beginning."""
    if not rows:
        return [], []
    places = [row.ordinal for row in rows]
    outer: list[_Group] = []
    open_groups: list[_Group] = []
    lone_ends = []
    for mark in marks:
        if not places[0] < mark.before <= places[-1] + 1:
            continue
        place = sum(ordinal < mark.before for ordinal in places)
        if places[place - 1] != mark.before - 1:
            continue  # a row of another figure stands right before it
        if mark.kind is MarkKind.GOES_ON and open_groups:
            continue
        if mark.kind is not MarkKind.END:
            if open_groups and open_groups[-1].start == place:
                continue  # printed twice
            group = _Group(place)
            (open_groups[-1].inner if open_groups else outer).append(group)
            open_groups.append(group)
        elif open_groups:
            open_groups.pop().end = place
        else:
            lone_ends.append(place)
    return _unnested(outer), lone_ends


def _unnested(groups: Sequence[_Group]) -> list[_Group]:
    """A group without an end holds none: what seemed to lie in it comes after it."""
    plain: list[_Group] = []
    for group in groups:
        inner = _unnested(group.inner)
        if group.end is None:
            plain += [_Group(group.start), *inner]
        else:
            plain.append(_Group(group.start, group.end, inner))
    return plain


def _tied(rows: Sequence[PartsRow], groups: list[_Group], lone_ends: Sequence[int]) -> list[PartsRow]:
    tied = list(rows)
    _tie(tied, 0, len(tied), groups, _Assemblies(), frozenset(lone_ends))
    return tied


def _tie(
    tied: list[PartsRow],
    start: int,
    end: int,
    groups: Sequence[_Group],
    assemblies: _Assemblies,
    lone_ends: frozenset[int],
) -> None:
    """Tie tied[start:end] in place; `assemblies` knows the rows before, then those for after."""
    at = start
    for number, group in enumerate(groups):
        _tie_plain(tied, at, group.start, assemblies, lone_ends)
        item = _attached(tied, group.start) if group.start < end else None
        if group.end is None:
            stop = groups[number + 1].start - 1 if number + 1 < len(groups) else end
            at = _tie_endless(tied, group.start, stop, item, assemblies)
        else:
            inside = _Assemblies(dict(assemblies.at))
            _tie(tied, group.start, group.end, group.inner, inside, lone_ends)
            _attach(tied, group, item)
            at = group.end
    _tie_plain(tied, at, end, assemblies, lone_ends)


def _tie_plain(
    tied: list[PartsRow], start: int, end: int, assemblies: _Assemblies, lone_ends: frozenset[int]
) -> None:
    for place in range(start, end):
        if place in lone_ends:  # the rows before it may be attaching parts, so no assembly of what follows
            assemblies.doubt_from(tied[place - 1].indenture or 0)
        tied[place] = _under(tied[place], assemblies, RowFlag.INDENTURE)


def _under(row: PartsRow, assemblies: _Assemblies, in_doubt: RowFlag) -> PartsRow:
    """The row with the assembly above it, and entered as the last at its indenture."""
    if row.indenture is None:
        assemblies.doubt_from(0)
        return _flagged(row, RowFlag.INDENTURE)
    above, certain = assemblies.above(row.indenture)
    assemblies.enter(row.indenture, row.ordinal)
    row = replace(row, above=above)
    return row if certain else _flagged(row, in_doubt)


def _attached(tied: Sequence[PartsRow], start: int) -> int | None:
    """Ordinal of the item that the rows from `start` on attach; None = not certain.

    The row before them; where that is a detail, the nearest row at their own indenture: its details may be
    printed before its attaching parts.
    """
    dots = tied[start].indenture
    nearest = tied[start - 1]
    if dots is None or nearest.indenture is None or nearest.attaching:
        return None
    if nearest.indenture <= dots:
        return nearest.ordinal
    for row in reversed(tied[: start - 1]):
        if row.attaching:
            continue
        if row.indenture is None or row.indenture < dots:
            return None
        if row.indenture == dots:
            return row.ordinal
    return None


def _attach(tied: list[PartsRow], group: _Group, item: int | None) -> None:
    """Mark the rows of a closed group; those at the indenture of its first row attach the item."""
    for place in range(group.start, group.end or group.start):
        row = tied[place]
        attaches = item if row.indenture == tied[group.start].indenture else None
        if row.attaching:  # of a group inside this one
            continue
        # Printed a dot deeper than the item, it is still no detail of the item.
        above = None if row.above is not None and row.above == item else row.above
        tied[place] = replace(row, attaching=True, attaches=attaches, above=above)


def _tie_endless(
    tied: list[PartsRow], start: int, stop: int, item: int | None, assemblies: _Assemblies
) -> int:
    """Tie a group without an end, and the rows that may belong to it; the place where that doubt is over.

    Only the first row is surely an attaching part. The doubt ends before the next attached item, at a row
    with fewer dots, and with the figure.
    """
    if start >= len(tied):
        return start
    dots = tied[start].indenture
    place = start
    while place < max(stop, start + 1):
        row = tied[place]
        if place > start and dots is not None and row.indenture is not None and row.indenture < dots:
            break
        row = _flagged(_under(row, assemblies, RowFlag.ATTACHING), RowFlag.ATTACHING)
        if place == start:
            above = None if row.above is not None and row.above == item else row.above
            row = replace(row, attaching=True, attaches=item, above=above)
        tied[place] = row
        if dots is None:
            assemblies.doubt_from(0)
        elif row.indenture is not None and row.indenture <= dots:
            assemblies.doubt_from(row.indenture)
        place += 1
    return place


def _flagged(row: PartsRow, flag: RowFlag) -> PartsRow:
    return row if flag in row.flags else replace(row, flags=(*row.flags, flag))
