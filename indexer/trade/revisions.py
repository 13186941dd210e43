"""Revision marks: find them, compare them. Numbers and letters of different makers do not sort together."""

import re
from dataclasses import dataclass

from indexer.trade.dashes import plain_dashes
from indexer.trade.evidence import Answer

# One state under many names (common practice, no source; "N/C" = no change letter yet, as printed on
# bulletins).
_FIRST_ISSUE = frozenset(
    ("ORIGINAL", "ORIGINALISSUE", "ORIG", "INITIAL", "INITIALISSUE", "INITIALRELEASE", "BASIC", "BASICISSUE")
    + ("NEW", "NEWISSUE", "0", "-", "NC", "IR")
)
_GAP = r"(?:[ ]|\n(?![ ]*\n))"  # a blank or a line end, never a blank line
_REVISION = re.compile(
    rf"(?<![\w-])(?<!temporary )(?<!Temporary )(?<!TEMPORARY )"
    r"(?:(?:[Rr]evision|REVISION|[Ii]ssue|ISSUE|[Cc]hange|CHANGE|CHG|Chg)\b|(?:[Rr]ev|REV)(?:\.|\b))"
    rf"(?:{_GAP}*(?:(?:[Nn]umber|NUMBER|[Nn]o\.?|NO\.?|[Ll]evel|LEVEL|[Ll]etter|LETTER)\b\.?)?(?::\s*|{_GAP}*#?))"
    r"(?P<mark>N/C|NC\b|IR\b|[Oo]riginal(?:\s[Ii]ssue)?|ORIGINAL(?:\sISSUE)?|[0-9]{1,4}[A-Z]?(?![\w.]*[0-9])"
    r"|[A-Z]{1,2}|-(?=\s|$|[,.;)]))(?![\w/])"
)
_ORIGINAL = re.compile(
    r"(?<![\w-])(?:original\s+(?:issue|release)|initial\s+(?:issue|release)|basic\s+issue)(?![\w-])",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class FoundRevision:
    """A revision mark in text; text[start:end] == self.text.

    mark   as printed without the word: "3", "B", "N/C", "-"; "original" for an original or initial issue
    """

    mark: str
    start: int
    end: int
    text: str


def find_revision(text: str) -> FoundRevision | None:
    """The first revision mark in the text; None when there is none. A temporary revision is not one."""
    found = find_revisions(text)
    return found[0] if found else None


def find_revisions(text: str) -> list[FoundRevision]:
    """Every revision mark in the text, in order of place."""
    plain = plain_dashes(text)
    found = []
    for match in _REVISION.finditer(plain):
        mark = "original" if match["mark"].lower().startswith("original") else match["mark"]
        found.append(FoundRevision(mark, match.start(), match.end(), text[match.start() : match.end()]))
    for match in _ORIGINAL.finditer(plain):
        if all(match.end() <= one.start or match.start() >= one.end for one in found):
            found.append(
                FoundRevision("original", match.start(), match.end(), text[match.start() : match.end()])
            )
    return sorted(found, key=lambda one: one.start)


def normalised_revision(mark: str) -> str:
    """The word "original" for every name of the first issue; else the mark in capitals, no leading zeros."""
    bare = re.sub(
        r"^(?:REVISION|REV|ISSUE|CHANGE)\b\.?\s*(?:N(?:UMBER|O)\b\.?\s*)?",
        "",
        plain_dashes(mark).strip().upper(),
    )
    bare = re.sub(r"[\s/.]", "", bare) or ("-" if "-" in mark else "")
    if re.fullmatch("[0-9]+", bare):
        bare = str(int(bare))
    return "original" if bare in _FIRST_ISSUE else bare


def same_revision(a: str, b: str) -> Answer:
    """Whether two marks of one document name one revision.

    "Original issue", "Rev 0", "Rev -" and "N/C" are one state. A mark that is missing, a number beside a
    letter, and "1" or "A" beside an original issue (some makers call the first issue so) cannot be told.
    """
    one, other = normalised_revision(a), normalised_revision(b)
    if not one or not other:
        return Answer.CANNOT_TELL
    if one == other:
        return Answer.YES
    if "original" in (one, other):
        return Answer.CANNOT_TELL if {one, other} & {"1", "A"} else Answer.NO
    return Answer.NO if _kind(one) == _kind(other) != "" else Answer.CANNOT_TELL


def later_revision(a: str, b: str) -> Answer:
    """Whether `a` came after `b` in one document: 10 after 9, AA after Z, any mark after the original."""
    one, other = normalised_revision(a), normalised_revision(b)
    same = same_revision(a, b)
    if same is not Answer.NO:
        return Answer.NO if same is Answer.YES else Answer.CANNOT_TELL
    if "original" in (one, other):
        return Answer.YES if other == "original" else Answer.NO
    return Answer.YES if _order(one) > _order(other) else Answer.NO


def _kind(mark: str) -> str:
    if re.fullmatch("[0-9]+", mark):
        return "number"
    return "letter" if re.fullmatch("[A-Z]{1,2}", mark) else ""


def _order(mark: str) -> tuple[int, str]:
    return (int(mark), "") if _kind(mark) == "number" else (len(mark), mark)
