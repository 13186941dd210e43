"""Names of paragraphs as directives print them: "Part 3", "paragraphs 2.A through 2.C", "Parts 2 and 3".

What cannot be read for sure is not read: a directive's words may not be widened by a guess.
"""

import re
from dataclasses import dataclass

from indexer.library.relation_rules.held import folded

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
HEADING = re.compile(rf"^\s*(?:(?P<word>(?i:{_WORD}))\s+)?(?P<label>{_LABEL})(?P<end>[.):]|\s*[-:]|\s|$)")


@dataclass(frozen=True)
class Reference:
    """One paragraph as named: kind "part", "appendix", "table", "chapter", "paragraph" or "heading"."""

    kind: str
    label: tuple[str, ...]
    words: str = ""  # instead of a label: the words of a heading


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
        label = (
            label_parts(match["label"]) if match["word"] or not found else _completed(before, match["label"])
        )
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
        if label == label_parts(match["label"]):
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
        return label_parts(label)
    tail = theirs[-len(mine) :]
    alike = [style(mark) for mark in mine] == [style(mark) for mark in tail]
    return label_parts("".join(theirs[: -len(mine)])) + label_parts(label) if alike else ()


def _marks(label: str) -> list[str]:
    return re.findall(r"\(?(?:\d+|[A-Za-z]+)\)?\.?", label.rstrip("."))


def _kind(word: str) -> str:
    word = word.casefold().rstrip(".")
    return _KINDS.get(word) or _KINDS.get(word.rstrip("s")) or "paragraph"


def label_parts(label: str) -> tuple[str, ...]:
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


def heading_label(heading: str) -> tuple[str, tuple[str, ...]] | None:
    """("paragraph", ("3", "B")) of "3.B. Installation", ("part", ("2",)) of "PART 2 - TEST"; else None."""
    match = HEADING.match(heading)
    if not match:
        return None
    if match["word"]:
        return _kind(match["word"]), label_parts(match["label"])
    marked = (
        match["end"] in (".", ")", ":") or match["label"].endswith(")") or re.search(r"[.(]", match["label"])
    )
    return ("paragraph", label_parts(match["label"])) if marked else None


def style(mark: str) -> str:
    """The kind of mark: "A", "1", "(1)", "(a)"; the full stop after it says nothing."""
    mark = mark.rstrip(".")
    return re.sub(r"\d+", "1", re.sub(r"[A-Z]", "A", re.sub(r"[a-z]", "a", mark)))
