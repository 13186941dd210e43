"""What a temporary revision changes: the manual and its pages (it overrides the page it faces)."""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from indexer.reading.page import Page
from indexer.tagging.flow import Flow, PrintedLine, body_flow, one_line, plain
from indexer.tagging.page_edges import page_edges, printed_page_of
from indexer.tagging.printed_numbers import running_numbers
from indexer.tagging.tags import Claim, ClaimKind
from indexer.tagging.title_block import title_block
from indexer.tagging.type_words import type_words
from indexer.trade.chapters import find_numbers
from indexer.trade.evidence import Evidence
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import find_revision

_TOKEN = r"(?=[A-Z0-9./-]*\d)[A-Z0-9]+(?:[./-][A-Z0-9]+)*"
_AFTER_MANUAL = re.compile(
    rf"^\s*,?\s*(?:(?:P/N|Part|Publication|Document|Manual|Pub\.?|Doc\.?)?\s*(?:No\.?|Number)?\s*[:.]?\s*)(?P<number>{_TOKEN})(?![\w])"
)
_PLACE = re.compile(
    r"\b(?:fac(?:e|es|ing|ed)|opposite|adjacent to|overrides?|replac(?:e|es|ing)|supersed(?:e|es|ing)"
    r"|changes?|inserted? (?:at|before|after|in)"
    r"|next to|in front of|with|affects?|affected)\b",
    re.IGNORECASE,
)
_PAGES = re.compile(
    r"\bpages?\s+(?P<first>[A-Z]{0,4}-?\d{1,4}[A-Z]?(?:\.\d+)?)(?:\s*(?P<joint>thru|through|to|and|-|,|&)\s*(?P<last>\d{1,4}[A-Z]?))?",
    re.IGNORECASE,
)
_MANUALS = frozenset(
    {
        Type.MAINTENANCE_MANUAL, Type.SERVICE_MANUAL, Type.STRUCTURAL_REPAIR_MANUAL, Type.PARTS_CATALOG,
        Type.COMPONENT_MAINTENANCE_MANUAL, Type.ENGINE_MANUAL,
        Type.PROPELLER_MANUAL, Type.WIRING_DIAGRAM_MANUAL,
        Type.STANDARD_PRACTICES_MANUAL, Type.FLIGHT_MANUAL, Type.FLIGHT_MANUAL_SUPPLEMENT,
        Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS, Type.AIRWORTHINESS_LIMITATIONS,
    }
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class ChangedManual:
    """The manual a temporary revision belongs to; number and revision "" when not printed."""

    type: Type
    number: str
    revision: str
    evidence: Evidence


def changed_manual(pages: Sequence[Page], own_number: str) -> ChangedManual | None:
    """The manual the first page names, from the line that says most: number and revision, number, name alone.

    own_number  the temporary revision's, which may stand beside the manual's name in the head
    None when no manual is named, or when the lines give it two numbers.
    """
    in_title = _named_manuals(title_block(pages).lines, own_number)
    numbered = any(manual.number for manual in in_title)
    named = in_title if numbered else _named_manuals(_lines(pages[:1]), own_number)
    if len({manual.number for manual in named if manual.number}) > 1:
        return None
    return max(named, key=lambda manual: (bool(manual.number), bool(manual.revision)), default=None)


def _named_manuals(lines: Iterable[PrintedLine], own_number: str) -> list[ChangedManual]:
    named: list[ChangedManual] = []
    for line in lines:
        text = plain(one_line(line.text))
        for kind, end in _manuals_in(text):
            found = _AFTER_MANUAL.match(text[end:])
            if found and found["number"] == own_number:
                found = None
            revision = find_revision(text[end:]) if found else None
            evidence = line.evidence("manual changed by temporary revision")
            number, mark = found["number"] if found else "", revision.mark if revision else ""
            named.append(ChangedManual(kind, number, mark, evidence))
    return named


def changed_pages(pages: Sequence[Page], manual: ChangedManual | None) -> tuple[Claim, ...]:
    """One CHANGES_PAGE claim with every page that the text says it faces or changes, else the page its
    foot names."""
    found: dict[tuple[str, str], Evidence] = {}
    for page in pages:
        foot = running_numbers(page_edges(page))
        foot_number = str(foot[0].value) if foot else ""
        flow = body_flow([page])
        for number, printed, span in _stated(flow, foot_number):
            found.setdefault(
                (number, printed), flow.evidence(*span, "page that a temporary revision changes")
            )
        if not found and foot_number and printed_page_of(page):
            found[(foot_number, printed_page_of(page))] = foot[0].evidence
    if not found:
        return ()
    first = next(iter(found.values()))
    return (
        Claim(
            ClaimKind.CHANGES_PAGE,
            manual.number if manual else "",
            first,
            manual.type if manual else None,
            manual.revision if manual else "",
            pages=tuple(found),
        ),
    )


def _stated(flow: Flow, foot_number: str) -> Iterator[tuple[str, str, tuple[int, int]]]:
    """(number, printed page, place) of "faces 32-42-00, Page 402" and "page 402 of 32-42-00"."""
    for mention in _PAGES.finditer(flow.plain):
        before = flow.plain[max(0, mention.start() - 90) : mention.start()]
        sentence = re.split(r"\.\s+(?=[A-Z])", before)[-1]
        if not _PLACE.search(sentence) or re.search(
            r"\b(?:refer to|see|given (?:in|on))\b", sentence, re.IGNORECASE
        ):
            continue
        after = flow.plain[mention.end() : mention.end() + 40]
        numbers = find_numbers(sentence) or find_numbers(re.split(r"\.\s", after)[0])
        number = (
            str(numbers[-1].number if find_numbers(sentence) else numbers[0].number)
            if numbers
            else foot_number
        )
        start = mention.start() - len(sentence) + (len(sentence) - len(sentence.lstrip()))
        for printed in _printed_pages(mention):
            yield number, printed, (start, mention.end())


def _printed_pages(mention: re.Match) -> list[str]:
    first, last = mention["first"], mention["last"]
    if not last:
        return [first]
    if mention["joint"] == "-" and mention[0][:5].lower() != "pages":
        return [f"{first}-{last}"]  # page 5-12 of a manual with its own section order
    both = first.isdigit() and last.isdigit()
    if (
        both
        and mention["joint"].lower() in ("thru", "through", "to", "-")
        and 0 < int(last) - int(first) <= 40
    ):
        return [str(page) for page in range(int(first), int(last) + 1)]
    return [first, last]


def _manuals_in(text: str) -> list[tuple[Type, int]]:
    """Manuals a line names, with the place after the name; here another publication's name is what we look
    for."""
    named = [(words.type, words.end) for words in type_words(text) if words.type in _MANUALS]
    if named:
        return [(kind, end) for kind, end in named if kind]
    called = re.search(r"\b(?:to|of|in|for)(?: the)? (?P<rest>.*)$", text, re.IGNORECASE)
    if not called:
        return []
    place = called.start("rest")
    return [(words.type, place + words.end) for words in type_words(called["rest"]) if words.type in _MANUALS]


def _lines(pages: Sequence[Page]) -> Iterator[PrintedLine]:
    for page in pages:
        for line in (*page.body, *page.head, *page.foot):
            yield PrintedLine(page.pdf_page, line, page.origin)
