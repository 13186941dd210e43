"""The words by which a publication prints its own type, and what beside them shows that it is another's
name."""

import re
from dataclasses import dataclass
from functools import lru_cache

from indexer.trade.publication_types import PublicationType as Type


@dataclass(frozen=True, slots=True)
class TypeWords:
    """text[start:end] of a title line names this type. `rank`: lower wins on one title page (see _WORDS)."""

    type: Type | None
    rank: int
    start: int
    end: int


# Rank 1 names a paper about another publication (a temporary revision names its manual, a supplement its
# flight
# manual); rank 2 a publication; rank 3 words that also stand on other publications' title pages.
_WORDS: tuple[tuple[int, Type | None, str], ...] = (
    (1, Type.TEMPORARY_REVISION, r"temporary revisions?"),
    (1, Type.FLIGHT_MANUAL_SUPPLEMENT, r"(?:(?:airplane|aircraft|rotorcraft|helicopter"
        r"|pilot'?s)\s+)?flight manual supplement"
        r"|supplement(?:al)? (?:to the )?(?:airplane|aircraft|rotorcraft)? ?flight manual"
        r"|supplemental (?:airplane |rotorcraft )?flight manual"),
    (1, Type.PROPOSED_DIRECTIVE, r"(?:supplemental )?notice of proposed rulemaking"
        r"|proposed airworthiness directive"),
    (1, Type.AIRWORTHINESS_BULLETIN, r"special airworthiness information bulletin"),
    (2, Type.AIRWORTHINESS_DIRECTIVE, r"(?:emergency )?airworthiness directive"),
    (2, Type.SERVICE_BULLETIN, r"(?:(?:mandatory|alert|critical|special attention|recommended|customer"
        r"|vendor|optional|engine)\s+)*"
        r"service bulletin"),
    (2, Type.SERVICE_LETTER, r"(?:mandatory )?service (?:information )?letter"
        r"|(?:mandatory )?service instruction"),
    (2, Type.STRUCTURAL_REPAIR_MANUAL, r"structural repair manual"),
    (2, Type.PARTS_CATALOG, r"(?:illustrated )?parts (?:catalog(?:ue)?|breakdown|manual|book)"
        r"|illustrated parts list"
        r"|(?:airplane |aircraft |helicopter |engine )?parts list"),
    (2, Type.COMPONENT_MAINTENANCE_MANUAL, r"component (?:maintenance|overhaul|repair) manual"),
    (2, Type.PROPELLER_MANUAL, r"propeller (?:overhaul|maintenance|owner'?s|operation and maintenance"
        r"|service) manual"
        r"|propeller overhaul and maintenance manual"),
    (2, Type.ENGINE_MANUAL, r"engine (?:overhaul|maintenance|shop|service)? ?manual"
        r"|engine (?:maintenance and overhaul|overhaul and maintenance)"
        r" manual|engine operator'?s (?:and maintenance )?manual"),
    (2, Type.WIRING_DIAGRAM_MANUAL, r"(?:electrical )?wiring (?:diagrams? )?manual"
        r"|electrical wiring diagrams?"),
    (2, Type.STANDARD_PRACTICES_MANUAL, r"standard practices? manual"),
    (2, None, r"overhaul manual"),
    (2, Type.MAINTENANCE_MANUAL, r"(?:aircraft |airplane |aeroplane |rotorcraft |helicopter "
        r"|airframe )?maintenance manual"),
    (2, Type.SERVICE_MANUAL, r"(?:airplane |aircraft |helicopter )?(?:service|shop) manual"
        r"|service and repair manual"
        r"|repair and service manual|maintenance and repair manual"),
    (2, Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS, r"instructions for continued airworthiness"),
    (2, Type.FLIGHT_MANUAL, r"(?:airplane|aircraft|rotorcraft|helicopter|approved) flight manual"
        r"|pilot'?s operating handbook"
        r"(?: and (?:faa approved )?airplane flight manual)?|\bflight manual"),
    (2, Type.MINIMUM_EQUIPMENT_LIST, r"(?:master )?minimum equipment list"),
    (2, Type.TYPE_CERTIFICATE_DATA_SHEET, r"type certificate data sheet|aircraft specification (?:no"
        r"|number)"),
    (2, Type.ADVISORY_CIRCULAR, r"advisory circular"),
    (2, Type.REPAIR_ALTERATION_RECORD, r"major repair and alteration(?= ?\(airframe)|(?:faa )?form 337\b"),
    (2, Type.ENGINEERING_APPROVAL, r"statement of compliance with (?:the )?(?:federal aviation regulations"
        r"|airworthiness standards)"
        r"|(?:faa )?form 81(?:10-3|00-9)\b"),
    (2, Type.RELEASE_CERTIFICATE, r"authorized release certificate|airworthiness approval tag"),
    (2, Type.PARTS_APPROVAL, r"parts manufacturer approval"
        r"|(?:letter of )?technical standard order (?:design )?(?:approval|authorization)"
        r"|FAA-?PMA supplement"),
    (2, Type.ACCIDENT_REPORT, r"aviation (?:accident|incident|investigation)(?: (?:final|preliminary"
        r"|factual|summary))? report"
        r"|(?:aircraft|aviation|accident|incident) (?:accident|incident"
        r"|investigation)(?:/incident)? (?:brief|report)"
        r"|(?:accident|incident) investigation (?:final |preliminary |factual )?report"
        r"|factual report aviation"),
    (2, Type.CODE_TABLE, r"(?:system/?component|jasc) code table|code table and definitions"),
    (2, Type.PROCESS_SPECIFICATION, r"(?:process|material) specification"),
    (2, Type.ORDER_OR_HANDBOOK, r"(?:online )?job aid|(?:technician|mechanic|inspector)'?s?'? handbook"
        r"|\bFAA-H-\d{4}-\d+[A-Z]?"),
    (3, Type.ORDER_OR_HANDBOOK, r"(?<!owner's )(?<!owners )(?<!owners' )(?<!operator's )(?<!operators )"
        r"(?<!operating )(?<!flight )(?<!pilot's )(?<!pilots )(?<!crew )(?<!information )handbook"),
    (3, Type.AIRWORTHINESS_LIMITATIONS, r"airworthiness limitations?(?: (?:section|document|manual"
        r"|instructions|items))?"),
    (3, Type.SUPPLEMENTAL_TYPE_CERTIFICATE, r"supplemental type certificate"),
)  # fmt: skip
_COMPILED = tuple(
    (rank, kind, re.compile(rf"(?<![\w-])(?:{words})(?![\w-])", re.IGNORECASE))
    for rank, kind, words in _WORDS
)

# Every wording above holds one of these: most lines of a page can be passed over at once.
_ANY = re.compile(
    r"manual|catalog|parts|bulletin|letter|instruction|directive|revision|supplement|circular|certificate"
    r"|report|handbook|specification|approval|authorization|limitation|wiring|code table|job aid|form|FAA-H"
    r"|table and definitions|rulemaking|brief|alteration|equipment list|order|airworthiness|compliance"
    r"|data sheet",
    re.IGNORECASE,
)
_OTHERS_BEFORE = re.compile(
    r"\b(?:to|in|see|refer|per|from|with|by|of|or|on|reference|references|ref|applicable|related|publications?"
    r"|supersedes?|replaces?|cancels?|cancell?ed|incorporates?|incorporating|using|latest|current|appropriate|affected"
    r"|accordance|comply|compliance|this|that|no|not|your|our|any|each|all|following|above|about|distribution"
    r"|subscription|documents?|basic|original|approved by|pending|future|previous|use|contact|if"
    r"|an?)\b[^A-Za-z]*(?:the\s+)?$",
    re.IGNORECASE,
)
_OTHERS_AFTER = re.compile(
    r"^[^A-Za-z0-9]*\b(?:lists?|index|record|status|summary|log|incorporation|highlights|references?|subscription|template"
    r"|changes?|required|requirements?|affected|compliance|is|are|was|were|has|have|must|shall|may|will"
    r"|should|can|to be"
    r"|or|page|chapter|section|procedures?|notices?|holders?|effectivity|cross|pages|reader|sample|update|when|if|that"
    r"|dated|transmittal|distribution|kit|program|system|department|in accordance|per|from|which"
    r"|describes?|contains?)\b"
    r"|^\s*[,;]\s*[a-z]",
    re.IGNORECASE,
)
_LABEL_BEFORE = re.compile(r"[A-Za-z]\s*:\s*\S*\s*$")


def type_words(line: str) -> tuple[TypeWords, ...]:
    """The types a title line names as its own. `line` has plain dashes and quotes.

    A line that names another publication ("refer to the maintenance manual", "Service bulletin list",
    "Reference: service bulletin ...") gives none.
    """
    return _type_words(line)


@lru_cache(maxsize=4096)  # running heads repeat on every page
def _type_words(line: str) -> tuple[TypeWords, ...]:
    found: list[TypeWords] = []
    for rank, kind, words in _COMPILED if _ANY.search(line) else ():
        for match in words.finditer(line):
            if any(match.start() < other.end and other.start < match.end() for other in found):
                continue
            if _names_another(line, match.start(), match.end(), found):
                continue
            found.append(TypeWords(kind, rank, match.start(), match.end()))
    return tuple(sorted(found, key=lambda each: each.start))


def _names_another(line: str, start: int, end: int, taken: list[TypeWords]) -> bool:
    before, after = line[:start], line[end:]
    if _LABEL_BEFORE.search(before) and not re.match(
        r"\s*(?:document |publication )?(?:type|title)\s*:", before, re.IGNORECASE
    ):
        return True
    if _OTHERS_BEFORE.search(before) or _OTHERS_AFTER.match(after):
        return True
    if line[start].islower() and line[start:end].islower():
        return True
    loose = [word for word in re.findall(r"[A-Za-z]+", before) if word.islower() and word not in _TITLE_SMALL]
    return len(loose) > 0 and not any(other.end <= start for other in taken)


_TITLE_SMALL = {"and", "the", "for", "of", "de", "www", "http", "https"}
