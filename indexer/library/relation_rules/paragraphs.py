"""Which passages are the paragraphs that a directive names: "Part 3", "paragraphs 2.A through 2.C".

A passage is taken only when its headings, or the mark its first line bears, say so. What is named and not
found, or found in two places, is given back as not found: then nobody can tell which passages are meant.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from indexer.library.relation_rules.held import HeldPassage, folded

_KINDS = {
    "part": "part",
    "appendix": "appendix",
    "appendices": "appendix",
    "table": "table",
    "chapter": "chapter",
}
_WORD = r"parts?|sections?|steps?|tasks?|paragraphs?|paras?\.?|appendix|appendices|tables?|chapters?"
_LABEL = r"\(?(?:\d{1,3}|[A-Z]{1,2}|[a-z])\)?(?:(?:\.?\s?\(|\.)(?:\d{1,3}|[A-Z]{1,2}|[a-z])\)?)*"
_NAMED = re.compile(rf"(?:(?P<word>\b(?i:{_WORD}))\s+)?(?P<label>(?<![\w.]){_LABEL}(?![\w]))[.)]*")
_RANGE = re.compile(r"\s*,?\s*(?:through|thru|to)\s+(?:and\s+including\s+)?", re.IGNORECASE)
_LIST = re.compile(r"\s*(?:,\s*(?:and|or)?|(?:and|or)\b)\s*", re.IGNORECASE)
_HEADING = re.compile(rf"^\s*(?:(?P<word>(?i:{_WORD}))\s+)?(?P<label>{_LABEL})(?P<end>[.):]|\s*[-:]|\s|$)")
_LINE_MARK = re.compile(r"^\s*(\(?(?:\d{1,3}|[A-Z]|[a-z])[.)])\s", re.MULTILINE)


@dataclass(frozen=True)
class Reference:
    """One paragraph as named: kind "part", "appendix", "table", "chapter", "paragraph" or "heading"."""

    kind: str
    label: tuple[str, ...]
    words: str = ""  # instead of a label: the words of a heading


@dataclass(frozen=True)
class Found:
    """Passage ids under the paragraphs named, and the names that cannot be told."""

    passages: frozenset[str]
    not_found: tuple[str, ...]


def find_paragraphs(named: Iterable[str], passages: Sequence[HeldPassage]) -> Found:
    """Look up every paragraph named. A range counts as found only when each of its members is."""
    found: set[str] = set()
    missing: list[str] = []
    for name in dict.fromkeys(named):
        hits = [_passages_under(reference, passages) for reference in references(name)]
        if hits and all(hits):
            found.update(*hits)
        else:
            missing.append(name)
    return Found(frozenset(found), tuple(missing))


def references(name: str) -> list[Reference]:
    """The single paragraphs that a name means; [] when it cannot be read.

    "Parts 2 and 3" are two, "paragraphs 2.A through 2.C" are three, "Accomplishment Instructions" is a
    heading.
    """
    found: list[Reference] = []
    place, before = 0, ""  # where the last member ends; the label that says what a short one means
    for match in _NAMED.finditer(name):
        if not found and not match["word"]:
            continue
        kind = _kind(match["word"]) if match["word"] else found[-1].kind
        label = _parts(match["label"]) if match["word"] or not found else _completed(before, match["label"])
        reference = Reference(kind, label)
        joint = name[place : match.start()]
        if not found:
            found.append(reference)
        elif _RANGE.fullmatch(joint) and (members := _between(found[-1], reference)):
            found += members
        elif _LIST.fullmatch(joint) and label:
            found.append(reference)
        else:
            return []
        place = match.end()
        if label == _parts(match["label"]):
            before = match["label"]
    if not found and re.search(r"[^\W\d_]{3}", name):
        return [Reference("heading", (), folded(name))]
    return found


def _completed(before: str, label: str) -> tuple[str, ...]:
    """The label of a later member of a list: "B" after "2.A" is 2.B; () when it cannot be told what it is.

    "4" after "3.B.(1)" is not 3.B.(4): it would have been printed as (4).
    """
    mine, theirs = _marks(label), _marks(before)
    if len(mine) >= len(theirs):
        return _parts(label)
    tail = theirs[-len(mine) :]
    alike = [_style(mark) for mark in mine] == [_style(mark) for mark in tail]
    return _parts("".join(theirs[: -len(mine)])) + _parts(label) if alike else ()


def _marks(label: str) -> list[str]:
    return re.findall(r"\(?(?:\d+|[A-Za-z]+)\)?\.?", label.rstrip("."))


def _kind(word: str) -> str:
    word = word.casefold().rstrip(".")
    return _KINDS.get(word) or _KINDS.get(word.rstrip("s")) or "paragraph"


def _parts(label: str) -> tuple[str, ...]:
    return tuple(re.findall(r"\d+|[A-Za-z]+", label))


def _between(first: Reference, last: Reference) -> list[Reference]:
    """The members of a range after its first; [] when the two ends are not of one row."""
    if first.kind != last.kind or first.label[:-1] != last.label[:-1]:
        return []
    start, end = first.label[-1], last.label[-1]
    if start.isdigit() and end.isdigit():
        row = [str(number) for number in range(int(start) + 1, int(end) + 1)]
    elif len(start) == len(end) == 1 and start.isupper() == end.isupper():
        row = [chr(code) for code in range(ord(start) + 1, ord(end) + 1)]
    else:
        return []
    return [Reference(first.kind, (*first.label[:-1], member)) for member in row]


def _passages_under(reference: Reference, passages: Sequence[HeldPassage]) -> set[str]:
    """Ids of the passages under one paragraph; empty when it is not there, or is in more than one part."""
    hits: dict[str, set[tuple]] = {}
    places = set()
    for passage in passages:
        place = _place(reference, passage)
        if place is not None:
            hits.setdefault(passage.id, set()).add(place)
            places.add(place)
    return set(hits) if len(places) == 1 else set()


def _place(reference: Reference, passage: HeldPassage) -> tuple | None:
    """The parts around the paragraph named, when the passage lies under it; None when it does not."""
    if reference.kind == "heading":
        under = [place for place, heading in enumerate(passage.heading_path) if _says(reference, heading)]
        return passage.heading_path[: under[0]] if under else None
    labels = [label for heading in passage.heading_path if (label := _heading_label(heading))]
    enclosing = tuple(label for label in labels if label[0] != "paragraph")
    if reference.kind == "paragraph":
        path = _path(labels_of(labels, "paragraph"))
        return enclosing if _reaches(reference.label, path, passage.text) else None
    for place, (kind, parts) in enumerate(labels):
        if kind == reference.kind:
            path = _path([parts, *labels_of(labels[place + 1 :], "paragraph")])
            if _reaches(reference.label, path, passage.text):
                return tuple(label for label in labels[:place] if label[0] != "paragraph")
    return None


def labels_of(labels: Iterable[tuple[str, tuple[str, ...]]], kind: str) -> list[tuple[str, ...]]:
    return [parts for held, parts in labels if held == kind]


def _says(reference: Reference, heading: str) -> bool:
    """The heading's words, without a label before them, are the words named."""
    return folded(heading) == reference.words or folded(_HEADING.sub("", heading)) == reference.words


def _heading_label(heading: str) -> tuple[str, tuple[str, ...]] | None:
    """("paragraph", ("3", "B")) of "3.B. Installation", ("part", ("2",)) of "PART 2 - TEST"; else None."""
    match = _HEADING.match(heading)
    if not match:
        return None
    if match["word"]:
        return _kind(match["word"]), _parts(match["label"])
    marked = (
        match["end"] in (".", ")", ":") or match["label"].endswith(")") or re.search(r"[.(]", match["label"])
    )
    return ("paragraph", _parts(match["label"])) if marked else None


def _path(labels: Iterable[tuple[str, ...]]) -> tuple[str, ...]:
    """Labels from the outermost heading in, joined: a heading that repeats its parents' label counts once."""
    path: tuple[str, ...] = ()
    for label in labels:
        path = label if len(label) > len(path) and label[: len(path)] == path else path + label
    return path


def _reaches(wanted: tuple[str, ...], path: tuple[str, ...], text: str) -> bool:
    """The passage lies under `wanted`: by its headings, or by them and the mark its first line bears."""
    if path[: len(wanted)] == wanted:
        return True
    if path != wanted[:-1] or not path:
        return False
    marks = _LINE_MARK.findall(text)
    first = _LINE_MARK.match(text)
    if not first or _parts(first[1]) != wanted[-1:]:
        return False
    style = _style(first[1])
    return not any(_style(mark) == style for mark in marks[1:])  # a brother in the same passage is not meant


def _style(mark: str) -> str:
    """The kind of mark: "A", "1", "(1)", "(a)"; the full stop after it says nothing."""
    mark = mark.rstrip(".")
    return re.sub(r"\d+", "1", re.sub(r"[A-Z]", "A", re.sub(r"[a-z]", "a", mark)))
