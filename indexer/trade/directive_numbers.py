"""Airworthiness directive numbers: find them, write them one way, tell the authorities apart."""

import re
from dataclasses import dataclass

from indexer.trade.dashes import plain_dashes

_FAA = (
    r"(?P<year>(?:19|20)?[0-9]{2})-(?P<period>[0-9]{2})-(?P<sequence>[0-9]{2})"
    r"(?:[\s-]?R(?P<revision>[0-9]{1,2}))?(?![\w-])"
)
_EASA = r"(?P<easa>20[0-9]{2}-[0-9]{4}(?:-E)?(?:[\s-]?R[0-9]{1,2})?(?:-E)?)(?![\w-])"
_NATIONAL = (
    r"(?P<national>(?:CF|F|G|D|AU?|BR|B|J|I|S|TR|CAD|SHT|UK)-?(?:19|20)[0-9]{2}-[0-9]{1,4}"
    r"(?:[\s-]?R[0-9]{1,2})?|(?:19|20)[0-9]{2}-[0-9]{3}(?:-[0-9]{3})?\([AB]\)(?:\s?R[0-9]{1,2})?)(?![\w-])"
)
_NUMBER = re.compile(rf"(?<![\w-])(?:{_FAA}|{_EASA}|{_NATIONAL})")
_ANNOUNCED = re.compile(
    r"""(?<![A-Za-z])(?:A\.?D\.?'?s?|airworthiness\s+directives?)(?:\s*\(ADs?\))?
    \s*(?:n(?:umber|o)s?\b\.?)?[\s:#]*""",
    re.VERBOSE | re.IGNORECASE,
)
_NEXT_IN_LIST = re.compile(
    r"(?:\s*[,;/&]\s*(?:and|or)?\s*|\s+(?:and|or|through|to)\s+)(?P<again>ADs?\s+)?", re.IGNORECASE
)
_HEADING = re.compile(
    rf"^[ ]*{_FAA}\s+[A-Z][^:\n]{{1,120}}:\s+(?=Amendment|Applies|Docket|Applicab)", re.MULTILINE
)
_FOREIGN = re.compile(
    r"\b(EASA|European\s+(?:Union\s+)?Aviation\s+Safety\s+Agency|Transport\s+Canada|TCCA|Canadian|ANAC|Brazilian|DGAC|French"
    r"|LBA|German|CAA|UK|United\s+Kingdom|FOCA|Swiss|CAAC|Italian|ENAC|CASA|Australian|JCAB|DAC)\s*(?:\(?emergency\)?\s+)?$",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class FoundDirective:
    """A directive number in text; text[start:end] == self.text.

    number      written one way: "89-24-09", "2024-25-51", "82-27-13R1", "2023-0093R1", "CF-2023-37"
    authority   "FAA", "EASA", or the word printed before the number ("Transport Canada", "ANAC", ...)
    revision    "1" for R1; "" for the base number
    emergency   FAA: the third group is 51 or more; EASA: the number ends in -E
    """

    number: str
    authority: str
    revision: str
    emergency: bool
    start: int
    end: int
    text: str


def find_directive_numbers(text: str) -> list[FoundDirective]:
    """Directive numbers announced as such: after "AD", in a list after it, or heading a directive.

    A number of the same shape without such words is not taken: 2021-03-01 is a date and 32-41-00 a chapter.
    """
    plain = plain_dashes(text)
    found = {}
    for announced in _ANNOUNCED.finditer(plain):
        foreign = _FOREIGN.search(plain[max(0, announced.start() - 60) : announced.start()])
        place = announced.end()
        while match := _NUMBER.match(plain, place):
            found[match.start()] = _directive(match, text, foreign[1] if foreign else "")
            following = _NEXT_IN_LIST.match(plain, match.end())
            if not following or following["again"]:
                break  # a number with the word before it again is announced itself
            place = following.end()
    for match in _HEADING.finditer(plain):
        start = match.start("year")
        number = _NUMBER.match(plain, start)
        found.setdefault(start, _directive(number, text, ""))
    return [found[start] for start in sorted(found)]


def _directive(match: re.Match, text: str, foreign: str) -> FoundDirective:
    start, end = match.span()
    if match["year"]:
        number = _faa_number(match)
        emergency = int(match["sequence"]) >= 51
        revision = match["revision"] or ""
        authority = " ".join(foreign.split()) or "FAA"
    else:
        number = re.sub(r"[\s-]*R([0-9]+)", r"R\1", (match["easa"] or match["national"]).upper())
        emergency = "-E" in number
        revised = re.search("R([0-9]+)", number)
        revision = revised[1] if revised else ""
        issuer = "EASA" if match["easa"] else "DGAC" if "(" in number else "national"
        authority = " ".join(foreign.split()) or issuer
    return FoundDirective(number, authority, revision, emergency, start, end, text[start:end])


def _faa_number(match: re.Match) -> str:
    # Numbers were printed with two digits of the year before 2000.
    year = match["year"][2:] if match["year"].startswith("19") and len(match["year"]) == 4 else match["year"]
    suffix = f"R{int(match['revision'])}" if match["revision"] else ""
    return f"{year}-{match['period']}-{match['sequence']}{suffix}"


def normalised_directive(text: str) -> str | None:
    """A directive number written one way, from a field that holds nothing else; None when it is not one.

    "AD 82-27-13-R1", "82-27-13 R1" and "82-27-13R1" give "82-27-13R1"; "1989-24-09" gives "89-24-09".
    """
    field = plain_dashes(text).strip()
    announced = _ANNOUNCED.match(field)
    match = _NUMBER.fullmatch(field, announced.end() if announced else 0)
    return _directive(match, field, "").number if match else None
