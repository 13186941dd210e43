"""The sections and numbered paragraphs of a manual with its own order, passage by passage.

A section is told by a running line ("Section V"), a heading ("SECTION V LANDING GEAR"), a page number counted
by section ("5-3"), or the page that the printed contents give for it; it holds until the next. A paragraph is
told by the number its heading opens with ("5-12. ADJUSTMENT") where that is of the section it stands in. What
a mechanic cites is the paragraph where there is one, else the section; both are kept as printed.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.page import Page, Passage
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.front_pages import front_pages
from indexer.tagging.section_signs import (
    SectionSign,
    heading_signs,
    listed_sections,
    page_number_signs,
    running_signs,
    section_word,
)
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.own_numbers import parse_own_number
from indexer.trade.publication_types import PublicationType as Type

# Papers that are not books: their sections are never cited without them, and no shop maps them.
_WITHOUT_SECTIONS = frozenset(
    {
        Type.REGULATION, Type.ACCIDENT_REPORT, Type.CODE_TABLE,
        Type.RELEASE_CERTIFICATE, Type.REPAIR_ALTERATION_RECORD,
        Type.ENGINEERING_APPROVAL, Type.PARTS_APPROVAL,
        Type.TYPE_CERTIFICATE_DATA_SHEET, Type.AMOC_LETTER,
        Type.AIRWORTHINESS_DIRECTIVE, Type.PROPOSED_DIRECTIVE,
        Type.SERVICE_BULLETIN, Type.SERVICE_LETTER, Type.AIRWORTHINESS_BULLETIN, Type.TEMPORARY_REVISION,
    }
)  # fmt: skip
_WITHOUT_PARAGRAPHS = frozenset({Type.PARTS_CATALOG})  # "5-201 Bolt" there is a part number
_PARAGRAPH = re.compile(
    r"(?P<section>[0-9]{1,2}|[IVX]{1,5})(?P<joint>[-.])(?P<below>[0-9]{1,3}[A-Z]?)(?P<stop>\.?)\s+(?=[A-Z\"'])"
)
_LEAST_SECTIONS = 2


@dataclass(frozen=True, slots=True)
class OwnSection:
    """Where a passage stands in a manual's own order.

    section   the whole section as printed ("V", "5"); the same for all its passages
    title     of the section, as printed; "" when it has none
    numbers   scheme OWN, what to cite: the paragraphs that the passage holds ("5-12", as printed), in order;
              the section alone where it stands under no numbered paragraph. Never empty
    """

    section: ChapterNumber
    title: str
    numbers: tuple[Tag[ChapterNumber], ...]


def own_sections(
    kind: Type | None, pages: Sequence[Page], passages: Sequence[Passage], counted_by_section: bool
) -> dict[int, OwnSection]:
    """Per passage ordinal its section; {} for what is no manual with its own order.

    counted_by_section  whether the running lines are those of a manual with its own order (`own_order`);
                        without it the contents page must list the sections that headings name
    Title pages, contents, indexes and other front matter have no section.
    """
    if kind in _WITHOUT_SECTIONS:
        return {}
    front = front_pages(pages)
    body = [page for page in pages if page.pdf_page not in front]
    running = {page.pdf_page: tuple(running_signs(page)) for page in body}
    headed = {page.pdf_page: tuple(heading_signs(page)) for page in body}
    signs = [sign for page in body for sign in (*running[page.pdf_page], *headed[page.pdf_page])]
    word = section_word(signs)
    listed = listed_sections(pages, word)
    told = {sign.own for sign in signs if sign.word == word} & {sign.own for sign in listed.values()}
    if not counted_by_section and len(told) < _LEAST_SECTIONS:
        return {}
    walk = _Walk(body, word, listed, kind not in _WITHOUT_PARAGRAPHS)
    found: dict[int, OwnSection] = {}
    for page in body:
        walk.turn_to(page, running[page.pdf_page], headed[page.pdf_page])
        for passage in (each for each in passages if each.pdf_page == page.pdf_page):
            section = walk.read(passage)
            if section:
                found[passage.ordinal] = section
    return found


class _Walk:
    """Reads a manual from its first page to its last and remembers in which section and paragraph it is."""

    def __init__(
        self, pages: Sequence[Page], word: str, listed: dict[int, SectionSign], with_paragraphs: bool
    ):
        self._pages = {page.pdf_page: page for page in pages}
        self._word, self._listed, self._with_paragraphs = word, listed, with_paragraphs
        self._titles = {sign.own: sign.title for sign in listed.values()}
        self._here: SectionSign | None = None
        self._title = ""
        self._paragraph: Tag[ChapterNumber] | None = None
        self._heading: ChapterNumber | None = None  # the paragraph of the last heading that opened one
        self._headed: dict[str, SectionSign] = {}

    def turn_to(self, page: Page, running: Sequence[SectionSign], headed: Sequence[SectionSign]) -> None:
        """A page's running line, else its page number, else the contents page, say where its top stands."""
        headed = [sign for sign in headed if sign.word == self._word]
        self._headed = {sign.evidence.quote: sign for sign in headed}
        named = [sign for sign in running if self._word and sign.word == self._word]
        listed = self._listed.get(page.pdf_page)
        for sign in (*named[:1], *page_number_signs(page), *([listed] if listed else [])):
            self._enter(sign)
            break
        for sign in headed:
            if self._here and sign.own == self._here.own and sign.title:
                self._title = sign.title
                break
        for line in page.head:
            number = self._paragraph_of(line.text, True) if self._with_paragraphs else None
            if number and number != self._heading:
                self._heading = number
                evidence = PrintedLine(page.pdf_page, line, page.origin).evidence("own paragraph number")
                self._paragraph = Tag(number, evidence)

    def read(self, passage: Passage) -> OwnSection | None:
        """Where a passage stands; None before the first section."""
        for heading in passage.heading_path:
            sign = self._headed.get(one_line(heading))
            if sign:
                self._enter(sign)
        before = self._paragraph
        opened = list(self._opened(passage))
        if opened:
            self._paragraph = opened[-1][1]
        if self._here is None:
            return None
        lead = [before] if before and not (opened and opened[0][0]) else []
        numbers = tuple({tag.value: tag for tag in (*lead, *(tag for _, tag in opened))}.values())
        whole = ChapterNumber(self._here.number, scheme=Scheme.OWN)
        return OwnSection(whole, self._title, numbers or (Tag(whole, self._here.evidence),))

    def _enter(self, sign: SectionSign) -> None:
        if self._here is None or sign.own != self._here.own:
            self._here, self._paragraph = sign, None
            self._title = self._titles.get(sign.own) or sign.title

    def _opened(self, passage: Passage) -> Iterator[tuple[bool, Tag[ChapterNumber]]]:
        """Paragraphs that begin in a passage, each with whether it begins with the passage's first word.

        A passage may begin above its heading, with a warning: then the paragraph before is there too.
        """
        if not self._with_paragraphs or self._here is None:
            return
        lines = passage.text.splitlines()
        for heading in passage.heading_path:
            number = self._paragraph_of(heading, True)
            if number and number != self._heading:  # a heading stays in the path until the next
                self._heading = number
                above = lines[: lines.index(heading)] if heading in lines else []
                yield not above, self._tag(number, heading, passage)
        for place, text in enumerate(lines):
            number = self._paragraph_of(text, False)
            if number and number != self._heading:
                yield place == 0, self._tag(number, text, passage)

    def _paragraph_of(self, text: str, heading: bool) -> ChapterNumber | None:
        """The paragraph that a line opens, when it is of the section we are in."""
        match = _PARAGRAPH.match(plain(one_line(text)))
        if match is None or self._here is None:
            return None
        sure = heading or (match["stop"] and match["joint"] == "-")
        if not sure or parse_own_number(match["section"]) != self._here.own:
            return None
        if match["joint"] == ".":  # printed with a point, cited with a point
            return ChapterNumber(f"{match['section']}.{match['below']}", scheme=Scheme.OWN)
        return ChapterNumber(match["section"], match["below"], scheme=Scheme.OWN)

    def _tag(self, number: ChapterNumber, text: str, passage: Passage) -> Tag[ChapterNumber]:
        """Quoted from the page that prints the line: the passage's first, or the next it runs on to."""
        rule, quote = "own paragraph number", one_line(text)
        for pdf_page in dict.fromkeys((passage.pdf_page, *(box.pdf_page for box in passage.boxes))):
            page = self._pages.get(pdf_page)
            for line in page.body if page else ():
                if one_line(line.text) == quote:
                    return Tag(number, PrintedLine(pdf_page, line, passage.origin).evidence(rule))
        return Tag(number, Evidence(Basis.PRINTED, rule, quote, passage.pdf_page, origin=passage.origin))
