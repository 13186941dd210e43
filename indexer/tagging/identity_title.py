"""Title of a publication, as its title block prints it."""

import re
from collections.abc import Mapping, Sequence

from indexer.tagging.directive_reading import DirectiveReading
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.identity_maker import maker_in
from indexer.tagging.identity_type import named_in_lines
from indexer.tagging.title_block import TitleBlock, running_text
from indexer.tagging.type_words import type_words
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType as Type

_SUBJECT = re.compile(r"^\W{0,2}(?:subject|subj|title|re)\b\W{1,3}(?P<title>\S.*)?$", re.IGNORECASE)
_NEXT_LABEL = re.compile(
    r"(?:^|\s+)(?:Date|Dated|AC No|AC NO|Initiated [Bb]y|Change|Revision|Rev|Page|Number|No|Issued?"
    r"|Effectivity|Models?|Reason|Compliance"
    r"|Approval|Ref(?:erence)?|ATA|Serial|To|From|Purpose|Applicability|Description|Manufacturer)s?\b\.?\s*[:*].*$"
)
_LABEL = re.compile(r"^[A-Z][A-Za-z/() .&-]{1,40}\s*:")
_NUMBERED = re.compile(r"^\(?[\dA-Z]{1,2}[.)]\s+[A-Z]|^\d+(?:\.\d+)*\s+[A-Z]")
_SUBJECT_TYPES = (
    Type.ADVISORY_CIRCULAR, Type.SERVICE_BULLETIN,
    Type.SERVICE_LETTER, Type.ORDER_OR_HANDBOOK, Type.AMOC_LETTER,
    Type.AIRWORTHINESS_BULLETIN, Type.TEMPORARY_REVISION,
)  # fmt: skip
_NAMED_BY_SUBJECT = (Type.SERVICE_BULLETIN, Type.SERVICE_LETTER, Type.FLIGHT_MANUAL_SUPPLEMENT)
_REGISTER_TITLE = re.compile(
    r"Airworthiness Directives?;\s*(?P<title>[A-Z][^:]{3,400}?)\s*(?=AGENCY:|ACTION:|SUMMARY:)"
)

_NOT_A_SUBJECT = re.compile(
    r"\b(?:ATA|JASC)\b|(?i:\brevision\b|\bissue\b|\bserial\b|\bnumber\b|\bpage\b|\bNo\.|^(?:mandatory|alert|recommended)$)"
)


def publication_title(
    kind: Type | None, block: TitleBlock, properties: Mapping[str, str], directive: DirectiveReading | None
) -> Tag[str] | None:
    """The title as printed; the title in the file's properties stands beside it where it says something
    else."""
    printed = _register_title(directive) if directive else None
    if printed is None and kind in _SUBJECT_TYPES:
        printed = _subject(block.lines)
    if kind in _NAMED_BY_SUBJECT:
        printed = _larger(_subject_set_large(block), printed, block)
    if printed is None and kind is not None:
        printed = _type_line(kind, block)
    if printed is None:
        printed = _largest_line(block)
    stored = _stored_title(properties)
    if printed is None:
        return stored
    if (
        stored
        and _folded(stored.value) not in _folded(printed.value)
        and _folded(printed.value) not in _folded(stored.value)
    ):
        return Tag(printed.value, printed.evidence, (stored,))
    return printed


def _register_title(directive: DirectiveReading) -> Tag[str] | None:
    """ "Airworthiness Directives; Airbus Airplanes", to where the next label of the register's form
    begins."""
    flow = directive.flow
    found = _REGISTER_TITLE.search(flow.plain, directive.start, min(directive.start + 700, directive.end))
    if not found:
        return None
    evidence = flow.evidence(found.start(), found.end("title"), "register title")
    return Tag(one_line(flow.plain[found.start() : found.end("title")]), evidence)


def _subject(lines: Sequence[PrintedLine]) -> Tag[str] | None:
    for place, line in enumerate(lines):
        found = _SUBJECT.match(plain(one_line(line.text)))
        if not found:
            continue
        parts = [_NEXT_LABEL.sub("", found["title"] or "").strip()]
        for following in lines[place + 1 : place + 5]:
            text = plain(one_line(following.text))
            rest = _NEXT_LABEL.sub("", text).strip()
            if not rest and text:
                continue
            if _LABEL.match(rest) or _NUMBERED.match(rest) or running_text(rest) or len(rest.split()) > 10:
                break
            if following.font_size > 1.15 * line.font_size or parts[0].endswith("."):
                break
            if rest.endswith(".") and len(rest.split()) >= 4:
                break  # a sentence: the text has begun
            parts.append(rest)
        title = one_line(" ".join(part for part in parts if part))
        if title:
            return Tag(title, line.evidence("subject line in title block"))
    return None


def _larger(large: Tag[str] | None, labelled: Tag[str] | None, block: TitleBlock) -> Tag[str] | None:
    """The title set large where it is larger than the line labelled "Subject"; the other stays beside it."""
    if large is None or labelled is None:
        return large or labelled
    size = {line.line.box: line.font_size for line in block.lines}
    if size.get(large.evidence.box, 0.0) > size.get(labelled.evidence.box, 0.0):
        return Tag(large.value, large.evidence, (labelled,))
    return labelled


def _subject_set_large(block: TitleBlock) -> Tag[str] | None:
    """The largest of the lines that are no type, label, number, date or house name: a subject without its
    label."""
    places = [place for place, line in enumerate(block.lines) if _may_be_subject(block, line)]
    if not places:
        return None
    first = max(places, key=lambda place: (block.lines[place].font_size, -place))
    best = block.lines[first]
    words = [plain(one_line(best.text))]
    for place in range(first + 1, min(first + 3, len(block.lines))):
        following = block.lines[place]
        if following.font_size != best.font_size or not _goes_on(block, best, following):
            break
        words.append(plain(one_line(following.text)))
    return Tag(" ".join(words), best.evidence("subject set large in title block"))


def _may_be_subject(block: TitleBlock, line: PrintedLine) -> bool:
    text = plain(one_line(line.text))
    if (
        type_words(text)
        or _LABEL.match(text)
        or _NUMBERED.match(text)
        or running_text(text)
        or maker_in(line)
    ):
        return False
    if _NOT_A_SUBJECT.search(text) or find_dates(text) or len(re.findall(r"[A-Za-z]{2,}", text)) < 2:
        return False
    return bool(line.line.heading_level) or _set_out(block, line)


def _goes_on(block: TitleBlock, first: PrintedLine, line: PrintedLine) -> bool:
    """Whether a line goes on with the title above it: set alike, no label or number of its own."""
    text = plain(one_line(line.text))
    if (
        type_words(text)
        or _LABEL.match(text)
        or _NUMBERED.match(text)
        or _NOT_A_SUBJECT.search(text)
        or maker_in(line)
    ):
        return False
    alike = first.text.isupper() == line.text.isupper()
    return alike and (bool(line.line.heading_level) or _set_out(block, line))


def _set_out(block: TitleBlock, line: PrintedLine) -> bool:
    bold = all(word.bold for word in line.line.words)
    return block.prominence(line) >= 1.1 or bold or line.text.isupper()


def _type_line(kind: Type, block: TitleBlock) -> Tag[str] | None:
    """The line that names the type, the largest where several do."""
    lines = [(line, text) for line, text, words in named_in_lines(block.lines) if words.type is kind]
    if not lines:
        return None
    line, text = max(lines, key=lambda each: each[0].font_size)
    return Tag(text, line.evidence("type line in title block"))


def _largest_line(block: TitleBlock) -> Tag[str] | None:
    lines = [line for line in block.lines if block.prominence(line) >= 1.3 and len(line.text) >= 4]
    if not lines:
        return None
    size = max(line.font_size for line in lines)
    first = next(place for place, line in enumerate(lines) if line.font_size == size)
    largest = [lines[first]]
    for line in lines[first + 1 : first + 4]:
        if line.font_size < 0.95 * size:
            break
        largest.append(line)
    title = plain(one_line(" ".join(line.text for line in largest)))
    return (
        Tag(title, largest[0].evidence("largest line of title block", title))
        if 4 <= len(title) <= 200
        else None
    )


def _stored_title(properties: Mapping[str, str]) -> Tag[str] | None:
    title = re.sub(r"^Microsoft \w+ - ", "", one_line(properties.get("Title", "")))
    if len(title) < 5 or re.search(
        r"\.(?:docx?|pdf|indd|fm|qxd|tif|rtf)$|^untitled|^(?:document|layout) ?\d*$", title, re.IGNORECASE
    ):
        return None
    return Tag(title, Evidence(Basis.DOCUMENT_PROPERTIES, "title in document properties", title))


def _folded(text: str) -> str:
    return re.sub(r"\W+", " ", text).strip().casefold()
