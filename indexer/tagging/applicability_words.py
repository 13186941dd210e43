"""The wording of printed applicabilities, as patterns; each is matched where the reader stands."""

import re

from indexer.tagging.applicability_clauses import Article, ConditionKind
from indexer.trade.serial_lists import LABEL


def _words(*alternatives: str) -> re.Pattern:
    return re.compile(rf"(?:{'|'.join(alternatives)})", re.IGNORECASE)


_PLACES = r"paragraphs?\s+(?:\([a-z0-9]+\))+(?:\s*(?:through|and|or|,)+\s*(?:\([a-z0-9]+\))+)*"

# Set phrases that neither widen nor narrow; room is left for how often they are printed with capitals.
IDLE = _words(
    r"(?:this|the|proposed)\s+(?:ad|directive|bulletin|service\s+bulletin|letter|manual)\s+(?:applies\s+to|is\s+for|affects)\b",
    r"applicability(?=\s+this\s+(?:ad|directive)\b)", r"applies\s+to\b", r"applicable\s+to\b", r"affects\b",
    r"(?:applicability|effectivity|affected)\s*:",
    r"(?:models?|airplanes?|aircraft|helicopters?|engines?|propellers?|products?|units?)(?:\s+and\s+serial\s+(?:numbers?|nos\.?))?"
    r"\s+affected\b\s*:?",
    r"(?:type\s+)?certificated\s+in\s+(?:any|all)\s+categor(?:y|ies)\b",
    r"as\s+follows\b", r"both\s+inclusive\b", r"inclusive\b",
    rf"(?:specified|identified|listed)\s+in\s+{_PLACES}\s+of\s+this\s+(?:proposed\s+)?ad\b",
    r"(?:listed|identified|specified|shown)\s+below\b",
    r"fictitious\s+sample\b",
)  # fmt: skip
ITEMS_PROMISED = re.compile(
    r"\bin\s+paragraphs?\s+\([a-z]\)\((\d+)\)\s*(?:through|and)\s*\([a-z]\)\((\d+)\)\s+of\s+this",
    re.IGNORECASE,
)
SMALL = _words(r"(?:and|or|the|of|any|each|both|all\s+of|following|its?)\b", r"&")
ALL = _words(r"all\b(?:\s+(?:models?\s+of)\b)?")
CERTAIN = _words(r"(?:certain|various|some|selected)\b(?:\s+serial[-\s]+(?:numbered|numbers?))?")
MODEL = _words(r"(?:type/)?models?\b(?:\s*/\s*types?\b)?(?:\s+nos?\.)?\s*:?")
SERIES = _words(r"series\b")
LABELLED = _words(LABEL + r"(?:\s+affected)?\s*:?")
# "Airplanes with serial numbers 1 to 9": the serials are the airplanes' own.
WITH_SERIALS = _words(rf"(?:with|having|bearing)\s+(?!engine|unit)(?={LABEL})")
OF_ARTICLE = _words(r"(?:engine|unit)\s+")
ALL_SERIALS = _words(
    rf"\(?\s*(?:all|any)\s+{LABEL}\s*\)?", rf"{LABEL}\s*:?\s*all\b(?:\s+(?:airplanes|aircraft|serials))?"
)
TABLE_HEAD = _words(rf"models?(?:\s+affected)?\s*[:/]?\s+(?:and\s+)?{LABEL}(?:\s+affected)?\s*:?")
LINE_NUMBERS = _words(
    r"(?:line|fuselage|ship|fleet|variable|customer|effectivity|unit|production|airline|tab)\s+(?:numbers?|nos?\.?|codes?)\b",
    r"l/ns?\b",
)
EFFECTIVITY = _words(r"effectiv(?:ity|e\s+on|ities)\s*:?")
EXCEPT = _words(
    r"\(?\s*(?:except(?:ing)?(?:\s+for)?|excluding|other\s+than|but\s+not(?:\s+including)?|but\s+excluding"
    r"|not\s+including|with\s+the\s+exception\s+of)\b"
)
NOT_LIMITED = re.compile(
    r"(?:including\s*,?\s+)?but\s*(?:are\s+|is\s+)?not\s+(?:necessarily\s+)?limited\s+to\b", re.IGNORECASE
)
NOT_COMPLETE = _words(
    NOT_LIMITED.pattern, r"including\b", r"such\s+as\b",
    r"e\.g\.", r"for\s+example\b", r"etc\b\.?", r"and\s+(?:others|similar)\b", r"and\s+any\s+other\b",
    r"or\s+similar\b",
)  # fmt: skip
INSTALLED_ON = _words(
    r"(?:as\s+)?(?:which\s+(?:are|may\s+be)\s+|that\s+(?:are|may\s+be)\s+)?(?:installed|used|fitted|found)\s+(?:on|in)\b"
)
SPARES = re.compile(r"\bspares?\b", re.IGNORECASE)
NO_ADDITION = re.compile(
    r"\b(?:not|except\w*|unless|exclud\w+|only|other\s+than|model|serial|s/n)\b", re.IGNORECASE
)

ARTICLES: tuple[tuple[Article, re.Pattern], ...] = (
    (Article.AIRCRAFT, _words(
        r"(?:series[-\s]+)?(?:airplanes?|aeroplanes?|aircraft|helicopters?|rotorcraft|gyroplanes?|gliders?|sailplanes?|powered\s+sailplanes?"
        r"|balloons?|airships?|seaplanes?|amphibians?)\b")),
    (Article.ENGINE, _words(
        r"(?:(?:series|model|reciprocating|piston|turbofan|turbojet|turboprop|turboshaft|turbine|gas|aircraft)[-\s]+)*engines?\b")),
    (Article.PROPELLER, _words(
        r"(?:(?:series|model|variable\s+pitch|constant\s+speed|fixed[-\s]+pitch)[-\s]+)*propellers?\b")),
    (Article.APPLIANCE, _words(
        r"(?:(?:series|model|fuel|oil|hydraulic|vacuum|brake|seat|restraint|ignition|electric(?:al)?|main|air|exhaust)[-\s]+)*"
        r"(?:magnetos?|carburetors?|turbochargers?|superchargers?|governors?|starters?|alternators?|generators?|pumps?|injectors?"
        r"|seats?|buckles?|belts?|heaters?|valves?|regulators?|extinguishers?|receivers?|transponders?|transmitters?|altimeters?"
        r"|batter(?:y|ies)|wheels?|brakes?|tires?|cylinders?|crankshafts?|filters?|hoses?|assembl(?:y|ies)|units?|appliances?|actuators?"
        r"|servos?|autopilots?|emergency\s+locator\s+transmitters?|elts?)\b")),
)  # fmt: skip

# Words that open a condition. It runs to the next semicolon or colon, or to the end of its sentence.
CONDITIONS: tuple[tuple[ConditionKind, re.Pattern], ...] = (
    (ConditionKind.LIST_ELSEWHERE, _words(
        r"(?:as\s+)?(?:identified|listed|specified|defined|described|shown|given|contained|noted)\s+(?:in|on|by|as)\b",
        r"(?:as\s+)?(?:identified|listed|specified|defined|described|shown|noted)\b",
        r"(?:in|per)\s+(?:table|appendix|attachment|group|figure)\b", r"groups?\s+\d",
        r"(?:see|refer\s+to)\b",
        r"in\s+accordance\s+with\b", r"per\b", r"affected\s+by\b", r"subject\s+to\b",
    )),
    (ConditionKind.RECORD, _words(
        r"\(?\s*(?:pre|post)[-\s]+(?:sb|asb|service\s+bulletin|mod\w*|stc|kit|ec)\b", r"pre-\w+", r"post-\w+",
        r"unless\b",
        r"(?:not\s+)?(?:modified|altered|repaired|reworked|converted|changed|retrofitted|upgraded|overhauled|rebuilt)\b",
        r"(?:not\s+)?incorporat\w+\b",
        r"(?:that|which)\s+(?:have|has|had)\s+(?:not\s+)?(?:been|accomplished|complied|incorporated)\b",
        r"on\s+which\b",
        r"(?:before|after|prior\s+to)\s+(?:incorporation|modification|accomplishment|installation|service\s+bulletin|sb)\b",
        r"(?:with|without)\s+(?:service\s+bulletin|sb|stc|supplemental|mod\w*|kit)\b", r"accomplish\w+\b",
    )),
    (ConditionKind.EQUIPMENT, _words(
        r"\(?\s*(?:that|which|with|without|having|equipped|fitted|powered|in\s+which|for\s+which|whose|where|if|when|while|until|only"
        r"|manufactured|built|delivered|produced|issued|shipped|operated|operating|holding|configured|registered|eligible|used"
        r"|certificated|licensed|assembled|installed|containing|bearing|marked|from|those)\b",
    )),
)  # fmt: skip
# Inside a condition these may be the start of another clause: then the condition cannot be set aside.
MAY_WIDEN = re.compile(
    r"\b(?:models?|serials?|s/ns?|also|as\s+well\s+as|including|airplanes?|aircraft|helicopters?|rotorcraft|any\s+other|all\s+other)\b",
    re.IGNORECASE,
)
EXCEPTION_MAY_WIDEN = re.compile(
    r"\b(?:models?|serials?|s/ns?|also|as\s+well\s+as|including|and\s+(?:all|any|those))\b",
    re.IGNORECASE,
)

_MAKER_WORD = r"(?:[A-Z](?:[^\W\d_]|[&.'/\[\]-])*|&|and|de|du|des|of|und|et|y|(?:[a-z]\.){2,3})(?![\w-])"
_NOTE = r"\((?:[^()]|\([^()]*\))*\)"
_NOUNS = r"(?:airplanes?|aeroplanes?|aircraft|helicopters?|gliders?|sailplanes?|engines?|propellers?)\b"
MAKER = re.compile(
    rf"(?:{_MAKER_WORD}(?:\s*{_NOTE})?,?\s+){{1,14}}?(?=(?:type/)?(?:Models?|MODELS?|models?)\b|[A-Z][A-Za-z]{{0,7}}-?\d|\d|{_NOUNS})"
)
NOTE = re.compile(_NOTE)
# Capitals that are no maker's name.
NO_MAKER = re.compile(
    r"\b(?:other|others|not|non|no|none|neither|nor|similar|spares?|kits?|parts?|but|also|plus|than|later|earlier|new|remaining"
    r"|do|does|apply|applies|is|are|be|may|must|shall|will|has|have|been|was|were|to|as|by|on|in|at|this|these|note|through|thru|before|after|until|under|over|from|for)\b",
    re.IGNORECASE,
)
MAKER_NOTE = _words(
    r"\(\s*(?:(?:the\s+)?type\s+certificate|formerly|previously|now|also\s+known|hereafter|collectively|d/?b/?a)\b(?:[^()]|\([^()]*\))*\)",
)
MAKER_SHORT = re.compile(r"\(\s*[A-Z][A-Za-z]{1,12}\s*\)(?=\s+(?:[A-Z][a-z]+\s+)?(?:Models?|[A-Z]*-?\d))")
NAME_WORD = re.compile(r"-?[A-Z0-9][A-Za-z0-9]*(?:\+?[-/.][A-Za-z0-9]+)*\+?(?!\w)")
BRACKET = re.compile(r"\(([^()]*)\)")
VARIANT_BRACKET = re.compile(r"\bvariants?\b|\bonly\b|\bwith\b|\bexcept\b|\bwithout\b", re.IGNORECASE)

GOES_ON = re.compile(r"\b(?:and|or)\s+(?:all|any|those|also)\b", re.IGNORECASE)
ANY_OTHER = re.compile(
    r"(?:\b(?:and|or)\s+(?:(?:all|any|those|the|other)\s+)*|[;:]\s*(?:(?:all|any|those|each|every)\s+))$",
    re.IGNORECASE,
)
_ARTICLE = (
    r"(?:airplanes?|aeroplanes?|aircraft|helicopters?|rotorcraft|gliders?|sailplanes?|engines?|propellers?)\b"
)
# Words that open another set of articles wherever they stand. Each must be read as the beginning of a clause.
WIDENS = _words(
    r"\b(?:and|or|plus|&)\s+(?:all|any|those|each|every|some|certain|others?|such|similar|spares?)\b",
    rf"\b(?:and|or|plus|&)\s+(?:the\s+)?(?:{_ARTICLE}|{LABEL}(?!\w))",
    rf"[;:]\s*(?:all|any|those|each|every)\s+(?:\w+\s+)?{_ARTICLE}",
    r"\balso\b(?!\s+known)", r"\bplus\b", r"\bas\s+well\b", r"\b(?:together|along)\s+with\b",
    r"\bin\s+addition\b", r"\badditional(?:ly)?\b", r"\blikewise\b", r"\btoo\b", r"\binclud(?:ing|es)\b",
    r"\bothers\b", r"\bother\b(?!\s+than\b)", r"\bsimilar(?:ly)?\b", r"\bsuch\s+as\b", r"\be\.g\.",
    r"\bfor\s+example\b", r"\betc\b", r"\bnot\s+(?:necessarily\s+)?limited\b",
)  # fmt: skip
ADDED = re.compile(r"\b(?:and|or|plus)\s+$|&\s*$", re.IGNORECASE)
YEARS = re.compile(r"(?:19|20)\d\d\b.*(?:19|20)\d\d|(?:19|20)\d\d\s+(?:and|&)\s.*", re.IGNORECASE)
LETTERED = re.compile(r"\S*\s*(?:\S+\s+)?\S*[A-Z]-?\d|\S*[A-Z]\S*\d")
BARE_NUMBERS = re.compile(r"\d{1,5}(?:-\d{1,5})?(?=\s*(?:[,;&.(]|$|and\b|thru\b|through\b|to\b))")
JOINED = re.compile(r"(?:[,;:(&]|\band|\bor)\s*$", re.IGNORECASE)

STOP = re.compile(
    r"\bcompliance\s*(?::|(?:is\s+)?required)|\bnote\b[^.]{0,12}?[:.]?\s+this\s+ad\s+applies\s+to\s+each",
    re.IGNORECASE,
)
ITEM_MARK = re.compile(r"(?:(?<=\s)|^)(?:\((?:\d{1,2}|[a-z]{1,4})\)|(?:\d{1,2}|[A-H])\.)\s+(?=[A-Za-z])")
SENTENCE_END = re.compile(r"(?<=[A-Za-z0-9)\]\"'])\.\s+(?=[A-Z(\d])")
ABBREVIATION = re.compile(
    r"(?:\b(?:Inc|Ltd|Co|Corp|[Nn]os?|Mfg|Amdt|Rev|approx|St|Jr|Bros|GmbH|Ser|Para|Fig|incl|subs)|(?:\b[A-Za-z]\.)+[A-Za-z])$"
)

# Words with a meaning of their own, which are no part of a model's or a maker's name.
OTHER_WORD = re.compile(
    "(?:"
    + "|".join(
        pattern.pattern
        for pattern in (
            MODEL, SERIES, LABELLED, IDLE, ALL, CERTAIN, EXCEPT, LINE_NUMBERS, SMALL, EFFECTIVITY,
            *(pattern for _, pattern in ARTICLES), *(pattern for _, pattern in CONDITIONS),
        )
    )
    + r")(?<![\s:])(?![A-Za-z0-9-])",
    re.IGNORECASE,
)  # fmt: skip
