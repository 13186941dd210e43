"""Sources that a record points at without a word of their kind: "IAW 32-41-00 PG 401"."""

import re
from collections.abc import Iterator

from indexer.tagging.record_places import Reading, read_places
from indexer.tagging.record_words import MAKERS_WORDS, POINTS, SPECIFICATION
from indexer.tagging.reference_words import spaced
from indexer.trade.publication_types import PublicationType as Type

_PARTS = r"(?:21|23|25|27|29|33|35|39|43|45|61|65|91|121|125|135|137|145)"
_LETTERS = r"(?: ?\((?:[a-z]|[ivx]{1,4}|[0-9]{1,2})\)){0,5}"
_APPENDIX = r"app(?:endix|x)?\b\.?"
_SECTION = spaced(
    rf"(?P<number>{_PARTS}\.[0-9]{{1,4}}{_LETTERS})(?![\w])(?!\.[0-9])(?!-[12][A-Z])"
    r"(?! ?(?:hrs?|hours?|lbs?|in|ft|%|psi|volts?))"
)
# A rule is known by its shape alone where a lettered paragraph follows: "43.9(a)(1)".
_LETTERED_SECTION = spaced(
    r"(?<![\w.$/-])(?:43|65|91|121|125|135|145)\.[0-9]{1,4} ?\([a-z]\)"
    r"(?: ?\((?:[a-z]|[ivx]{1,4}|[0-9]{1,2})\)){0,4}(?![\w])"
)
_SECTION_NEXT = re.compile(r"[ ]{0,2}(?:,|&|and|/)[ ]{0,3}")
_JOINT = spaced(r" ?(?:[,;/&+]|,? ?(?:and|or)) (?:the |per )?")
_CERTIFICATE = spaced(r"(?P<number>S[AEHPR][0-9]{2,5}[A-Z]{2}(?:-[A-Z])?)(?![\w-])")
_BARE_CIRCULAR = re.compile(r"(?<![\w.-])(?P<number>43[.-]13-[12][A-Z])(?![\w-])", re.IGNORECASE)
# Rules as mechanics type them; capitals and full forms are read by rule_references.py.
_RULE = spaced(
    r"(?<![\w-])(?:(?:CFR ?14|fars?|f\.a\.r\.|regs?\b\.?) |14 ?CFR ?)(?:(?:part|sect?(?:ion)?)\b\.? ?)?"
    rf"(?P<number>[0-9]{{1,3}}(?:\.[0-9]{{1,4}})?{_LETTERS})(?![\w])(?!\.[0-9])"
    rf"(?:,? {_APPENDIX} (?P<letter>[A-G])(?![\w]))?"
)
_PART_APPENDIX = spaced(
    rf"(?<![\w.-])(?:(?:parts? (?P<number>{_PARTS})|(?P<n3>43)),? {_APPENDIX} (?P<letter>[A-G])(?![\w])"
    rf"|{_APPENDIX} (?P<l2>[A-G]) (?:of|to) (?:(?:14 ?CFR|FAR) ?)?(?:part ?)?(?P<n2>{_PARTS})(?![\w.-]))"
)
_OWN_NUMBER = spaced(
    r"(?P<number>[A-Z]{1,5}[0-9]{0,4}(?:-[0-9A-Z]{1,6}){1,4}|(?:[0-9]{2,4}-[0-9]{3,6}|[0-9]{3,5}-[0-9A-Z]{1,6})(?:-[0-9A-Z]{1,4}){0,2})(?![\w-])"
)
_TITLE = re.compile(
    r"(?:(?!(?:\w*(?:ed|ing|[PS]N)|squawk|item|card|log|defect|customer)\b)[A-Z][A-Z&'.]{1,20}[ ]{1,3}){0,4}",
    re.IGNORECASE,
)
_CHAPTER = re.compile(r"[0-9]{2}-[0-9]{2}-[0-9]{2}(?![0-9])")


# Digits that nothing points at are a chapter's where a page or figure follows.
_CHAPTER_WITH_PAGE = spaced(
    r"(?<![\w/.#-])[0-9]{2}-[0-9]{2}-[0-9]{2}(?=/[0-9]{3}(?![\w/-])|,? ?(?:pages?|pgs?|pp?"
    r"|pb|p/b|figs?|figure)\.? ?[0-9])"
)
_OTHER_NUMBER = re.compile(r"(?:[PSMW]/?[NO]|no\.?|date|on)[ .:#]*$", re.IGNORECASE)


def pointed_sources(flat: str) -> Iterator[Reading]:
    """Readings in no order; some may overlap what is named by its kind."""
    for pointer in POINTS.finditer(flat):
        place = pointer.end()
        for reader in (_makers_words, _specification, _section, _certificate, _chapter, _own_number):
            if found := list(reader(flat, place)):
                yield from found
                break
    yield from _rules(flat)
    for match in _CHAPTER_WITH_PAGE.finditer(flat):
        if not _OTHER_NUMBER.search(flat, max(0, match.start() - 8), match.start()):
            yield from _chapter(flat, match.start())
    for match in _BARE_CIRCULAR.finditer(flat):
        reading = Reading(match.start(), match.end(), Type.ADVISORY_CIRCULAR, match["number"])
        read_places(flat, reading, len(flat))
        yield reading


def makers_words_after(flat: str, place: int) -> Iterator[Reading]:
    """The maker's words joined to a source that ends at the place: "... and manufacturer's instructions"."""
    if joint := _JOINT.match(flat, place):
        yield from _makers_words(flat, joint.end())


def _rules(flat: str) -> Iterator[Reading]:
    for match in _RULE.finditer(flat):
        if joint := _SECTION_NEXT.match(flat, match.end()):
            yield from _section(flat, joint.end())
        number = "".join(match["number"].split())
        number = number if "." in number else f"part {number}"
        end = match.end()
        if match["letter"] and "." in number:
            end = match.end("number")  # an appendix is of a part, not of a section
        elif match["letter"]:
            number += f" appendix {match['letter'].upper()}"
        yield Reading(match.start(), end, Type.REGULATION, number, rule=True)
    for match in _LETTERED_SECTION.finditer(flat):
        yield Reading(match.start(), match.end(), Type.REGULATION, "".join(match[0].split()), rule=True)
    for match in _PART_APPENDIX.finditer(flat):
        part, letter = match["number"] or match["n2"] or match["n3"], match["letter"] or match["l2"]
        number = f"part {part} appendix {letter.upper()}"
        yield Reading(match.start(), match.end(), Type.REGULATION, number, rule=True)


def _makers_words(flat: str, place: int) -> Iterator[Reading]:
    if match := MAKERS_WORDS.match(flat, place):
        current = re.search("current|latest", match[0], re.IGNORECASE) is not None
        reading = Reading(place, match.end(), None, named=" ".join(match[0].split()), current=current)
        read_places(flat, reading, len(flat))
        yield reading


def _specification(flat: str, place: int) -> Iterator[Reading]:
    if match := SPECIFICATION.match(flat, place):
        reading = Reading(place, match.end(), Type.PROCESS_SPECIFICATION, " ".join(match["number"].split()))
        read_places(flat, reading, len(flat))
        yield reading


def _section(flat: str, place: int) -> Iterator[Reading]:
    while match := _SECTION.match(flat, place):
        yield Reading(
            match.start(), match.end(), Type.REGULATION, "".join(match["number"].split()), rule=True
        )
        joint = _SECTION_NEXT.match(flat, match.end())
        place = joint.end() if joint else len(flat)


def _certificate(flat: str, place: int) -> Iterator[Reading]:
    if match := _CERTIFICATE.match(flat, place):
        yield Reading(place, match.end(), Type.SUPPLEMENTAL_TYPE_CERTIFICATE, match["number"])


def _chapter(flat: str, place: int) -> Iterator[Reading]:
    if _CHAPTER.match(flat, place):
        reading = Reading(place, place)
        read_places(flat, reading, len(flat))
        if reading.chapter:
            yield reading


def _own_number(flat: str, place: int) -> Iterator[Reading]:
    """A publication called by its number, with words of a title or none, where a place in it or a revision
    follows."""
    title = _TITLE.match(flat, place)
    match = _OWN_NUMBER.match(flat, title.end())
    if match and re.search("[0-9]", match["number"]):
        named = " ".join(title[0].split())
        reading = Reading(place, match.end(), None, match["number"], named=named)
        read_places(flat, reading, len(flat))
        if reading.places:
            yield reading
