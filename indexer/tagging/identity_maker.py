"""Maker and models of a publication, as its title block or the paragraph of what is affected prints them."""

import re

from indexer.tagging.directive_reading import DirectiveReading
from indexer.tagging.flow import PrintedLine, one_line, plain
from indexer.tagging.title_block import TitleBlock
from indexer.tagging.type_words import type_words
from indexer.tagging.zone_columns import segments
from indexer.trade.evidence import Tag

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


def publication_maker(block: TitleBlock, directive: DirectiveReading | None) -> Tag[str] | None:
    """The maker whose house name stands alone on a line, or before the type's words; in a directive its
    number line's."""
    if directive:
        named = directive.maker
        return Tag(_AND_PRODUCTS.sub("", named.value), named.evidence) if named else None
    found: list[Tag[str]] = []
    for line in block.lines:
        maker = maker_in(line)
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


def maker_in(line: PrintedLine) -> str | None:
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
