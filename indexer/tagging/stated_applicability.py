"""Where a work prints which models and serials a thing is for: the whole work, a page, a passage.

Only the words are taken here, as printed; tagging/applicability.py reads them when an aircraft is asked for.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import replace

from indexer.reading.page import Page, Passage
from indexer.tagging.applicability_reading import read_clauses
from indexer.tagging.flow import PrintedLine, one_line
from indexer.tagging.identity import type_value
from indexer.tagging.letter_applicability import letter_applicability
from indexer.tagging.page_effectivity import page_effectivity
from indexer.tagging.passage_effectivity import passage_effectivity
from indexer.tagging.tags import ApplicabilityScope, DirectiveFacts, Identity, StatedApplicability
from indexer.tagging.title_block import TitleBlock, title_block
from indexer.trade.evidence import Evidence, Tag
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.serial_words import begins_with_serials, goes_on, names_an_article

# Papers whose title page names the aircraft they are for. The title page of any other paper may name an
# aircraft that something is only fitted to.
_OF_AIRCRAFT = (
    Type.MAINTENANCE_MANUAL,
    Type.SERVICE_MANUAL,
    Type.PARTS_CATALOG,
    Type.STRUCTURAL_REPAIR_MANUAL,
    Type.WIRING_DIAGRAM_MANUAL,
    Type.FLIGHT_MANUAL,
    Type.FLIGHT_MANUAL_SUPPLEMENT,
    Type.TEMPORARY_REVISION,
)
_DIRECTIVES = (Type.AIRWORTHINESS_DIRECTIVE, Type.PROPOSED_DIRECTIVE)
_BULLETINS = (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER)
_TITLE_RULE = "models in title block"


def stated_applicability(
    identity: Identity,
    pages: Sequence[Page],
    passages: Sequence[Passage],
    directive: DirectiveFacts | None = None,
    affected: Sequence[Tag[str]] = (),
) -> tuple[StatedApplicability, ...]:
    """All that a work prints, the whole work first, then page by page, then passage by passage.

    affected  a bulletin's paragraphs on what is affected, with their headings
    """
    kind = type_value(identity)
    found = [
        StatedApplicability(ApplicabilityScope.PUBLICATION, tag)
        for tag in _of_work(kind, identity, pages, directive, affected)
    ]
    if kind in _DIRECTIVES:
        return tuple(found)
    if kind not in _BULLETINS:
        found += (
            StatedApplicability(ApplicabilityScope.PAGE, tag, page.pdf_page)
            for page in pages
            if (tag := page_effectivity(page))
        )
    found += (
        StatedApplicability(ApplicabilityScope.PASSAGE, tag, passage.pdf_page, passage.ordinal)
        for passage in passages
        for tag in passage_effectivity(passage)
    )
    return tuple(found)


def _of_work(
    kind: Type | None,
    identity: Identity,
    pages: Sequence[Page],
    directive: DirectiveFacts | None,
    affected: Sequence[Tag[str]],
) -> Iterator[Tag[str]]:
    if kind in _DIRECTIVES:
        if directive and directive.applicability:
            yield directive.applicability
    elif kind in _BULLETINS:
        yield from affected
    elif kind is Type.AMOC_LETTER:
        yield from letter_applicability(pages)
    elif kind in _OF_AIRCRAFT:
        title = _title_page(identity, title_block(pages))
        if title:
            yield title


def _title_page(identity: Identity, block: TitleBlock) -> Tag[str] | None:
    """The lines of the title block that name models, each with the serials right after it; None where the
    block names an article (an engine, a wheel): the models may be those it is fitted to."""
    quotes = {tag.evidence.quote for tag in identity.models if tag.evidence.rule == _TITLE_RULE}
    if any(names_an_article(line.text) for line in block.lines):
        return None
    taken: list[PrintedLine] = []
    for line in block.lines:
        follows = bool(taken) and taken[-1] is _line_before(block, line)
        serials = follows and (begins_with_serials(line.text) or goes_on(taken[-1].text))
        if one_line(line.text) in quotes or serials or _names_models_only(line.text):
            taken.append(line)
    return _together(taken) if taken else None


def _names_models_only(text: str) -> bool:
    """ "QZ62 OUZEL and QZ62S OUZEL SURVEY": two or more models and nothing else. One alone may be a number of
    the paper."""
    read = read_clauses(text)
    names = [name.name for clause in read.clauses for name in clause.models]
    numbers = [name for name in names if re.match(r"[A-Z]+-?[0-9]", name)]
    return not read.unread and len(names) > 1 and len(numbers) == len(names)


def _line_before(block: TitleBlock, line: PrintedLine) -> PrintedLine | None:
    place = block.lines.index(line)
    return block.lines[place - 1] if place else None


def _together(lines: Sequence[PrintedLine]) -> Tag[str]:
    evidence: Evidence = lines[0].evidence("title page")
    box = lines[0].line.box
    for line in lines[1:]:
        box = box.union(line.line.box)
    words = "\n".join(one_line(line.text) for line in lines)
    return Tag(words, replace(evidence, quote=one_line(words), box=box))
