"""How a line begins: step numbers, bullets, warnings and notes, figure titles. Common practice, no source."""

import re

from indexer.reading.page import Line, PassageKind

_ADMONITION = re.compile(
    r"(?:[•*!▲⚠\ufffd]\s*)?(?P<word>WARNING|CAUTION|DANGER|NOTE|Warning|Caution|Danger|Note)"
    r"(?P<many>S|s)?(?P<number>\s*\d{1,2})?(?P<end>\s*[:.–—-](?=\s|$)|\s*:|\s*$)?"
)
_KINDS = {
    "warning": PassageKind.WARNING,
    "danger": PassageKind.WARNING,
    "caution": PassageKind.CAUTION,
    "note": PassageKind.NOTE,
}
_BULLET = re.compile(r"[•▪■□●○◦‣–—*\ufffd-]\s")
_STAMP = re.compile(r"(?:FAA|CAA|DER|EASA|DGAC|TCCA|ANAC)[ -]+APPROVED[.:]?", re.IGNORECASE)
_FIGURE = re.compile(r"(?:Figure|FIGURE|Fig\.|FIG\.|Table|TABLE)\s+(?P<number>[A-Z]?-?\d[\w.-]*)(?P<rest>.*)")
_FIGURE_MOST_WORDS = 25
_APART = 0.8  # times the font size: "WARNING" set in a column of its own, before its text

# One row for each form of number, the strongest first: what begins the line, and how deep it lies.
_NUMBERS: tuple[tuple[int, re.Pattern[str]], ...] = (
    (1, re.compile(r"(?:SECTION|Section|CHAPTER|Chapter|APPENDIX|Appendix|PART|Part)\s+(?:\d+|[A-Z])\b")),
    (4, re.compile(r"\(\d{1,3}\)(?=\s|$)")),
    (5, re.compile(r"\([a-z]{1,2}\)(?=\s|$)")),
    (6, re.compile(r"\((?:[ivx]+|[A-Z]{1,2})\)(?=\s|$)")),
    (3, re.compile(r"\d{1,3}(?:\.\d{1,3}){2,4}\.?(?=\s+[A-Z(]|\s*$)")),
    (2, re.compile(r"\d{1,3}\.\d{1,3}\.?(?=\s+[A-Z(]|\s*$)")),
    (2, re.compile(r"\d{1,2}-\d{1,3}\.(?=\s)")),
    (1, re.compile(r"\d{1,3}\.(?=\s|$)")),
    (2, re.compile(r"[A-Z]\.(?=\s|$)")),
    (3, re.compile(r"[a-z]\.(?=\s|$)")),
    (4, re.compile(r"(?:\d{1,3}|[a-zA-Z])\)(?=\s|$)")),
    (1, re.compile(r"(?:STEP|Step)\s+\d{1,3}\b")),
)


def numbering_depth(text: str) -> int:
    """How deep the number that begins a line lies: 0 none, 1 "1.", 2 "A.", 3 "1.1.1", 4 "(1)", 5 "(a)"."""
    for depth, pattern in _NUMBERS:
        if pattern.match(text):
            return depth
    return 0


def is_bullet(text: str) -> bool:
    return _BULLET.match(text) is not None


def admonition_kind(line: Line) -> PassageKind | None:
    """WARNING, CAUTION or NOTE when the line begins one; None else.

    The word must be followed by a colon, a dash, or nothing, or stand apart from its text: "WARNING LIGHT ON"
    is the name of a lamp.
    """
    match = _ADMONITION.match(line.text)
    if match is None:
        return None
    rest = line.text[match.end() :]
    if match["end"] is None:
        if rest[:1].isalnum() or not _stands_apart(line, match):
            return None
    elif not match["end"].strip() and not match["word"].isupper():
        return None
    return _KINDS[match["word"].lower()]


def is_admonition(line: Line) -> bool:
    return admonition_kind(line) is not None


def is_approval_stamp(text: str) -> bool:
    """A stamp says something of its page; it is no title that what follows would stand under."""
    return _STAMP.fullmatch(text.strip()) is not None


def is_figure_title(text: str) -> bool:
    """ "Figure 201. Brake" and "Table 1. Limits" are titles; "Figure 201 shows the brake" is not."""
    match = _FIGURE.match(text)
    if match is None or len(text.split()) > _FIGURE_MOST_WORDS:
        return False
    rest = match["rest"].lstrip(" .:–—-(")
    return not rest or not rest[0].islower()


def _stands_apart(line: Line, match: re.Match[str]) -> bool:
    """Whether a wide gap parts the word from what follows it on the line."""
    taken = len(line.text[: match.end()].split())
    if not match["word"].isupper() or taken >= len(line.words):
        return False
    before, after = line.words[taken - 1], line.words[taken]
    return after.box.x0 - before.box.x1 > _APART * max(before.font_size, 1.0)
