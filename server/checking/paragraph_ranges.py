"""Whether a paragraph, or a range of paragraphs, lies inside one that a directive names. Pure.

"3.C" and "3.B through 3.D" lie inside "paragraphs 3.B through 3.D"; "3.A through 3.C" does not.
"""

import re
from collections.abc import Iterable

_LEAD = re.compile(r"(?:paragraphs?|paras?\.?|steps?)\s+", re.IGNORECASE)
_THROUGH = re.compile(r"\s+(?:through|thru|to)\s+", re.IGNORECASE)
_MARK = re.compile(r"[0-9]{1,3}\.?(?:[A-Z]|[0-9]{1,3})?(?:\.?\([0-9a-z]{1,3}\))*\.?")
_PIECE = re.compile(r"[0-9]+|[A-Za-z]+")
_Mark = tuple[int | str, ...]


def lies_inside(cited: str, named: Iterable[str]) -> bool:
    """True only where both are read for sure; False = outside, partly outside, or not read."""
    mine = _range(cited)
    if mine is None:
        return False
    return any(
        (theirs := _range(each)) is not None and all(_between(end, *theirs) for end in mine) for each in named
    )


def _range(words: str) -> tuple[_Mark, _Mark] | None:
    """First and last of a range; the same twice for one paragraph; None = not read for sure."""
    ends = _THROUGH.split(_LEAD.sub("", words.strip(), count=1))
    if len(ends) > 2 or not all(_MARK.fullmatch(each.strip()) for each in ends):
        return None
    marks = [_pieces(each) for each in ends]
    first, last = marks[0], marks[-1]
    ordered = _alike(first, last) and first[-1] <= last[-1]  # type: ignore[operator]
    return (first, last) if ordered else None


def _pieces(words: str) -> _Mark:
    return tuple(int(each) if each.isdigit() else each for each in _PIECE.findall(words))


def _between(mark: _Mark, first: _Mark, last: _Mark) -> bool:
    head = mark[: len(first)]
    if not _alike(head, first):
        return False
    return first[-1] <= head[-1] <= last[-1]  # type: ignore[operator]


def _alike(one: _Mark, other: _Mark) -> bool:
    """Of one depth and one parent, their last pieces of one sort: letters of one length, or numbers."""
    if len(one) != len(other) or not one or one[:-1] != other[:-1] or type(one[-1]) is not type(other[-1]):
        return False
    return isinstance(one[-1], int) or len(one[-1]) == len(str(other[-1])) == 1
