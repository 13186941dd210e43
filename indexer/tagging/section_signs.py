"""What says in which section of a manual with its own order a place stands: running lines, headings, page
numbers counted by section, and the printed contents.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise

from indexer.reading.page import Page
from indexer.tagging.contents_entries import contents_entries, resolve_entries
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.zone_columns import segments
from indexer.trade.evidence import Basis, Evidence
from indexer.trade.own_numbers import OwnNumber, parse_own_number

_WORDS = ("section", "chapter", "group", "part")
_SIGN = re.compile(
    r"(?P<word>section|chapter|group|part)\s+(?P<number>[IVXL]{1,7}|[0-9]{1,2}[A-Z]?|[A-Z])"
    r"(?:\s*[-.:,]+\s*|\s+|$)(?P<title>.*)",
    re.IGNORECASE,
)
_IN_A_SENTENCE = re.compile(
    r"(?:of|is|are|and|or|for|to|paragraphs?|pars?\.?|tells?|gives?|has|shows?)\b", re.IGNORECASE
)
_CONTINUED = re.compile(r"[\s,-]*\(?\b(?:continued|cont'?d?)\b\.?\)?\s*$", re.IGNORECASE)
_PAGE = re.compile(r"(?P<section>[IVX]{1,5}|[0-9]{1,2})-[0-9]{1,3}[A-Z]?")
_PARAGRAPH = re.compile(r"(?:[0-9]{1,2}|[IVX]{1,5})[-.][0-9]{1,3}[A-Z]?\.?\s")
_PAGE_BESIDE = re.compile(r"[\s,-]*\bpage\s+[0-9A-Z-]+\s*", re.IGNORECASE)
_LONGEST_TITLE = 80


@dataclass(frozen=True, slots=True)
class SectionSign:
    """A place that says in which section it stands. `word`: "section", "group" ...; "" where it has none."""

    word: str
    number: str  # as printed, in capitals
    title: str
    evidence: Evidence

    @property
    def own(self) -> OwnNumber | None:
        return parse_own_number(self.number)


def running_signs(page: Page) -> Iterator[SectionSign]:
    for line in (*page.foot, *page.head):
        for segment in segments(line):
            sign = _sign(
                PrintedLine(page.pdf_page, line, page.origin), segment.text, "section in running line"
            )
            if sign:
                yield sign


def heading_signs(page: Page) -> Iterator[SectionSign]:
    """Headings that open a section, each with the title on its line or on the next.

    The first headings of a page can be taken for its running head, where every section begins alike.
    """
    for line in page.head:
        sign = _sign(PrintedLine(page.pdf_page, line, page.origin), line.text, "section heading")
        if sign and sign.title:
            yield sign
    for place, line in enumerate(page.body):
        text = plain(one_line(line.text))
        if not (line.heading_level or text.isupper() or len(text.split()) == 2):
            continue
        sign = _sign(PrintedLine(page.pdf_page, line, page.origin), text, "section heading")
        if sign is None:
            continue
        if not sign.title and place + 1 < len(page.body):
            below = page.body[place + 1]
            title = plain(one_line(below.text))
            if (below.heading_level or title.isupper()) and not _PARAGRAPH.match(title):
                sign = replace(sign, title=title)
        yield sign


def _sign(line: PrintedLine, text: str, rule: str) -> SectionSign | None:
    bare = _PAGE_BESIDE.sub(" ", plain(one_line(text)))
    match = _SIGN.fullmatch(_CONTINUED.sub("", bare).strip(" ."))
    if match is None or len(match["title"]) > _LONGEST_TITLE or _IN_A_SENTENCE.match(match["title"]):
        return None
    if parse_own_number(match["number"]) is None:
        return None
    return SectionSign(match["word"].lower(), match["number"].upper(), match["title"], line.evidence(rule))


def title_in(heading_path: Sequence[str], own: OwnNumber | None) -> str:
    """The title of a section as headings above a passage print it: on the section's own line or on the next.

    "" where no heading names the section.
    """
    for place, match in _naming(heading_path, own):
        below = heading_path[place + 1 : place + 2]
        return match["title"] or "".join(each for each in below if not _PARAGRAPH.match(plain(each)))
    return ""


def number_in(heading_path: Sequence[str], own: OwnNumber | None) -> str:
    """The figure of a section as headings above a passage print it, in capitals: "V"; "" where none does."""
    return next((match["number"].upper() for _, match in _naming(heading_path, own)), "")


def _naming(heading_path: Sequence[str], own: OwnNumber | None) -> Iterator[tuple[int, re.Match[str]]]:
    """The headings that name a section, and where in the path they stand."""
    for place, heading in enumerate(heading_path):
        match = _SIGN.fullmatch(_CONTINUED.sub("", plain(one_line(heading)).strip(" .")))
        if match and own is not None and parse_own_number(match["number"]) == own:
            yield place, match


def page_number_signs(page: Page) -> Iterator[SectionSign]:
    """The section that a page number counts in: "5-3" is page 3 of section 5."""
    printed = plain(page.printed_page).strip()
    match = _PAGE.fullmatch(printed)
    if match:
        lines = [line for line in (*page.foot, *page.head) if printed in plain(line.text)]
        rule = "section in page number"
        evidence = (
            PrintedLine(page.pdf_page, lines[0], page.origin).evidence(rule)
            if lines
            else Evidence(Basis.PRINTED, rule, page.printed_page, page.pdf_page, origin=page.origin)
        )
        yield SectionSign("", match["section"], "", evidence)


def section_word(signs: Sequence[SectionSign]) -> str:
    """The word that the manual's main divisions go by: section, chapter, group or part, the first whose
    numbers never fall back; "" when none is printed twice."""
    for word in _WORDS:
        numbers = [sign.own for sign in signs if sign.word == word and sign.own]
        if len(numbers) > 1 and all(one <= other for one, other in pairwise(numbers)):
            return word
    return ""


def listed_sections(pages: Sequence[Page], word: str) -> dict[int, SectionSign]:
    """Per pdf page on which a section begins by the contents page: the section."""
    entries = [entry for entry in contents_entries(pages) if _section_number(entry.number, word)]
    listed: dict[int, SectionSign] = {}
    for entry, target in zip(entries, resolve_entries(entries, pages), strict=True):
        if target:
            evidence = Evidence(Basis.PRINTED, "section in contents", entry.quote, entry.pdf_page, entry.box)
            number = _section_number(entry.number, word)
            listed.setdefault(target.pdf_page, SectionSign(word, number, entry.title, evidence))
    return listed


def _section_number(printed: str, word: str) -> str:
    """The bare number of a contents entry that lists a whole section; "" for a paragraph, a figure or another
    division."""
    match = re.fullmatch(r"(?:(?P<word>[A-Za-z]+)\s+)?(?P<number>[IVXL]+|[0-9]{1,2}[A-Z]?)", printed.strip())
    if match is None or (match["word"] and match["word"].lower() != word):
        return ""
    return match["number"].upper()
