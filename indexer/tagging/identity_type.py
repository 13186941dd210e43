"""Publication type from what the work prints of itself: title block, then running lines, then properties.

A document that only mentions a service bulletin or a manual is not one: only title lines count. None = cannot
tell.
"""

import re
from collections import Counter
from collections.abc import Iterator, Mapping, Sequence

from indexer.reading.page import Page, TextState
from indexer.tagging.directive_reading import DirectiveReading
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.government_papers import CIRCULAR_HEAD, government_paper
from indexer.tagging.title_block import TitleBlock
from indexer.tagging.type_words import TypeWords, type_words
from indexer.tagging.zone_columns import segments
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType as Type

_LEADERS = re.compile(r"\.{4,}|(?:\. ){4,}|_{6,}")
_PRODUCT_WORDS = tuple(
    (kind, re.compile(words, re.IGNORECASE))
    for kind, words in (
        (Type.PROPELLER_MANUAL, r"\bpropellers?\b"),
        (
            Type.MAINTENANCE_MANUAL,
            r"\b(?:aircraft|airplanes?|aeroplanes?|helicopters?|rotorcraft|gliders?)\b",
        ),
        (Type.ENGINE_MANUAL, r"(?<!twin[ -])(?<!single[ -])(?<!multi[ -])\bengines?\b"),
        (Type.COMPONENT_MAINTENANCE_MANUAL, r"\bcomponents?\b|\bwith illustrated parts\b|\bvendor code\b"),
    )
)
_DIRECTIVES = (Type.AIRWORTHINESS_DIRECTIVE, Type.PROPOSED_DIRECTIVE)
_SHARE_OF_PAGES = 0.6


def publication_type(
    pages: Sequence[Page],
    block: TitleBlock,
    properties: Mapping[str, str],
    directive: DirectiveReading | None,
) -> Tag[Type] | None:
    """The type with its evidence; `others` holds every other type that is printed in a type's place."""
    readings: list[Tag[Type]] = []
    register, titled = list(_register(directive)), list(_title_words(block))
    if titled and titled[0].value not in _DIRECTIVES:
        register = []  # a letter or manual that reprints a directive is not one
    for reading in (
        *register,
        *government_paper(block, pages),
        *titled,
        *_running_lines(pages),
        *_properties(properties),
    ):
        if all(reading.value is not other.value for other in readings):
            readings.append(reading)
    if not readings:
        return None
    return Tag(readings[0].value, readings[0].evidence, tuple(readings[1:]))


def _register(directive: DirectiveReading | None) -> Iterator[Tag[Type]]:
    """A rule or proposal printed in the Federal Register, or a directive in the lettered form by itself."""
    if directive is None:
        return
    if directive.proposal:
        yield Tag(Type.PROPOSED_DIRECTIVE, directive.proposal)
    elif directive.adopted:
        yield Tag(Type.AIRWORTHINESS_DIRECTIVE, directive.adopted)
    elif directive.action and directive.action.value.startswith("Final rule"):
        yield Tag(Type.AIRWORTHINESS_DIRECTIVE, directive.action.evidence)


def _title_words(block: TitleBlock) -> Iterator[Tag[Type]]:
    """Types named in the title block: papers about another publication first, then the largest print, then
    order."""
    found: list[tuple[float, int, Tag[Type]]] = []
    for place, (line, _, words) in enumerate(named_in_lines(block.lines)):
        kind = words.type or _product_manual(block)
        if kind is Type.MAINTENANCE_MANUAL and words.type:
            kind = _product_manual(block, only=(Type.ENGINE_MANUAL, Type.PROPELLER_MANUAL)) or kind
        if kind is not None:
            size = min(round(block.prominence(line) * 4) / 4, 3.0)
            found.append(
                (words.rank - min(size, 9.0) / 10, place, Tag(kind, line.evidence("type in title block")))
            )
    yield from (tag for _, _, tag in sorted(found, key=lambda each: each[:2]))


def named_in_lines(lines: Sequence[PrintedLine]) -> Iterator[tuple[PrintedLine, str, TypeWords]]:
    """Each type that title lines name, with the line and the words of it (of it and the next, where it
    takes two)."""
    lines = [part for line in lines for part in _parts(line)]
    for place, line in enumerate(lines):
        text = plain(one_line(line.text))
        if re.fullmatch(r"(?:table of )?contents|index|list of .{3,40}", text, re.IGNORECASE):
            return
        if _LEADERS.search(text):
            continue
        for words in type_words(text):
            yield line, text, words
        if place + 1 < len(lines):
            both, named = _over_two_lines(text, plain(one_line(lines[place + 1].text)))
            for words in named:
                yield line, both, words


def _parts(line: PrintedLine) -> list[PrintedLine]:
    """A line cut at its wide gaps: a house name at the left and the type at the right are two titles."""
    return [PrintedLine(line.pdf_page, segment.as_line(), line.origin) for segment in segments(line.line)]


def _over_two_lines(text: str, following: str) -> tuple[str, list[TypeWords]]:
    """ "MAINTENANCE" above "MANUAL": words that only the two lines together give."""
    joined = f"{text} {following}"
    if len(text.split()) > 6 or len(following.split()) > 6:
        return joined, []
    if type_words(following):
        return joined, []  # the lower line names the type by itself
    return joined, [words for words in type_words(joined) if words.start < len(text) < words.end]


def _product_manual(block: TitleBlock, only: tuple[Type, ...] = ()) -> Type | None:
    """Which product a "maintenance manual" or "overhaul manual" is for, where the title block says one and
    one only."""
    text = " ".join(plain(one_line(line.text)) for line in block.lines if len(line.text.split()) <= 12)
    named = [kind for kind, words in _PRODUCT_WORDS if words.search(text)]
    if only:
        return named[0] if len(named) == 1 and named[0] in only else None
    return named[0] if len(named) == 1 and named[0] is not Type.MAINTENANCE_MANUAL else None


def _running_lines(pages: Sequence[Page]) -> Iterator[Tag[Type]]:
    """A type that stands in the head or foot of most pages."""
    with_text = [page for page in pages if page.state is TextState.TEXT]
    if len(with_text) < 2:
        return
    count: Counter[Type] = Counter()
    first: dict[Type, Evidence] = {}
    for page in with_text:
        on_page = set()
        for line in (*page.head, *page.foot):
            printed = PrintedLine(page.pdf_page, line, page.origin)
            kinds = {words.type for words in type_words(plain(one_line(line.text))) if words.type}
            if any(CIRCULAR_HEAD.fullmatch(one_line(segment.text)) for segment in segments(line)):
                kinds.add(Type.ADVISORY_CIRCULAR)
            on_page |= kinds
            for kind in kinds:
                first.setdefault(kind, printed.evidence("type in running head or foot"))
        count.update(on_page)
    for kind, times in count.most_common():
        if times >= _SHARE_OF_PAGES * len(with_text):
            yield Tag(kind, first[kind])


def _properties(properties: Mapping[str, str]) -> Iterator[Tag[Type]]:
    for name in ("Title", "Subject"):
        text = re.sub(r"^Microsoft \w+ - |\.(?:docx?|pdf|indd)$", "", plain(properties.get(name, "")).strip())
        named = [words.type for words in type_words(text) if words.type]
        if CIRCULAR_HEAD.match(text):
            named.append(Type.ADVISORY_CIRCULAR)
        for kind in named:
            rule = f"type in document property {name}"
            yield Tag(kind, Evidence(Basis.DOCUMENT_PROPERTIES, rule, properties[name]))
