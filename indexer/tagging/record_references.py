"""Sources in a record entry or on a work card: the shorthand of mechanics, read from left to right.

The words of a kind ("MM", "S/B", "8110-3") are found first; the words that name it stand before them, its
number and places after them, or its places before. A kind without number or place counts only where the entry
points at it: "IAW MM".
"""

import re
from collections.abc import Iterator
from dataclasses import replace

from indexer.tagging.record_lists import further
from indexer.tagging.record_naming import OWN_NUMBER, Pointers
from indexer.tagging.record_numbers import read_number
from indexer.tagging.record_places import Reading, read_places
from indexer.tagging.record_pointed import makers_words_after, pointed_sources
from indexer.tagging.record_words import HEAD, KINDS, USED_AFTER, Kind, Numbered
from indexer.tagging.reference_words import spaced
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.publication_types import PublicationType as Type

_VALUE = (
    r"(?:[A-Z0-9]{1,5}(?:[.-][A-Z0-9]{1,5}){0,3}(?:\.?\([a-z0-9]{1,4}\)){0,4}|(?:\([a-z0-9]{1,4}\)){1,5})"
)
_BEFORE = spaced(
    r"(?<![\w-])(?P<places>(?:(?:(?:sections?|sect?\b\.?|chapters?|chap\b\.?|ch\b\.?"
    r"|pages?|pgs?\b\.?|pp?\b\.?|figures?|figs?\b\.?"
    rf"|(?:sub)?paragraphs?|paras?\b\.?|pars?\b\.?|parts?|items?|notes?"
    rf"|tasks?)[ .#]{{1,3}}{_VALUE}(?: ?(?:,|and|&|or) {_VALUE})?"
    r"|[0-9]{2}-[0-9]{2}-[0-9]{2})[ ,]{1,3}){1,4})(?:(?:of|in|from) (?:the )?)?$"
)
_OF = re.compile(r"[ ,]{0,4}(?:(?:of|in|from)[ ]{1,3}(?:the[ ]{1,3})?)?")
_PLACES_ENOUGH = (Numbered.MANUAL, Numbered.TITLED, Numbered.CERTIFICATE, Numbered.WORDS)
# Of these the number is what tells them from words of the entry.
_SHORT_TITLE = re.compile(r"^IM$|instr\w*\.?$", re.IGNORECASE)
_CHAIN = spaced(r" ?(?:[,;/&+]|,? ?(?:and|or)) ?(?:the )?")
_AFTER_337 = spaced(
    r"(?:'?s|'d)? ?(?:\(?[0-9]{1,2}[-/ ]|dtd|dated?|form|filed|submitted|sent|complet|on file"
    r"|signed|approv|attached|prepared)"
)
_OF_CERTIFICATE = re.compile(r"[ ]{1,3}(?:ICA|instructions for cont)", re.IGNORECASE)
_CLAUSE_BEFORE = re.compile(r"(?:[ ]-|[;:(+])[ ]*$")
_CLAUSE_AFTER = re.compile(r"[ ]*(?:$|[.;)+]|-[ ])")
_TO_DIRECTIVE = re.compile(r"[ ]{1,3}(?:to|for)[ ]{1,3}A\.?D\.?[ ]{1,3}[0-9]")
_NOT_USED = spaced(
    r" ?(?:is |was )?(?:not (?:avail|used|applic)|n/?a(?![\w])|unavail|silent|does not|doesn't)"
)
_CLOSING_STOP = re.compile(r"^[^.]+[A-Z]\.$", re.IGNORECASE)
_MEASURE = re.compile(r"(?<![\w-])[0-9.]{1,8}[ ]?$")
_REVISION_BEFORE = spaced(
    r"(?<![\w-])(?:revision|rev\b\.?|issue|change|amendment)(?: no\.?)? (?P<mark>[0-9]{1,3}[A-Z]?|[A-Z]{1,2})"
    r",? (?:of|to) (?:the )?$"
)
_OTHER_NUMBER = re.compile(
    r"(?<![\w])(?:[PSM]/[NO]|[PS]N|serial|model|lot|batch|reg)(?: no\.?)?[ .:#]*$", re.I
)
_APPROVED_BEFORE = re.compile(r"approved[ ]{1,3}$", re.IGNORECASE)


def record_citations(flat: str) -> list[Citation]:
    """Every source named in the entry, in order of place, none overlapping another. Flat text."""
    readings: list[Reading] = []
    floor = 0
    for reading in _in_order(flat):
        if reading.start >= floor:
            readings.append(reading)
            floor = reading.end
    return [_citation(flat, reading) for reading in readings]


def _in_order(flat: str) -> Iterator[Reading]:
    by_words = list(_named_by_kind(flat))
    taken = bytearray(len(flat) + 1)
    for reading in by_words:
        taken[reading.start : reading.end] = b"\1" * (reading.end - reading.start)
    others = [each for each in pointed_sources(flat) if not any(taken[each.start : each.end])]
    for reading in [*by_words, *others]:
        others.extend(makers_words_after(flat, reading.end))
    return iter(sorted([*by_words, *others], key=lambda each: each.start))


def _named_by_kind(flat: str) -> Iterator[Reading]:
    floor = 0  # the end of what was read last
    before: Reading | None = None
    pointers = Pointers.of(flat)
    for words in HEAD.finditer(flat):
        if words.start() < floor:
            continue
        kind = KINDS[int(words.lastgroup[1:])]
        found = _read(pointers, words, kind, floor, before)
        for reading in found:
            before, floor = reading, max(floor, reading.end)
            yield reading


def _read(
    pointers: Pointers, words: re.Match, kind: Kind, floor: int, before: Reading | None
) -> list[Reading]:
    flat = pointers.flat
    named = pointers.naming_start(words.start(), floor)
    number, revision, end = read_number(flat, kind, words)
    reading = Reading(named, end, kind.type, number, revision=revision)
    reading.named = _named(flat, named, words, kind)
    reading.current = bool(re.search(r"\b(?:current|latest)\b", reading.named, re.IGNORECASE))
    if not number and kind.numbered in (Numbered.MANUAL, Numbered.TITLED):
        _number_among_names(reading)
    earlier = _places_before(flat, reading, named, floor)
    read_places(flat, reading, len(flat))
    before_name = _REVISION_BEFORE.search(flat, max(floor, reading.start - 30), reading.start)
    if before_name and not reading.revision and (reading.number or reading.places):
        reading.start, reading.revision = before_name.start(), before_name["mark"]
    if reading.end == words.end() and _CLOSING_STOP.search(words[0]):
        reading.end -= 1  # "... per MM." ends its sentence
    if not _counts(pointers, words, kind, reading, before):
        return []
    return [*earlier, reading, *further(flat, reading, kind, words)]


def _named(flat: str, named: int, words: re.Match, kind: Kind) -> str:
    """The naming words; of an approval without a number the words of the kind too."""
    told = flat[named : words.start()].strip(" ,")
    own_words = (
        kind.numbered in (Numbered.WORDS, Numbered.FORM)
        or kind.numbered is Numbered.MANUAL
        and (re.match("eng|prop", words[0], re.IGNORECASE))
    )
    return " ".join(f"{told} {words[0] if own_words else ''}".split())


def _number_among_names(reading: Reading) -> None:
    for word in reading.named.split():
        if OWN_NUMBER.fullmatch(word):
            reading.number = word


def _places_before(flat: str, reading: Reading, named: int, floor: int) -> list[Reading]:
    """Take up the places said before the name: "sect 5 pg 5-12 H-14 service manual"; the first members of a
    list of them ("paras (g) and (h) of AD ...") are given as readings of their own."""
    match = _BEFORE.search(flat, max(floor, named - 80), named)
    if not match:
        return []
    place = Reading(match.start(), match.start(), reading.type)
    read_places(flat, place, named)
    members = further(flat, place, None, None, named) if place.places else []
    last = members[-1] if members else place
    if last.start == last.end or not _OF.fullmatch(flat, last.end, named):
        return []
    for sort in ("chapter", "page", "figure", "paragraph", "item", "task"):
        if value := getattr(last, sort):
            setattr(reading, sort, value)
    reading.start = last.start
    reading.places.extend(last.places)
    earlier = [place, *members][:-1]
    for each in earlier:
        each.number, each.revision, each.named, each.date_words = (
            reading.number, reading.revision, reading.named, reading.date_words,
        )  # fmt: skip
    return earlier


def _counts(
    pointers: Pointers, words: re.Match, kind: Kind, reading: Reading, before: Reading | None
) -> bool:
    """Whether the words name a source here, and are not a measure, a mere mention or something else."""
    flat = pointers.flat
    if words[0].isalpha() and _OTHER_NUMBER.search(flat, max(0, words.start() - 14), words.start()):
        return False
    if (
        words[0].lower() == "mm"
        and not reading.chapter
        and _MEASURE.search(flat, max(0, words.start() - 10), words.start())
    ):
        return False
    if kind.numbered is Numbered.DRAWING:
        return bool(reading.number)
    if kind.numbered is Numbered.PAPER and not reading.number:
        return False
    if kind.numbered is Numbered.TITLED and (short := _SHORT_TITLE.search(words[0])):
        return bool(reading.number) and (bool(reading.places) or short[0].upper() != "IM")
    if kind.numbered is Numbered.FORM and words[0].lower().removesuffix("'d").strip("s") == "337":
        approved = _APPROVED_BEFORE.search(flat, max(0, words.start() - 12), words.start())
        return bool(approved or _AFTER_337.match(flat, words.end())) or pointers.at(reading.start)
    if kind.type is Type.SUPPLEMENTAL_TYPE_CERTIFICATE and _OF_CERTIFICATE.match(flat, reading.end):
        return False  # "STC SA123ZZ ICA" names the instructions of the certificate
    if kind.alone or reading.number and kind.numbered is not Numbered.PAPER:
        return True
    if kind.numbered in _PLACES_ENOUGH and reading.places:
        return True
    if kind.type is Type.AMOC_LETTER and _TO_DIRECTIVE.match(flat, reading.end):
        return True
    chained = (
        before is not None
        and before.end <= reading.start
        and _CHAIN.fullmatch(flat, before.end, reading.start)
    )
    if kind.type is Type.SERVICE_LETTER and words[0].lower().endswith("instructions"):
        return False  # the maker's words, and no numbered instruction
    if kind.type is Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS and flat.startswith(" for ", reading.end):
        return True
    if _NOT_USED.match(flat, reading.end):
        return False
    if bool(chained) or pointers.at(reading.start):
        return True
    clause = kind.numbered is Numbered.MANUAL and _is_clause(flat, reading)
    return clause or bool(USED_AFTER.match(flat, words.end()))


def _is_clause(flat: str, reading: Reading) -> bool:
    """Whether nothing but the name stands between two marks: "- airworthiness limitations sect", or alone."""
    start, end = reading.start, reading.end
    if not flat[:start].strip() and not flat[end:].strip(" ."):
        return True
    long_name = flat.find(" ", start, end) > 0
    return long_name and bool(
        _CLAUSE_BEFORE.search(flat, max(0, start - 3), start) and _CLAUSE_AFTER.match(flat, end)
    )


def _citation(flat: str, reading: Reading) -> Citation:
    kind, number = CitationKind.DOCUMENT, reading.number
    if reading.rule:
        kind = CitationKind.REGULATION
    elif reading.task and not number:
        kind, number = CitationKind.TASK, reading.task
    elif reading.type is Type.COMPONENT_MAINTENANCE_MANUAL and not number and reading.chapter:
        number = str(reading.chapter)
    elif reading.chapter and not number and str(reading.chapter.scheme) != "OWN":
        kind = CitationKind.CHAPTER
    return replace(
        Citation(kind, flat[reading.start : reading.end], reading.start, reading.end, reading.type, number),
        revision=reading.revision,
        date=reading.date,
        chapter_number=reading.chapter,
        page=reading.page,
        figure=reading.figure,
        paragraph=reading.paragraph,
        item=reading.item,
        named=reading.named,
        claims_current=reading.current,
        date_words=reading.date_words,
    )
