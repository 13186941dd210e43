"""The words by which running text refers: kinds of publication, places in one, rules; as patterns.

Text is flat: dashes plain, a blank for every line end (see joined_lines.py). Common practice, no source.
"""

import re

from indexer.trade.publication_types import PublicationType as Type

_BLANKS = re.compile(r"\[[^]]*\]|\\.| \?| ")


def spaced(pattern: str) -> re.Pattern:
    """The pattern, large and small letters alike, where " " stands for one to three blanks."""
    wide = {" ": "[ ]{1,3}", " ?": "[ ]{0,3}"}
    return re.compile(_BLANKS.sub(lambda match: wide.get(match[0], match[0]), pattern), re.IGNORECASE)


# Kinds of publication that are named by type. Long names in small letters, short forms in capitals.
MANUALS: dict[str, Type | None] = {
    r"(?:structur(?:al|e) )?repair manual": Type.STRUCTURAL_REPAIR_MANUAL,
    r"component (?:maintenance|overhaul) manual": Type.COMPONENT_MAINTENANCE_MANUAL,
    r"engine (?:maintenance|overhaul|shop|light maintenance|service) manual": Type.ENGINE_MANUAL,
    r"engine manual": Type.ENGINE_MANUAL,
    r"propeller (?:owner'?s|maintenance|overhaul|service) manual": Type.PROPELLER_MANUAL,
    r"wiring (?:diagrams? )?manual": Type.WIRING_DIAGRAM_MANUAL,
    r"standard practices manual": Type.STANDARD_PRACTICES_MANUAL,
    r"illustrated parts (?:catalog(?:ue)?|list|breakdown|manual)": Type.PARTS_CATALOG,
    r"parts (?:catalog(?:ue)?|manual)": Type.PARTS_CATALOG,
    r"maintenance manual": Type.MAINTENANCE_MANUAL,
    r"(?:service|servicing|shop) manual": Type.SERVICE_MANUAL,
    r"flight manual|pilot'?s operating handbook": Type.FLIGHT_MANUAL,
    r"minimum equipment list": Type.MINIMUM_EQUIPMENT_LIST,
    r"type certificate data sheets?": Type.TYPE_CERTIFICATE_DATA_SHEET,
    r"overhaul manual|fault isolation manual|trouble ?shooting manual": None,
    r"non-?destructive test(?:ing)? manual": None,
    r"temporary revisions?": Type.TEMPORARY_REVISION,
}
SHORT: dict[str, Type | None] = {
    "SRM": Type.STRUCTURAL_REPAIR_MANUAL,
    "CMM": Type.COMPONENT_MAINTENANCE_MANUAL,
    "AMM": Type.MAINTENANCE_MANUAL,
    "MM": Type.MAINTENANCE_MANUAL,
    "AIPC": Type.PARTS_CATALOG,
    "IPC": Type.PARTS_CATALOG,
    "IPL": Type.PARTS_CATALOG,
    "IPB": Type.PARTS_CATALOG,
    "AWM": Type.WIRING_DIAGRAM_MANUAL,
    "WDM": Type.WIRING_DIAGRAM_MANUAL,
    "EMM": Type.ENGINE_MANUAL,
    "SPM": Type.STANDARD_PRACTICES_MANUAL,
    "AFM": Type.FLIGHT_MANUAL,
    "MMEL": Type.MINIMUM_EQUIPMENT_LIST,
    "TCDS": Type.TYPE_CERTIFICATE_DATA_SHEET,
    "TRs?": Type.TEMPORARY_REVISION,
    "OHM": None,
    "FIM": None,
    "TSM": None,
    "NTM": None,
    "NDTM": None,
}
_SHORT = "|".join(SHORT)
_TOKEN = r"(?=[A-Z0-9./-]{0,20}[0-9])[A-Z0-9]{1,16}(?:[./-][A-Z0-9]{1,12}){0,6}(?:\([A-Z]\))?(?![\w-])"
_CHAPTER_FORM = r"[0-9]{2}-[0-9]{2}(?:-[0-9]{2})?(?:-[0-9A-Z]{1,4}){0,2}(?![\w-])"
MANUAL = spaced(
    rf"(?<![\w-])(?:(?P<long>{'|'.join(MANUALS)})(?: \((?:{_SHORT})s?\))?|(?P<short>{_SHORT})(?![A-Za-z_]))"
    rf"(?:,? ?(?:(?:part )?(?:number|no\.?)|document|P/N|publication|report)? ?(?P<number>(?-i:{_TOKEN})))?"
)
# Cheap signs that a manual may be named; the pattern above costs more than all others together.
MANUAL_WORDS = (
    *("manual", "catalog", "parts list", "breakdown", "handbook"),
    *("equipment list", "data sheet", "temporary"),
)
MANUAL_SHORT = re.compile(rf"\b(?:{_SHORT}|amm|mm|srm|cmm|a?ipc|ipl|wdm|emm)(?![A-Za-z_])")
CHAPTER_FORM = spaced(_CHAPTER_FORM)
# Words after which a manual named by type alone is one to look into.
POINTS_TO = spaced(
    r"(?:\b(?:see|refer to|referring to|per|i\.?a\.?w\.?|i/a/w|in accordance with|according to"
    r"|consult|comply with)"
    r"|\b(?:given|found|described|shown|listed|specified|contained|provided|procedures?|instructions?"
    r"|data|limits)"
    r" (?:in|of|from)|\bref(?:er|erence)?[.:]?)(?: to)? (?:the )?(?:(?!this\b|same\b|that\b"
    r"|manufacturer|approved|current)[\w'&/.-]{1,24} ){0,5}$"
)
# What announces a bare number right before it.
ANNOUNCES = spaced(
    r"\b(?:see|see also|refer to|ref(?:er|erence)?[.:]?|per|i\.?a\.?w\.?|in accordance with|given in|step of)"
    r" ?[(]?$"
)
CIRCULAR = spaced(
    r"(?<![\w-])(?:advisory circulars?(?: \(ACs?\))?|(?-i:ACs?))(?: (?:no\.?|number))?[: ]{1,3}"
    r"(?P<number>[0-9]{1,3}(?:\.[0-9]{1,4})?-[0-9]{1,4}[A-Z]{0,2}(?![\w]))"
)
NEXT_CIRCULAR = spaced(
    r"(?: and | or |, (?:and |or )?)(?P<number>[0-9]{1,3}(?:\.[0-9]{1,4})?-[0-9]{1,4}[A-Z]{0,2}(?![\w-]))"
)
ORDER = spaced(
    r"(?<![\w-])(?:(?:FAA )?Order(?: No\.?)? (?P<order>[0-9]{4,5}\.[0-9]{1,4}[A-Z]{0,2})"
    r"|(?P<handbook>FAA-[A-Z]{1,2}-[0-9]{4}-[0-9]{1,3}[A-Z]?))(?![\w])"
)
# The whole of what goes before a bulletin's or a directive's number.
BEFORE_BULLETIN = spaced(
    r"(?:(?:(?:alert|mandatory|emergency|critical|special) ){0,3}service (?:bulletin|letter|instruction"
    r"|information letter)s?|(?-i:[A-Z]{2,4}s?|sb|sl))(?: ?\([A-Z]{2,5}s?\))?"
    r"(?: ?n(?:umber|o)s?\b\.?)?[ :#-]{0,4}$"
)
BEFORE_DIRECTIVE = spaced(
    r"(?:EASA |European Aviation Safety Agency )?(?:emergency )?(?:A\.?D\.?s?|airworthiness directives?)"
    r"(?: ?\(ADs?\))?(?: ?n(?:umber|o)s?\b\.?)?[ :#]{0,3}$"
)
_MONTHS = (
    r"jan(?:uary)?|feb(?:ruary)?|mar(?:ch)?|apr(?:il)?|may|june?|july?|aug(?:ust)?|sept?(?:ember)?"
    r"|oct(?:ober)?"
    r"|nov(?:ember)?|dec(?:ember)?"
)
_DATE = (
    rf"(?:[0-9]{{1,2}}[ -])?(?:{_MONTHS})\.?(?:[ -][0-9]{{1,2}},?)?[ -][0-9]{{4}}"
    rf"|[0-9]{{4}}-[0-9]{{2}}-[0-9]{{2}}"
    r"|[0-9]{1,2}/[0-9]{1,2}/[0-9]{2,4}"
)
REVISION = spaced(
    r",? ?\(?(?:at )?(?:the )?(?:(?:revision|rev\b\.?|issue|change|chg\.?)(?: ?(?:number|no\.?|level"
    r"|letter))?[ :#]{0,2}"
    r"(?P<mark>original|N/C|[0-9]{1,4}[A-Z]?|(?-i:[A-Z]{1,2})|-)(?![\w])"
    r"|(?P<original>original (?:issue|release)|initial issue)|(?P<short>(?-i:R)[0-9]{1,2})(?![\w-]))"
)
OR_REVISION = spaced(
    r",?(?: or| and)(?= (?:revision|rev\b|issue|change)\.? ?(?:no\.? )?(?-i:[A-Z]{1,2}\b|[0-9]))"
)
DATED = spaced(rf"\)?,? ?\(?(?:dated|issued|of|date:?)? ?(?P<date>{_DATE})(?![\w-])\)?")

_JOINT = r"(?: ?, ?(?:and |or )?| (?:and|or) | ?& ?)"
_RANGE = r"(?: (?:through|thru|to) | ?- ?(?=\())"
_FIG = (
    r"(?:(?-i:[IVX]{1,5})-)?[0-9]{1,4}(?:[-.][0-9]{1,4}){0,3}(?-i:[A-Z]{0,2})(?![\w])(?!-[0-9A-Z])"
    r"(?!\.[0-9])"
)
FIGURE = spaced(
    rf"(?<![\w-])(?P<word>figures?|figs?\b\.?) ?(?:nos?\.? ?|numbers? )?(?P<list>{_FIG}(?:(?:{_RANGE}"
    rf"|{_JOINT})(?:{_FIG})){{0,20}})"
)
ITEM = spaced(
    r"[ ,(/]{0,3}\(?(?:(?:index|key|callout|item|detail)s?|pos(?:ition)?\.?)(?: (?:no\.?|number))? ?"
    r"\(?(?P<item>[0-9]{1,3}[A-Z]?)(?![\w])\)?"
)
SHEET = spaced(r"[ ,(]{1,2}sheets? [0-9]{1,2}(?: of [0-9]{1,2})?(?![\w])\)?")
_PAGE = (
    r"(?:(?-i:[A-Z]{1,4}|[IVXL]{1,6})-)?[0-9]{1,5}(?:[-.][0-9]{1,4})?(?-i:[A-Z]?)(?![\w])"
    r"(?!-[0-9A-Z])(?!\.[0-9])"
)
PAGE = spaced(
    r"(?<![\w-])(?P<word>pages?(?: blocks?)?|pgs?\b\.?|pp?\.|P/B|PB)"
    rf" ?(?:nos?\.? ?)?(?P<list>{_PAGE}(?:(?:{_RANGE}|{_JOINT})(?:{_PAGE})){{0,20}})"
    rf"(?! of [0-9]{{1,4}}(?![\w-]))(?!/[0-9])"
)
SLASH_PAGE = spaced(r" ?/ ?(?P<page>[0-9]{3,5})(?![\w/-])")
_PARENS = r"(?: ?\((?:[a-zA-Z]{1,4}|[0-9]{1,3})\)){1,6}"
_PARA = (
    r"(?:(?:(?-i:[IVX]{1,5}|[A-Z])|[0-9]{1,3})(?:[-.][0-9]{1,3}[A-Z]?|\.?(?-i:[A-Z])(?![A-Za-z])){0,4}"
    rf"(?:\.?{_PARENS})?|{_PARENS})(?![\w])(?!-[0-9A-Z])"
)
PARAGRAPH = spaced(
    r"(?<![\w-])(?P<word>(?:sub)?paragraphs?|paras?\b\.?|pars?\.)"
    rf" ?(?:nos?\.? ?)?(?P<list>{_PARA}(?:(?:\.?{_RANGE}|\.?{_JOINT})(?:(?:paragraphs?|paras?\.?) )?"
    rf"(?:{_PARA})){{0,20}})"
)
WORD_PART = re.compile(r"[0-9A-Z]+(?:[-.][0-9A-Z]+)*", re.IGNORECASE)
PARA_PART = spaced(_PARA)
_SECTION = (
    r"(?:(?-i:[IVXL]{1,6}|[A-H])|[0-9]{1,2}(?:[-.][0-9]{1,3}){0,2}(?-i:[A-Z]?))(?![\w])"
    r"(?!-[0-9A-Z])(?!\.[0-9])(?!')"
)
SECTION = spaced(
    rf"(?<![\w-])(?P<word>sections?|sect?\.|chapters?|groups?) (?P<list>{_SECTION}(?:(?:{_RANGE}"
    rf"|{_JOINT})(?:{_SECTION})){{0,10}})"
)
NOT_A_SECTION = spaced(
    r"\b(?:fuselage|body|tail|wing|nose|cross|this|center|centre|aft|fwd|forward|age|blood|seat"
    r"|cylinder|ATA)[ -]$"
)
PART = spaced(
    r"(?<![\w-])(?P<word>parts?|steps?|tables?|appendix|appendices|tasks?) "
    r"(?P<list>(?-i:[IVX]{1,4}|[A-Z]|[0-9]{1,2})(?![\w.-])(?:(?: and | or |, (?:and |or )?"
    r"| through )(?:part )?(?-i:[IVX]{1,4}|[A-Z]|[0-9]{1,2})(?![\w-])){0,6})"
)
LIST_JOINT = spaced(rf"\.?{_JOINT}(?:(?:paragraphs?|paras?\.?|parts?) )?")
RANGE_JOINT = spaced(rf"\.?{_RANGE}(?:(?:paragraphs?|paras?\.?) )?")
