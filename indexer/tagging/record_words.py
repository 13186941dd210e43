"""The words by which records name a source: kinds of publication, forms, approvals; as patterns.

Common practice, no source; how each kind is written was gathered from the trade's own short forms. Small and
capital letters alike: a record is often all of one.
"""

from dataclasses import dataclass
from enum import Enum, auto

from indexer.tagging.reference_words import spaced
from indexer.trade.publication_types import PublicationType as Type


class Numbered(Enum):
    """What stands after the words of a kind."""

    MANUAL = auto()  # a number of its own, or a chapter, section, page of it
    TITLED = auto()  # as of a manual, of which it must have one
    BULLETIN = auto()
    DIRECTIVE = auto()
    CIRCULAR = auto()
    CERTIFICATE = auto()  # the number of a certificate or data sheet
    DRAWING = auto()  # nothing without its number
    PAPER = auto()  # nothing without its number and words that point at it
    FORM = auto()  # the words are the number: "8110-3"
    WORDS = auto()  # no number: "field approval"


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of source. `alone`: the words name a source wherever they stand, without a number."""

    words: str
    type: Type | None
    numbered: Numbered
    alone: bool = False

    @property
    def words_of_any(self) -> str:
        """The words, of a manual in the plural too: "CMMs", "CMM's"."""
        return rf"(?:{self.words})(?:'?s(?!\w))?" if self.numbered is Numbered.MANUAL else self.words


_MANUAL = r"(?:manuals?|man\b\.?)"
_MAKER = r"(?:manufacturer'?s?'?|manuf|mfr'?s?|mfge?r?'?s?|maker'?s?|factory)\.?"
_OVERHAUL = r"(?:O/?H|overhaul)"
_MAINTENANCE = r"(?:maint(?:enance)?|mx)\.?"
_INSTALLATION = r"inst(?:al(?:l(?:ation)?)?|l|'l)?\.?"
_LIMITATION = r"airworthiness limitations?(?: (?:sect(?:ion)?\b\.?|items?))?"
# Of two kinds that begin at one place the earlier is taken, so the longer words stand first.
KINDS: tuple[Kind, ...] = (
    Kind(
        rf"struct(?:ur(?:al?|es?))?\.? repair {_MANUAL}|S\.?R\.?M\.?",
        Type.STRUCTURAL_REPAIR_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(
        rf"comp(?:onent)?\.? (?:{_MAINTENANCE}|{_OVERHAUL}) {_MANUAL}"
        r"(?: (?:with|w/) (?:IPL|(?:illus(?:trated)?\.? )?parts list))?"
        r"|C\.?M\.?M\.?(?: (?:with|w/) IPL)?",
        Type.COMPONENT_MAINTENANCE_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(
        rf"eng(?:ine)?\.? (?:{_MAKER} )?(?:light )?(?:(?:{_OVERHAUL}|{_MAINTENANCE}|service|shop) )?{_MANUAL}"
        r"|E\.?M\.?M\.?|eng(?:ine)?\.? (?:M\.?M\.?|OHM)",
        Type.ENGINE_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(
        rf"prop(?:eller)?\.? (?:{_MAKER} )?(?:(?:owner'?s?|{_OVERHAUL}|{_MAINTENANCE}|service) )?{_MANUAL}",
        Type.PROPELLER_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(
        rf"wiring (?:diag(?:ram)?s?\.? )?{_MANUAL}|W\.?D\.?M\.?|AWM",
        Type.WIRING_DIAGRAM_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(
        rf"(?:std|standard)\.? prac(?:tices?)?\.? {_MANUAL}|S\.?P\.?M\.?",
        Type.STANDARD_PRACTICES_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(
        r"(?:illus(?:t(?:rated)?)?\.? )?parts (?:cat(?:alog(?:ue)?)?\b\.?|list|manual|breakdown|book)"
        r"|A?I\.?P\.?C\.?|IPL|IPB|P/?L",
        Type.PARTS_CATALOG,
        Numbered.MANUAL,
    ),
    Kind(
        r"(?:[AR]FM|(?:airplane |aircraft |rotorcraft )?flight manual) supp(?:l(?:ement)?)?\b\.?|[AR]FMS",
        Type.FLIGHT_MANUAL_SUPPLEMENT,
        Numbered.MANUAL,
    ),
    Kind(
        r"POH/AFM|AFM/POH|AFM|RFM|POH|(?:airplane |aircraft |rotorcraft )?flight manual"
        r"|pilot'?s? operating handbook",
        Type.FLIGHT_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(r"(?:master )?minimum equip(?:ment)?\.? list|M?MEL", Type.MINIMUM_EQUIPMENT_LIST, Numbered.MANUAL),
    Kind(rf"{_LIMITATION}|A\.?L\.?S\.?|ALI", Type.AIRWORTHINESS_LIMITATIONS, Numbered.MANUAL),
    Kind(
        r"instructions? for continued airworthiness|I\.?C\.?A\.?(?:'?s)?",
        Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS,
        Numbered.MANUAL,
    ),
    Kind(
        rf"(?:aircraft |airplane |acft )?{_MAINTENANCE} (?:(?:&|and|/|\+) [a-z]{{4,12}} )?{_MANUAL}"
        r"|A\.?M\.?M\.?|[HLM]MM|M/M|M\.?M\.?",
        Type.MAINTENANCE_MANUAL,
        Numbered.MANUAL,
    ),
    Kind(
        rf"(?:serv(?:ic(?:e|ing))?|svc|shop|repair)\.? {_MANUAL}|S/M|SM", Type.SERVICE_MANUAL, Numbered.MANUAL
    ),
    Kind(rf"{_OVERHAUL} {_MANUAL}|OHM|F\.?I\.?M\.?|TSM|NDTM|NTM", None, Numbered.MANUAL),
    # Any other title ends in one of these words; what goes before them names it.
    Kind(
        rf"{_INSTALLATION} (?:manual|guide|instructions?|instr\b\.?)|IM"
        r"|(?:handbook|manual) of (?:[a-z]{4,14} )?(?:instructions?|repairs?|overhaul|maintenance|inspection)"
        rf"|manuals?|(?:hand|h/)b(?:oo)?k"
        rf"|(?:user'?s?|pilot'?s?|owner'?s?|service|tech(?:nical)?|{_MAINTENANCE}) guide",
        None,
        Numbered.TITLED,
    ),
    Kind(
        r"(?:alert |mandatory |emergency |critical )?(?:serv(?:ice)?|svc)\.? (?:bull(?:etin)?"
        r"|bltn|bul)s?\b\.?",
        Type.SERVICE_BULLETIN,
        Numbered.BULLETIN,
    ),
    Kind(
        r"(?:(?:tech(?:nical)?|product|customer service|spares|information|safety)\.? )?bulletins?"
        r"|safety (?:directives?|notices?)|(?:service|safety) alerts?"
        r"|tech(?:nical)?\.? notes?|[AMC]?S\.B\.|S/B(?:'?s)?|(?:[AMCE]|NM)?SB(?:'?s)?"
        # Short forms that are also a state, a model or a tube: only before what is plainly a number.
        r"|T[BN](?= (?:no\.? ?|# ?)[0-9]| [0-9]{1,4}-[0-9]| [0-9]{1,3}(?![\w.,-]))",
        Type.SERVICE_BULLETIN,
        Numbered.BULLETIN,
    ),
    Kind(
        r"(?:(?:serv(?:ice)?|svc|product|tech(?:nical)?|info(?:rmation)?)\.? )"
        r"(?:info(?:rmation)? )?(?:notices?|memos?|advisor(?:y|ies)|news(?:letters?)?|notes?)",
        Type.SERVICE_LETTER,
        Numbered.BULLETIN,
    ),
    Kind(
        r"(?:serv(?:ice)?|svc)\.? (?:info(?:rmation)? )?(?:letters?|ltrs?|instructions?|instr)\b\.?"
        r"|S\.?I\.?L\.?(?:'?s)?|S/[LI](?:'?s)?|S[LI](?:'?s)?|S\.[LI]\.",
        Type.SERVICE_LETTER,
        Numbered.BULLETIN,
    ),
    Kind(
        r"(?:EASA )?(?:emergency )?(?:airworthiness directives?(?: ?\(ADs?\))?|A\.D\.(?:'?s)?|A/?D(?:'?s)?)",
        Type.AIRWORTHINESS_DIRECTIVE,
        Numbered.DIRECTIVE,
    ),
    Kind(
        r"(?:advisory circ(?:ular)?s?\b\.?(?: ?\(AC\))?|A\.C\.|AC(?:'?s)?)",
        Type.ADVISORY_CIRCULAR,
        Numbered.CIRCULAR,
    ),
    Kind(
        r"(?:supplemental type cert(?:ificate)?s?\b\.?(?: ?\(STC\))?|S\.T\.C\.|STC(?:'?s)?)",
        Type.SUPPLEMENTAL_TYPE_CERTIFICATE,
        Numbered.CERTIFICATE,
    ),
    Kind(
        r"(?:type cert(?:ificate)?\.? data sheets?(?: ?\(TCDS\))?|T\.C\.D\.S\.|TCDS"
        r"|aircraft spec(?:ification)?\b\.?)",
        Type.TYPE_CERTIFICATE_DATA_SHEET,
        Numbered.CERTIFICATE,
    ),
    Kind(
        r"(?:special airworthiness info(?:rmation)? bulletins?(?: ?\(SAIB\))?|SAIB)",
        Type.AIRWORTHINESS_BULLETIN,
        Numbered.CERTIFICATE,
    ),
    Kind(
        r"(?:temp(?:orary)?\.? rev(?:ision)?\b\.?(?: ?\(TR\))?|T\.R\.|TR)",
        Type.TEMPORARY_REVISION,
        Numbered.DRAWING,
    ),
    Kind(r"N\.?P\.?R\.?M\.?(?: docket)?", Type.PROPOSED_DIRECTIVE, Numbered.DRAWING),
    Kind(
        r"(?:eng(?:ineering|r|rg)?\.? (?:change )?(?:orders?|authori[sz]ations?|reports?|instructions?"
        r"|dispositions?|releases?)|E\.?O\.?|E/O|ECO|tech(?:nical)? orders?|repair schemes?"
        r"|proc(?:ess)?\.? spec(?:ification)?s?)",
        None,
        Numbered.DRAWING,
    ),
    # A paper of no kind of its own: only where the entry points at it, and by its number.
    Kind(
        r"(?:doc(?:ument)?s?|pub(?:lication)?s?|rep(?:or)?ts?|rpts?|ER|specs?|specification|procedures?"
        r"|letters?|ltrs?|prints?|sketch(?:es)?|memos?)\b\.?",
        None,
        Numbered.PAPER,
    ),
    Kind(r"(?:drawings?|dwgs?|drwgs?)\b\.?", None, Numbered.DRAWING),
    Kind(
        r"field[ -]approv(?:al|ed)(?: (?:FAA[ -]{0,2})?(?:form )?337)?",
        Type.REPAIR_ALTERATION_RECORD,
        Numbered.FORM,
        alone=True,
    ),
    Kind(
        r"FAA[ -]{0,3}(?:form[ -]{1,3})?337s?|(?:form|fm)[ -]{1,3}337s?|337(?:s|'d)?",
        Type.REPAIR_ALTERATION_RECORD,
        Numbered.FORM,
        alone=True,
    ),
    Kind(
        r"(?:(?:FAA )?(?:DER|ODA|DAR)(?:'s)? )?(?:FAA )?(?:form )?(?:8110-3|8100-9)(?:'?s)?",
        Type.ENGINEERING_APPROVAL,
        Numbered.FORM,
        alone=True,
    ),
    Kind(
        r"ODA-[0-9]{4,6}-[A-Z]{2}(?: (?:approval|letter|ltr))?"
        r"|(?:FAA )?(?:DER|ODA)(?:'s)?[ -](?:approv(?:al|ed)(?: (?:letter|data|repair|dwg"
        r"|drawing))?|letter|ltr|data"
        r"|report)",
        Type.ENGINEERING_APPROVAL,
        Numbered.WORDS,
        alone=True,
    ),
    Kind(
        r"(?:FAA )?(?:form )?8130-3(?:'?s)?(?: (?:tag|form|cert(?:ificate)?))?|(?:yellow"
        r"|serviceable|release) tag",
        Type.RELEASE_CERTIFICATE,
        Numbered.FORM,
        alone=True,
    ),
    Kind(
        r"(?:FAA[ /-]?)?PMA(?:'?d\b)?(?: parts?| approv(?:ed|al))?",
        Type.PARTS_APPROVAL,
        Numbered.WORDS,
        alone=True,
    ),
    Kind(
        r"TSO[ -]{0,2}C[0-9]{1,3}[a-z]{0,2}|TSO'?d|TSOA|TSO auth(?:orization)?",
        Type.PARTS_APPROVAL,
        Numbered.FORM,
        alone=True,
    ),
    Kind(
        r"(?:AMOC|alternat(?:iv)?e (?:method|means)s? of compliance) (?:letter|ltr)\b\.?",
        Type.AMOC_LETTER,
        Numbered.WORDS,
        alone=True,
    ),
    Kind(
        r"AMOC|alternat(?:iv)?e (?:method|means)s? of compliance",
        Type.AMOC_LETTER,
        Numbered.WORDS,
    ),
)
HEAD = spaced(
    r"(?<![\w-])(?:"
    + "|".join(f"(?P<k{place}>{kind.words_of_any})" for place, kind in enumerate(KINDS))
    + r")(?![A-Za-z_'])"
)
# After these words a source is named, even by its kind alone.
POINTS = spaced(
    # The first letter of "IAW" as a scanner or a hurried hand gives it too.
    r"(?<![\w])(?:[il1]\.?a\.?w\.?|i/a/w|i a w|(?:as )?per|in acc(?:ord(?:ance)?)?\.? ?w(?:ith|/)?"
    r"|acc(?:\.|ording)? to|acc\."
    r"|ref(?:er(?:ence)?)?(?: to)?[.:]?|refs[.:]?|see|using|utilizing|comply(?:ing)? with"
    r"|c/w|cw|complied w(?:ith|/)"
    r"|in compliance with|in conformity with|conform(?:s|ed|ing)? (?:to|with)|follow(?:ed|ing)"
    r"|pursuant to|under"
    r"|as (?:described|outlined|specified|called out|shown|given|listed) (?:in|by))[ :]{1,3}"
    r"(?:(?:the|all|appl(?:icable)?\.?|appropriate|FAA|both|enclosed|attached|[A-Z]\)) ){0,3}"
)
USED_AFTER = spaced(r"(?: ?[/&,] ?[A-Z.]{2,6}){0,4} (?:used|referenced|consulted|followed)(?![\w])")
MAKERS_WORDS = spaced(
    rf"(?P<named>(?:(?:engine|eng\.?|prop(?:eller)?\.?|component|STC|kit|{_MAKER}|OEM) ){{0,2}}{_MAKER}"
    r"(?: (?:current|latest|published|written|recommended|instal(?:lation)?|instl|maint"
    r"(?:enance)?|service|repair"
    r"|approved)\.?){0,2} (?:instructions?|instr\b\.?|specs?|specifications?"
    r"|recommendations?|procedures?|data"
    r"|guidelines?|requirements?|literature|documents?|info(?:rmation)?|manuals?)"
    r"|(?:FAA[ -])?(?:approved|acceptable)(?: (?:technical|tech|maintenance|repair"
    r"|engineering))? data|(?:standard|std\.?|best|acceptable|good) practices?"
    r"|(?:(?:current|latest|appropriate) )?manuals?)(?![\w])"
)
SPECIFICATION = spaced(
    r"(?P<number>MIL-[A-Z]{1,4}-[0-9]{3,6}[A-Z]?(?:/[0-9]{1,3})?|SAE (?:AS|AMS|AIR|ARP|J) ?[0-9]{3,5}"
    r"|AMS ?[0-9]{4}|ASTM [A-Z][0-9]{2,5})"
    r"(?![\w])"
)
