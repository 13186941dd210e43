"""What a service bulletin or letter says of itself: compliance, approval, products, chapter.

Paragraph order: iSpec 2200, and the shorter order of general-aviation bulletins.
"""

import re
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from indexer.reading.page import Page
from indexer.tagging.cited_documents import find_cited_documents
from indexer.tagging.flow import Flow, body_flow, one_line, plain
from indexer.tagging.tags import BulletinFacts, Claim, ClaimKind
from indexer.tagging.title_block import TitleBlock
from indexer.trade.bulletin_numbers import bulletin_chapter
from indexer.trade.chapters import ChapterNumber, find_numbers
from indexer.trade.evidence import Tag
from indexer.trade.publication_types import PublicationType as Type

BULLETINS = (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER)
_NAMES = (
    r"Effectivity|Concurrent Requirements?|Reason|Background|Purpose|Subject|Title|Description"
    r"|Compliance(?: Time)?|(?:FAA |Engineering |DER )?"
    r"Approvals?|Manpower|Man-?hours|Weight and Balance|Weight|Electrical Load(?: Data)?"
    r"|Software Accomplishment Summary"
    r"|Referenced? ?(?:Documentation|Documents|Publications)?|References|(?:Other )?(?:Documentation"
    r"|Publications) Affected|Industry Support"
    r"|Warranty|Credit|Interchangeability|Material(?:s)?(?: Information| Necessary)?|Tooling"
    r"|Accomplishment Instructions|Instructions"
    r"|Planning Information|Appendix|Models?(?:/Serials?)?(?: and Serial Numbers?)? ?(?:Affected)?"
    r"|Serial Numbers? Affected"
    r"|(?:Airplanes?|Aircraft|Helicopters?|Products?|Units|Engines?|Propellers?) Affected|Applicability"
    r"|Supersed\w+|Cancell?ation|Record of Revisions"
)
_HEADING = re.compile(
    rf"^[ \t]*(?:\(?(?:\d{{1,2}}|[A-Z]"
    rf"|[IVX]{{1,4}})[.)]\s*)*(?P<name>{_NAMES})\b[ \t]*(?P<colon>[:.-]?)[ \t]*(?P<rest>[^\n]*)$",
    re.MULTILINE | re.IGNORECASE,
)
_AFFECTED = (
    "effectivity", "model", "serial", "airplane", "aircraft", "helicopter", "product", "unit", "engine",
    "propeller", "applicability",
)  # fmt: skip
_ATA_LINE = re.compile(r"\bATA\b|\bJASC\b", re.IGNORECASE)
_REPLACES = re.compile(
    r"\bsupersedes?\b|\breplaces? (?:and supersedes? )?(?:service|SB|SL|the|revision)|\bcancels?\b"
    r"|\bis terminated by\b",
    re.IGNORECASE,
)
_REPLACED_BY = re.compile(
    r"\b(?:is|has been|was) (?:superseded|replaced|cancell?ed|terminated) by\b", re.IGNORECASE
)


@dataclass(frozen=True, slots=True)
class BulletinReading:
    """facts; `approval_span`: where in `flow` the approval paragraph stands, None without one;
    `affected`: every paragraph on what is affected, whole and with its heading."""

    facts: BulletinFacts
    chapters: tuple[Tag[ChapterNumber], ...]
    claims: tuple[Claim, ...]
    flow: Flow
    approval_span: tuple[int, int] | None
    affected: tuple[Tag[str], ...] = ()


@dataclass(frozen=True, slots=True)
class _Section:
    name: str
    heading: int
    start: int
    end: int


def read_bulletin(pages: Sequence[Page], block: TitleBlock, number: Tag[str] | None) -> BulletinReading:
    """A bulletin or letter taken apart; a paragraph that is not printed is None."""
    flow = body_flow(pages)
    sections = list(_sections(flow))
    approval = _named(sections, "approval", "faa approval", "engineering approval", "der approval")
    return BulletinReading(
        facts=BulletinFacts(
            compliance=_paragraph(flow, _named(sections, "compliance"), "bulletin compliance paragraph"),
            approval=_paragraph(flow, approval, "bulletin approval paragraph"),
            affected=_affected(flow, sections),
        ),
        chapters=_chapters(block, number),
        claims=tuple(_claims(flow, number)),
        flow=flow,
        approval_span=(approval.start, approval.end) if approval else None,
        affected=tuple(_all_affected(flow, sections)),
    )


def affected_paragraph(pages: Sequence[Page]) -> Tag[str] | None:
    """Which products a bulletin is for, as printed."""
    flow = body_flow(pages)
    return _affected(flow, list(_sections(flow)))


def _all_affected(flow: Flow, sections: list[_Section]) -> Iterator[Tag[str]]:
    """Models in one paragraph and serials in the next are both of it: they are given as one where they stand
    side by side."""
    groups: list[list[_Section]] = []
    for place, section in enumerate(sections):
        if not section.name.startswith(_AFFECTED):
            continue
        if groups and sections[place - 1] is groups[-1][-1]:
            groups[-1].append(section)
        else:
            groups.append([section])
    for group in groups:
        text = flow.text[group[0].heading : group[-1].end].rstrip()
        evidence = flow.evidence(
            group[0].heading, group[0].heading + len(text), "bulletin effectivity paragraph"
        )
        yield Tag(evidence.quote, evidence)


def _affected(flow: Flow, sections: list[_Section]) -> Tag[str] | None:
    return _paragraph(flow, _named(sections, *_AFFECTED), "bulletin effectivity paragraph")


def _sections(flow: Flow) -> Iterator[_Section]:
    """Headed paragraphs in order. A name followed by running text without a colon is a sentence, not a
    heading."""
    found = []
    for match in _HEADING.finditer(flow.plain_lines):
        rest = match["rest"].strip()
        name = match["name"]
        if rest and not match["colon"] and not rest.isupper():
            continue
        if name[:1].islower():
            continue
        start = match.start("rest") if rest else match.end()
        found.append((name.lower(), match.start(), start))
    for place, (name, heading, start) in enumerate(found):
        end = found[place + 1][1] if place + 1 < len(found) else len(flow.text)
        yield _Section(name, heading, start, end)


def _named(sections: list[_Section], *names: str) -> _Section | None:
    return next((each for each in sections if any(each.name.startswith(name) for name in names)), None)


def _paragraph(flow: Flow, section: _Section | None, rule: str) -> Tag[str] | None:
    if section is None:
        return None
    text = flow.text[section.start : section.end]
    lead = len(text) - len(text.lstrip())
    end = section.start + min(len(text.rstrip()), lead + 1500)
    if end <= section.start + lead:
        return None
    evidence = flow.evidence(section.start + lead, end, rule)
    return Tag(evidence.quote, evidence)


def _chapters(block: TitleBlock, number: Tag[str] | None) -> tuple[Tag[ChapterNumber], ...]:
    """From the ATA line of the title block, else from the number's style; where both speak and differ,
    both stay."""
    printed = [
        Tag(found.number, line.evidence("ATA line of bulletin"))
        for line in block.lines
        if _ATA_LINE.search(line.text) and len(line.text.split()) <= 14
        for found in find_numbers(plain(one_line(line.text)))
        if found.form in ("ata chapter words", "ata code words", "jasc code words", "chapter words")
    ]
    by_number = bulletin_chapter(re.sub(r"^[A-Z]{2,3}\s+", "", number.value)) if number else None
    if by_number is None:
        return tuple(printed)
    style = Tag(by_number, replace(number.evidence, rule="chapter in bulletin number"))
    if not printed:
        return (style,)
    if any(style.value.covers(tag.value) for tag in printed):
        return tuple(printed)
    return (Tag(printed[0].value, printed[0].evidence, (style,)), *printed[1:])


def _claims(flow: Flow, number: Tag[str] | None) -> Iterator[Claim]:
    """What it replaces or is replaced by, and what it names. A bulletin requires nothing of the law."""
    own = _bare(number.value) if number else ""
    seen: set[tuple[ClaimKind, str, str]] = set()
    for start, end in _statements(flow):
        sentence = flow.plain[start:end]
        for cited in find_cited_documents(sentence):
            kind = _kind(sentence, cited.start)
            same = _bare(cited.number) == own
            if same and not (kind is ClaimKind.SUPERSEDES and cited.revision):
                continue
            if kind is not ClaimKind.MENTIONS and cited.type not in (
                Type.SERVICE_BULLETIN,
                Type.SERVICE_LETTER,
            ):
                kind = ClaimKind.MENTIONS
            key = (kind, cited.number, cited.revision)
            if key in seen:
                continue
            seen.add(key)
            evidence = flow.evidence(start, end, f"bulletin {kind}")
            yield Claim(
                kind, cited.number, evidence, cited.type, cited.revision, cited.date, cited.paragraphs
            )


def _kind(sentence: str, place: int) -> ClaimKind:
    before = sentence[:place]
    if _REPLACED_BY.search(before):
        return ClaimKind.SUPERSEDED_BY
    return ClaimKind.SUPERSEDES if _REPLACES.search(before) else ClaimKind.MENTIONS


def _statements(flow: Flow) -> Iterator[tuple[int, int]]:
    """Sentences, items and short lines of their own (titles, table cells), as places in the flow."""
    text = flow.plain_lines
    widest = max((printed.line.box.width for printed in flow.lines), default=0.0)
    short_ends = [
        start + len(printed.text) for start, printed in flow.places() if printed.line.box.width < 0.7 * widest
    ]
    stops = {
        stop.start() + 1
        for stop in re.finditer(r"\.[ \n]+(?=[A-Z(])|.\n(?=[ \t]*\(?(?:\d{1,2}|[A-Z])[.)]\s)", text)
    }
    first = 0
    for stop in sorted({*stops, *short_ends}):
        if text[first:stop].strip():
            yield first + len(text[first:stop]) - len(text[first:stop].lstrip()), stop
        first = stop
    if text[first:].strip():
        yield first, len(text)


def _bare(number: str) -> str:
    return re.sub(r"^(?:[A-Z]{2,3}\s)|\W", "", number.upper())
