"""Title, maker and models, as the title block prints them."""

import re
from collections.abc import Mapping, Sequence

from indexer.tagging.directives import DirectiveReading
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.identity_type import named_in_lines
from indexer.tagging.title_block import TitleBlock, running_text
from indexer.tagging.type_words import type_words
from indexer.tagging.zone_columns import segments
from indexer.trade.dates import find_dates
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType as Type

_SUBJECT = re.compile(r"^\W{0,2}(?:subject|title|re)\b\W{1,3}(?P<title>\S.*)?$", re.IGNORECASE)
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
_TRADE = (
    r"(?i:Aircraft|Aviation|Aerospace|Airplanes?|Aeroplanes?|Helicopters?|Engines?|Propellers?|Aero|Avionics|Instruments?"
    r"|Aeronautics|Aerostructures|Airframes?|Aeromotive|Motors|Flight)"
)
_HOUSE = (
    r"(?i:Company|Co\.|Corporation|Corp\.?|Inc\.?|Incorporated|Ltd\.?|Limited|LLC|L\.L\.C\.|GmbH|S\.A\.S?\.?|S\.p\.A\.|AG|Works"
    r"|Industries|Group|Partnership)"
)
_MAKER = re.compile(
    rf"^(?P<maker>(?:[A-Z&][\w&'.-]*,?\s+){{1,5}}?(?:{_TRADE}\s*,?\s*)?(?:(?:{_HOUSE}|{_TRADE})\.?\s*,?\s*)+)$"
)
_MAKER_LABEL = re.compile(
    r"^(?i:manufacturer|maker|type certificate holder|design approval holder)\s*:\s*(?P<maker>[A-Z].{2,60})$"
)
_AND_PRODUCTS = re.compile(
    r"\s+(?:Airplanes|Aircraft|Helicopters|Rotorcraft|Gliders|(?:\w+ )?Engines|Propellers)$"
)
_NO_MAKER = re.compile(
    r"federal|department|administration|advisory|model|manual|bulletin|number|serial|national|safety|board|page|twin|single"
    r"|section|chapter|this|certificated|affected|general aviation|all\b",
    re.IGNORECASE,
)
_MODELS = re.compile(
    r"\bMODELS?\b(?:\s+(?:No\.?|Numbers?|affected|series|designations?))?\s*:?\s*(?P<list>\S.*)",
    re.IGNORECASE,
)
_SERIALS = re.compile(r"(?:serial (?:numbers?|nos?\.?)|S/Ns?)\b", re.IGNORECASE)
_BEFORE_SERIALS = re.compile(
    r"(?:^|[.;:)]\s*|\d\)\s*)(?P<models>[A-Z][A-Za-z0-9-]*(?:(?:,? and |, "
    r"| )[A-Za-z0-9-]+){0,7}?),?\s+(?i:serial (?:numbers?|nos?\.?)|S/Ns?)\b"
)
_OF_PRODUCTS = re.compile(
    r"(?:\(?\w[.)]\s+)*(?:All|Certain"
    r"|To: [a-z ]{3,40} of(?: the)?)\s+(?P<models>(?=[A-Z-]*\d)[A-Z0-9-]+(?:(?:,| and"
    r"|, and) (?=[A-Z-]*\d)[A-Z0-9-]+)*)\s+"
    r"(?:series\s+)?(?:airplanes?|aircraft|helicopters?|engines?|propellers?)\b"
)
_MODEL_TOKEN = re.compile(r"\(?-?(?=[A-Za-z0-9./-]*\d)[A-Z0-9][A-Za-z0-9./-]*\)?")


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


def publication_maker(block: TitleBlock, directive: DirectiveReading | None) -> Tag[str] | None:
    """The maker whose house name stands alone on a line, or before the type's words; in a directive its
    number line's."""
    if directive:
        named = directive.maker
        return Tag(_AND_PRODUCTS.sub("", named.value), named.evidence) if named else None
    found: list[Tag[str]] = []
    for line in block.lines:
        maker = _maker_in(line)
        if maker and all(_folded(maker) != _folded(other.value) for other in found):
            found.append(Tag(maker, line.evidence("maker in title block")))
    return Tag(found[0].value, found[0].evidence, tuple(found[1:])) if found else None


def publication_models(
    block: TitleBlock, directive: DirectiveReading | None, affected: Tag[str] | None
) -> tuple[Tag[str], ...]:
    """Models after the word "Model", or before "serial numbers", in title block or effectivity paragraph.

    affected  a bulletin's effectivity paragraph; a directive's applicability paragraph is read from the
    directive
    """
    found: dict[str, Tag[str]] = {}
    paragraph = directive.facts.applicability if directive else affected
    if paragraph:
        text = plain(paragraph.value)
        for mention in re.finditer(r"\bModels?\s+", text):
            for model in models_in(text[mention.start() :]):
                found.setdefault(model, Tag(model, paragraph.evidence))
        for model in (*models_before_serials(text), *_models_of_products(text)):
            found.setdefault(model, Tag(model, paragraph.evidence))
    if directive:
        return tuple(found.values())
    for place, line in enumerate(block.lines):
        text = plain(one_line(line.text))
        below = plain(one_line(block.lines[place + 1].text)) if place + 1 < len(block.lines) else ""
        serials = (
            models_before_serials(f"{text}, {below}")
            if _SERIALS.match(below)
            else models_before_serials(text)
        )
        for model in (*models_in(text), *serials, *_models_of_products(text)):
            found.setdefault(model, Tag(model, line.evidence("models in title block")))
    return tuple(found.values())


def _models_of_products(text: str) -> list[str]:
    """Models in "All QZ62 and QZ62S airplanes" at the start of the paragraph of what is affected."""
    found = _OF_PRODUCTS.match(text)
    return (
        [token for token in re.findall(r"[A-Z0-9][A-Z0-9-]*", found["models"]) if re.search(r"\d", token)]
        if found
        else []
    )


def models_before_serials(text: str) -> list[str]:
    """Models that stand before their serial numbers: "QZ62 airplanes, serial numbers QZ-001 and on"."""
    models: list[str] = []
    for found in _BEFORE_SERIALS.finditer(text):
        for token in re.findall(r"(?<![\w-])[A-Z0-9][A-Z0-9-]*(?![\w-])", found["models"]):
            if re.search(r"\d", token) and re.search(r"[A-Z]", token) and token not in models:
                models.append(token)
    return models


def models_in(text: str) -> list[str]:
    """Model designations after "Model" or "Models": "A330-301, -321 and -322" gives three, the base
    repeated."""
    match = _MODELS.search(text)
    if not match:
        return []
    models: list[str] = []
    skipped = 0
    for token in re.findall(r"[^\s,;&]+", re.sub(r"(?<=\w)/(?=[A-Z])", " ", match["list"])):
        bare = token.strip(".:()")
        if bare.lower() in ("and", "or", "series", "model", "models"):
            continue
        if _MODEL_TOKEN.fullmatch(token.strip(".:")):
            base = models[-1].rsplit("-", 1)[0] if bare.startswith("-") and models else ""
            models.append((base + bare).lstrip("-"))
        elif not models and bare[:1].isupper() and skipped < 2:
            skipped += 1  # a name before the designation: "Model Tern T-4"
        else:
            break
    return models


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
        or _maker_in(line)
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
        or _maker_in(line)
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


def _maker_in(line: PrintedLine) -> str | None:
    """The house name on a line: after its label, alone, or parted from the rest by wide white space."""
    labelled = _MAKER_LABEL.match(plain(one_line(line.text)))
    if labelled:
        return labelled["maker"].strip()
    for segment in segments(line.line):
        text = one_line(segment.text)
        named = type_words(text)
        if named:
            text = text[: named[0].start].strip(" -,:|")
        if not 1 < len(text.split()) <= 7 or _NO_MAKER.search(text) or re.search(r"\d", text):
            continue
        found = _MAKER.match(text)
        if found:
            return found["maker"].strip()
    return None


def _folded(text: str) -> str:
    return re.sub(r"\W+", " ", text).strip().casefold()
