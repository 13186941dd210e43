"""References to rules in running text: sections, parts and appendices of the Code of Federal Regulations.

Title 14 is meant where no title is printed. How they are written: 14 CFR parts 39, 43 and 45 themselves.
"""

import re
from collections.abc import Iterator

from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.publication_types import PublicationType

# Parts of 14 CFR, chapter I, that a repair shop meets; below 21 a bare "part 1" may be anything.
_PARTS = frozenset(
    "21 23 25 26 27 29 31 33 34 35 36 39 43 45 47 61 63 65 91 97 107 110 117 119 121 125 129 133 135 136 137"
    " 141 145 147 183 185 193".split()
)
_LETTERS = r"(?:[ ]{0,2}\((?:[a-z]{1,4}|[A-Z]|[0-9]{1,3})\)){0,6}"
_SECTION = rf"[0-9]{{1,4}}\.[0-9]{{1,4}}[a-z]?(?![\w]){_LETTERS}"
_PART_NO = r"[0-9]{1,3}(?![\w-])(?!\.[0-9])"
_JOINT = r"(?:[ ]?,[ ]{0,3}(?:and[ ]{1,3}|or[ ]{1,3})?|[ ]{1,3}(?:and|or|through|to|thru)[ ]{1,3}|[ ]?&[ ]?)"
_CFR = re.compile(
    r"(?<![\w-])(?P<title>[0-9]{1,2})[ ]{0,3}C\.?F\.?R\.?[ ]{0,3}(?:(?P<word>parts?|subparts?"
    r"|sections?|sec\.|§{1,2})[ ]{0,3})?"
    rf"(?P<list>(?:{_SECTION}|{_PART_NO})(?:{_JOINT}(?:§{{1,2}}[ ]{{0,2}})?(?:{_SECTION}"
    rf"|{_PART_NO})){{0,20}})",
    re.IGNORECASE,
)
_SIGN = re.compile(
    rf"(?:§{{1,2}}|(?<![\w-])(?:F\.?A\.?R\.?s?|[Ss]ections?|SECTIONS?"
    rf"|[Ss]ec\.)(?=[ ]{{1,3}}[0-9]))[ ]{{0,3}}(?:(?:section|§)[ ]{{0,2}})?"
    rf"(?P<list>{_SECTION}(?:{_JOINT}(?:§{{1,2}}[ ]{{0,2}})?(?:{_SECTION})){{0,20}})"
)
_PART = re.compile(
    rf"(?<![\w-])(?P<word>(?:FAR[ ]{{1,3}})?parts?|FARs?)[ ]{{1,3}}(?P<list>{_PART_NO}(?:{_JOINT}"
    rf"(?:parts?[ ]{{1,3}})?{_PART_NO}){{0,12}})",
    re.IGNORECASE,
)
_SUBPART = re.compile(
    rf"[ ]?,?[ ]{{1,3}}(?P<subpart>subparts?[ ]{{1,3}}[A-Z](?![\w])(?:{_JOINT}[A-Z](?![\w])){{0,8}})",
    re.IGNORECASE,
)
_APPENDIX_AFTER = re.compile(
    r"[ ]?,?[ ]{1,3}app(?:endix|endices|x)?\.?[ ]{1,3}(?P<letter>[A-Z])(?![\w])", re.IGNORECASE
)
_MORE_APPENDICES = re.compile(
    r"[ ]?(?:,|&|,?[ ]and)[ ]{1,3}(?:app(?:endix|x)?\.?[ ]{1,3})?(?P<letter>[A-G])(?![\w'.])"
)
_APPENDIX_BEFORE = re.compile(
    r"(?<![\w-])app(?:endix|\.)[ ]{1,3}(?P<letter>[A-Z])[ ]{1,3}(?:to|of|in)[ ]{1,3}$", re.IGNORECASE
)
_USC = re.compile(
    rf"(?<![\w-])[0-9]{{1,2}}[ ]{{1,3}}U\.?S\.?C\.?[ ]{{1,3}}(?:§{{1,2}}[ ]{{0,2}}"
    rf"|sections?[ ]{{1,3}})?[0-9]{{1,5}}[a-z]?(?![\w]){_LETTERS}"
)
_ONE = re.compile(rf"{_SECTION}|{_PART_NO}")
_NEXT = re.compile(rf"{_JOINT}(?:parts?[ ]{{1,3}}|§{{1,2}}[ ]{{0,2}})?", re.IGNORECASE)
_RANGE = re.compile(r"[ ]{1,3}(?:through|thru|to)[ ]{1,3}(?:§[ ]{0,2})?")
_OF_THIS = re.compile(r"[ ]{1,3}of[ ]{1,3}this[ ]{1,3}(?:chapter|title)\b")
_GROUP = re.compile(r"\([^()]+\)")
_LETTER_NEXT = re.compile(
    r"[ ]?(?:,[ ]{0,3}(?:and|or)?|[ ](?:and|or))[ ]{0,3}(?P<letters>\((?:[a-z]{1,4}|[0-9]{1,3})\)"
    r"(?:[ ]?\([a-z0-9]{1,4}\)){0,4})"
    r"(?![\w])"
)
# Where such words stand, "part 43" is a rule and not a piece of metal.
_OF_RULES = re.compile(
    r"\bCFR\b|§|\bFARs?\b|\bof[ ]{1,3}this[ ]{1,3}(?:chapter|part|subchapter|title)\b|\bthis[ ]part\b"
    r"|Federal[ ]Aviation"
    r"|\b(?:certificate|certificated|operat|air[ ]carrier|regulation|rule)",
    re.IGNORECASE,
)


def rule_references(flat: str) -> Iterator[Citation]:
    """Every section, part or appendix of the rules named; a list gives one for each of its members."""
    low = flat.lower()
    for match in _CFR.finditer(flat) if "cfr" in low or "c.f.r" in low else ():
        title = "" if match["title"] == "14" else f"{match['title']} CFR "
        yield from _listed(flat, match, title)
    for match in _USC.finditer(flat) if "U.S.C" in flat or "USC" in flat else ():
        yield _rule(flat, match.start(), match.end(), " ".join(match[0].split()))
    for match in _SIGN.finditer(flat) if "§" in flat or "sec" in low or "FAR" in flat else ():
        if match[0].startswith("§") or match["list"].split(".")[0] in _PARTS:
            yield from _listed(flat, match, "")
    if "part" in low or "FAR" in flat:
        yield from _parts(flat)


def _parts(flat: str) -> Iterator[Citation]:
    of_rules = _OF_RULES.search(flat) is not None
    for match in _PART.finditer(flat):
        numbers = [one[0] for one in re.finditer("[0-9]+", match["list"])]
        known = of_rules and all(number in _PARTS for number in numbers)
        if known or _OF_THIS.match(flat, match.end()):
            yield from _listed(flat, match, "")


def _listed(flat: str, match: re.Match, title: str) -> Iterator[Citation]:
    start, last = match.start(), match.end("list")
    members = list(_ONE.finditer(flat, match.start("list"), last))
    for place, one in enumerate(members):
        end = one.end()
        other = members[place + 1] if place + 1 < len(members) else None
        if other and "." in one[0] and _RANGE.fullmatch(flat, end, other.start()):
            number = f"{''.join(one[0].split())} through {''.join(other[0].split())}"
            yield _rule(flat, start, other.end(), title + number)
            start = last
            continue
        if start == last:  # the end of a range
            start = _next(flat, end, last)
            continue
        if "." in one[0]:
            number = "".join(one[0].split())
            yield _rule(flat, start, end, title + number)
            yield from _more_letters(flat, end, title + number)
        else:
            yield (part := _part(flat, start, end, title, one[0]))
            yield from _more_appendices(flat, part)
        start = _next(flat, end, last)


def _more_letters(flat: str, place: int, number: str) -> Iterator[Citation]:
    """The paragraphs listed after a section: "§ 43.13(a) and (b)" is two."""
    section = number.partition("(")[0]
    groups = _GROUP.findall(number)
    while groups and (more := _LETTER_NEXT.match(flat, place)):
        place = more.end()
        letters = "".join(more["letters"].split())
        alike = [depth for depth, group in enumerate(groups) if group[1].isdigit() == letters[1].isdigit()]
        above = groups[: alike[-1]] if alike else groups  # "(a)(2) and (3)" is (a)(2) and (a)(3)
        yield _rule(flat, more.start("letters"), place, section + "".join(above) + letters)


def _next(flat: str, place: int, last: int) -> int:
    """Where the next member of a list begins, after its joint."""
    joint = _NEXT.match(flat, place, last)
    return joint.end() if joint else place


def _part(flat: str, start: int, end: int, title: str, number: str) -> Citation:
    if after := _APPENDIX_AFTER.match(flat, end):
        return _rule(flat, start, after.end(), f"{title}part {number} appendix {after['letter'].upper()}")
    before = _APPENDIX_BEFORE.search(flat, max(0, start - 24), start)
    if before:
        return _rule(flat, before.start(), end, f"{title}part {number} appendix {before['letter'].upper()}")
    subpart = _SUBPART.match(flat, end)
    if subpart:
        words = " ".join(subpart["subpart"].split())
        return _rule(flat, start, subpart.end(), f"{title}part {number}", words)
    return _rule(flat, start, end, f"{title}part {number}")


def _more_appendices(flat: str, part: Citation) -> Iterator[Citation]:
    """The appendices listed after one: "part 43, appendices E and F" is two."""
    place = part.end
    while " appendix " in part.number and (more := _MORE_APPENDICES.match(flat, place)):
        place = more.end()
        yield _rule(flat, more.start("letter"), place, part.number[:-1] + more["letter"])


def _rule(flat: str, start: int, end: int, number: str, paragraph: str = "") -> Citation:
    return Citation(
        CitationKind.REGULATION,
        flat[start:end],
        start,
        end,
        PublicationType.REGULATION,
        number,
        paragraph=paragraph,
    )
