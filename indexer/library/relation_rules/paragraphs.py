"""Which passages are the paragraphs that a directive names: "Part 3", "paragraphs 2.A through 2.C".

A passage is taken only when its headings, or the marks at the beginnings of its lines, say so. What is
named and not found, or found in two places, is given back as not found: then nobody can tell which passages
are meant.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field

from indexer.library.relation_rules.held import HeldPassage, folded
from indexer.library.relation_rules.paragraph_names import (
    HEADING,
    Reference,
    heading_label,
    label_parts,
    references,
    style,
)

_LINE_MARK = re.compile(r"^\s*(\(?(?:\d{1,3}|[A-Z]|[a-z])[.)])\s", re.MULTILINE)

_GUARD = re.compile(r"\s*(?:WARNING|CAUTION)\b")


@dataclass(frozen=True)
class Found:
    """Where the paragraphs named are."""

    whole: frozenset[str]  # ids of passages that hold nothing else
    partly: frozenset[str]  # ids of passages that hold some of it and something else, or may do so
    not_found: tuple[str, ...]  # names that are not there, or that cannot be told


@dataclass
class _Hits:
    """Places in the reading order of the passages under one reference."""

    whole: set[int] = field(default_factory=set)
    partly: set[int] = field(default_factory=set)
    around: set[tuple] = field(default_factory=set)  # the parts and appendices they lie in
    times: int = 0  # how often the paragraph's own mark begins a line

    @property
    def sure(self) -> bool:
        """The paragraph is there, in one place, and in one piece."""
        there = sorted(self.whole | self.partly)
        in_one_piece = bool(there) and there[-1] - there[0] == len(there) - 1
        return in_one_piece and len(self.around) == 1 and self.times <= 1


def find_paragraphs(named: Iterable[str], passages: Sequence[HeldPassage]) -> Found:
    """Look up every paragraph named; `passages` in reading order.

    A range or list counts as found only when each of its members is.
    """
    whole: set[int] = set()
    partly: set[int] = set()
    missing: list[str] = []
    for name in dict.fromkeys(named):
        wanted = references(name)
        hits = [_hits(reference, wanted, passages) for reference in wanted]
        if hits and all(each.sure for each in hits):
            whole.update(*(each.whole for each in hits))
            partly.update(*(each.partly for each in hits))
        else:
            missing.append(name)
    return Found(_ids(passages, whole), _ids(passages, partly - whole), tuple(missing))


def _ids(passages: Sequence[HeldPassage], places: Iterable[int]) -> frozenset[str]:
    return frozenset(passages[place].id for place in places)


def _hits(reference: Reference, wanted: Sequence[Reference], passages: Sequence[HeldPassage]) -> _Hits:
    hits = _Hits()
    row = {each.label[-1] for each in wanted if each.label and _parent(each) == _parent(reference)}
    current = ""  # the mark of this row that was passed last
    for place, passage in enumerate(passages):
        path, around = _path_to(reference, passage)
        if path is None:
            continue
        if path[: len(reference.label)] == reference.label:
            hits.whole.add(place)
            hits.around.add(around)
        elif path and path == reference.label[:-1]:
            marks = _row_marks(passage.text, reference.label[-1])
            if reference.label[-1] in marks:
                hits.times += marks.count(reference.label[-1])
                alone = set(marks) <= row and _begins_with(marks[0], passage.text)
                (hits.whole if alone else hits.partly).add(place)
                hits.around.add(around)
            elif not marks and current == reference.label[-1]:
                hits.partly.add(place)  # most likely its continuation
                hits.around.add(around)
            current = marks[-1] if marks else current
    return hits


def _parent(reference: Reference) -> tuple:
    return reference.kind, reference.label[:-1]


def _path_to(reference: Reference, passage: HeldPassage) -> tuple[tuple[str, ...] | None, tuple]:
    """The passage's label counted the way the reference counts, and the parts around; None = no such kind."""
    if reference.kind == "heading":
        under = [place for place, heading in enumerate(passage.heading_path) if _says(reference, heading)]
        return ((), passage.heading_path[: under[0]]) if under else (None, ())
    labels = [label for heading in passage.heading_path if (label := heading_label(heading))]
    if reference.kind == "paragraph":
        around = tuple(label for label in labels if label[0] != "paragraph")
        return _path(parts for kind, parts in labels if kind == "paragraph"), around
    for place, (kind, parts) in enumerate(labels):
        if kind == reference.kind:
            inner = [parts for kind, parts in labels[place + 1 :] if kind == "paragraph"]
            return _path([parts, *inner]), tuple(label for label in labels[:place] if label[0] != "paragraph")
    return None, ()


def _says(reference: Reference, heading: str) -> bool:
    """The heading's words, without a label before them, are the words named."""
    return folded(heading) == reference.words or folded(HEADING.sub("", heading)) == reference.words


def _path(labels: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    """Labels from the outermost heading in, joined: a heading that repeats its parents' label counts once."""
    path: tuple[str, ...] = ()
    for label in labels:
        path = label if len(label) > len(path) and label[: len(path)] == path else path + label
    return path


def _row_marks(text: str, member: str) -> list[str]:
    """The marks of one row, in order, as its members: "A", "B" of lines "A. ..." and "B. ...".

    The row is that of the first mark written with the characters of `member`: capitals, small letters or
    digits.
    """
    marks = _LINE_MARK.findall(text)
    alike = [style(mark) for mark in marks if style(label_parts(mark)[0]) == style(member)]
    return [label_parts(mark)[0] for mark in marks if alike and style(mark) == alike[0]]


def _begins_with(member: str, text: str) -> bool:
    """True when nothing stands before the mark but the warnings and cautions that guard its step."""
    mark = next(found for found in _LINE_MARK.finditer(text) if label_parts(found[1])[0] == member)
    return not text[: mark.start()].strip() or _GUARD.match(text) is not None
