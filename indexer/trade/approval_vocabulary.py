"""The words around an approval: who approves, what is approved, and every word that takes a grant back.

The lists of what grants are closed: a wording not on them grants nothing. The lists of what takes back are
wide, because a grant that is missed costs a look at the page, and a grant that is invented can cost a life.
Wordings: the rule's own for the limitations section (14 CFR part 23, A23.4); for the rest common practice, no
source: makers vary them. All patterns are for squeezed text, without regard to capitals.
"""

import re

FAA = r"(?:FAA|F\. ?A\. ?A\.|Federal\sAviation\sAdministration)"
FOREIGN = (
    r"(?:EASA|European\s(?:Union\s)?Aviation\sSafety\sAgency|DGAC|LBA|TCCA|Transport\sCanada(?:\sCivil\sAviation)?"
    r"|ANAC|CTA|CAAC|JCAB|ENAC|RAI|CASA|FOCA|DAC|(?:UK\s)?CAA)"
)
# "This", never "the" or a number: what is said of another document grants nothing here.
DOCUMENT = (
    r"(?:(?:alert|mandatory|airplane|aircraft|structural|maintenance|service|flight|repair|component|overhaul"
    r"|propeller|engine|technical|engineering|temporary|airworthiness\slimitations?|rotorcraft|illustrated|parts|FAA)\s){0,4}"
    r"(?:bulletin|letter|instructions?|publication|document|manual|supplement|section|chapter|page|appendix|revision"
    r"|repair|drawing|procedure|scheme|figure|SB|ASB|SRM|AFM|RFM|ALS)"
)
IDENTIFIED = (
    r"(?:,?\s(?:No\.\s?)?(?-i:[A-Z0-9][A-Z0-9.-]{0,20}[0-9][A-Z0-9.-]{0,10})(?:,(?=\s(?:is|are|has|have)\b))?)?"
    r"(?:,?\s\(?(?:Revision|Rev\.?|Issue)\s[A-Z0-9]{1,4}\)?,?)?"
)
_CONTENT = (
    r"(?:(?:technical|engineering|structural|repair|design|accomplishment)\s){0,2}(?:contents?|aspects?|portions?|data|information"
    r"|instructions|repairs?(?:\sand\s(?:modifications|alterations))?|procedures|limits|limitations|changes"
    r"|modifications?|alterations?|design)"
)
CONTENT_OF_THIS = (
    rf"(?:(?:all|the|these)\s){{0,3}}{_CONTENT}\s(?:of|in|on|(?:contained|presented|given|described|specified|defined"
    rf"|shown)\s(?:in|on))\sthis\s{DOCUMENT}{IDENTIFIED}"
)
# Said of no paper by name: grants only where a bulletin says it of itself.
TECHNICAL_CONTENT = (
    r"(?:the\s)?(?:technical|engineering)\s(?:design\s)?(?:contents?|aspects?|portions?|data)\s(?:is|are)\s"
)
THIS = rf"(?:this\s{DOCUMENT}{IDENTIFIED}|these\s(?:pages|repairs|data|limits|procedures|instructions))"
LINK = r"(?:is|are|has\sbeen|have\sbeen)\s(?:(?:hereby|also|now|fully|(?:reviewed|examined)\sand)\s)?"
WAS = r"(?:was|were)\s"  # grants only with the authority under which it was done
SHOWN_AND = (
    r"(?:(?:has|have)\sbeen\sshown\sto\scomply|compl(?:y|ies))\swith\s[^.;?!:]{0,120}?\sand\s(?:is|are)\s"
)
# "Manager, Wichita Aircraft Certification Office, FAA": names and titles between, and no verb.
_OFFICE_HEAD = (
    r"(?:manager|chief|director)\b(?=[^.;?!:]{0,80}?\b(?:ACO|office|branch|division|directorate|section)\b)(?:,?\s(?!(?:to|by|at|in|on|an?|who|was|is|are|were|after|before|when|if|sent"
    rf"|mailed|repair|quality|pilot|with|for|from|as|under|per|via|through|about|not|no|nor|or|but|filed|held|kept)\b)(?:of|the|and|&|(?-i:[A-Z])[A-Za-z.&'/-]*)){{1,12}}?,?\s(?:of\sthe\s)?{FAA}"
)
BY_FAA = rf"(?:{FAA}[\s-]approved|approved\sby\s(?:the\s)?(?:{FAA}|{_OFFICE_HEAD}))"
BY_DESIGNEE = (
    rf"(?:(?:{FAA}[\s/-])?(?:DER|ODA)[\s-]approved"
    rf"|approved\sby\s(?:an?\s|the\s)?(?:{FAA}[\s-])?(?:DERs?|designated\sengineering\srepresentatives?)\b"
    rf"(?:\s\(DERs?\))?(?:\sof\sthe\s{FAA}\b)?"
    r"|approved\s(?:by|under)\s(?:the\sauthority\sof\s)?(?:an?\s|the\s)?(?:authorized\srepresentatives?\sof\s)?"
    rf"(?:the\s)?(?:{FAA}[\s-])?(?:(?-i:[A-Z][\w.&'-]*)\s){{0,5}}"
    r"(?:ODA\b(?:[\s-][0-9]{3,7}-[A-Z]{2})?|organization\sdesignation\sauthorization))"
)
_ODA = r"(?:ODA\b(?:[\s-][0-9]{3,7}-[A-Z]{2})?|organization\sdesignation\sauthorization)(?:\s\(ODA\))?"
UNDER_ODA = (
    rf"approved\sunder\sthe\sauthority\sof\s(?:an?\s|the\s)?(?:{FAA}[\s-])?"
    rf"(?:(?-i:[A-Z][\w.&'-]*)\s){{0,5}}{_ODA}"
)
BY_FOREIGN = (
    rf"(?:{FOREIGN}[\s-]approved|approved\sby\s(?:the\s)?{FOREIGN}\b"
    r"|approved\sunder\s(?:the\s)?(?:authority\sof\s)?(?:the\s)?DOA\b"
    r"|approved\s(?:[^.;?!:]|ref\.){0,60}?EASA\. ?21J\. ?[0-9]+)"
)
ACCEPTED = (
    rf"(?:{FAA}[\s-]accepted|accepted\sby\s(?:the\s)?(?:{FAA}|administrator)"
    rf"|acceptable\sto\s(?:the\s)?(?:{FAA}|administrator))"
)

# What may stand before the sentence that grants: paragraph marks and a heading such as "F. Approval".
MARKS = r"(?:\(?[0-9A-Za-z]{1,3}[.)] ?)*"
LABEL = (
    rf"{MARKS}(?:(?:(?:FAA|DER|engineering|regulatory)\s)?approvals?|airworthiness\slimitations?(?:\ssection)?|note)?"
    r"[:. \n-]{0,4}"
)
APPROVAL_LABEL = rf"{MARKS}(?:(?:engineering|regulatory)\s)?approvals?[:.\n -]{{1,4}}"
# What may follow the words that grant; any other word makes "FAA approved" the attribute of some other thing.
_MONTH = r"(?:jan|feb|mar|apr|may|jun|jul|aug|sept?|oct|nov|dec)[a-z]*\.?"
CONTINUES = (
    r"(?=\s?$|[.;?](?=\s|$)|\n\n|\s\(|,?\s(?:and|under|as\sof|except\w*|but|only|when|once|until|if|unless|provided"
    r"|subject)\b|\sfor\s(?:the|use|all|models?|repairs?|installation|airplanes?|aircraft|helicopters?)\b"
    r"|\sin\s(?:accordance|compliance|its\sentirety|part)\b"
    rf"|\sby\s(?:letter|the\s(?:{FAA}|manager|chief|director|administrator))\b"
    rf"|,?\s(?:on\s|dated?\s|effective\s)?(?:[0-9]{{1,2}}\s{_MONTH}|{_MONTH}\s[0-9])"
    r"|,\s(?:(?-i:[A-Z][A-Za-z.&'-]*)\s){1,6}?(?:ACO|office|branch|directorate)\b|\sdata(?=[.;]?\s?$))"
)

NEGATION = re.compile(
    r"\b(?:not|\w*(?:is|are|was|were|been|does)not\w*|never|no(?!\.|\s?[0-9])|none|nor|neither|without|cannot|nothing|lack(?:s|ing)?|absent|false(?:ly)?"
    r"|incorrect|wrong(?:ly)?|den(?:y|ied|ies)|declin\w+|refus\w+|reject\w+|withdr\w+|revok\w+|rescind\w+|cancel\w*"
    r"|delet\w+|removed|void(?:ed)?|expire[ds]?|invalid|superseded|obsolete|longer|former\w*|previous\w*|un-?approved|un-?signed|disapproved"
    r"|non(?=[\s-]?(?:FAA|approved)))\b|n['\u2019]t\b",
    re.IGNORECASE,
)
LIMITED = re.compile(
    r"\b(?:except\w*|exclud\w+|exclusive|other\sthan|only\w{0,6}|solely|partial\w*|in\spart|some|most|certain|but|however"
    r"|although|though|apart\sfrom|save\sfor|amoc|alternative|by\sreference|case[\s-]by[\s-]case|for\s(?:training|reference|information|evaluation"
    r"|display|demonstration|deletion|removal))\b",
    re.IGNORECASE,
)
# "May" beside a number is the month.
HOPE = re.compile(
    r"\b(?:will|would|shall|should|must|(?<![0-9]\s)(?<![0-9])may(?!\s?[0-9])|might|can|could|to\sbe"
    r"|be(?=\s(?:FAA|approved))|pending\w*|await\w*|expect\w*|anticipat\w*|intend\w*|plan(?:s|ned)?|propos\w+|drafts?"
    r"|preliminary|in\s(?:work|process|progress)|under\sreview|until\w*|unless\w*|if|when|whenever|once|whether|provided"
    r"|providing|subject|condition\w*|contingent|after|upon|before|prior|hop(?:e|ed|es|ing)|assum\w+|suppos\w+"
    r"|believ\w+|consider\w+|claim\w+|alleg\w+|apparently|possibly|probably|likely|presum\w+|equivalent|as\sthough"
    r"|as\sif|or\sso|thought|opinion|rumou?r\w*|reported(?:ly)?|as\sfar\sas|(?:we|was|were)\s(?:are\s)?told|tbd|tba|tbc|n/a|examples?|samples?|specimen|typical\w*|yet|requir\w+|insert)\b",
    re.IGNORECASE,
)
INSTRUCTION = re.compile(
    r"\b(?:submit\w*|obtain\w*|request\w*|ask|contact|appl(?:y|ied|ication)|send|forward|coordinate|seek\w*|get|use"
    r"|refer|consult|in\saccordance\swith|IAW|per|according\sto)\b",
    re.IGNORECASE,
)
# After a complete grant these speak of the work, not of the approval: "... is FAA approved and must be done".
WORK_MODAL = re.compile(r"\band\s(?:may|can|must|shall|should)\b", re.IGNORECASE)
WITHDRAWN = re.compile(
    r"\b(?:withdr\w+|revok\w+|rescind\w+|cancel\w*|void(?:ed)?|expire[ds]?|expir(?:y|ation)|superseded|obsolete"
    r"|no\slonger|lapsed)\b",
    re.IGNORECASE,
)
# A next sentence that begins so, or that denies and speaks of reach, takes part of the grant back.
_TAKES_BACK_NEXT = re.compile(
    r"[\s(\[*-]*(?:however|but|except|only|unless|although|this\s(?:approval|statement)|the\s(?:approval|statement)"
    r"\s(?:does|is)|not\b|no\b)",
    re.IGNORECASE,
)
_REACH = re.compile(
    r"FAA|approv|valid|cover|appl(?:y|ies|icable)|extend|includ|use"
    r"|\b(?:parts?|sections?|chapters?|paragraphs?|appendi(?:x|ces)|supplements?|steps?|procedures?|limits|repairs?"
    r"|revisions?|data)\b|\bpages?\s[0-9]",
    re.IGNORECASE,
)
_ASKED_FOR = (
    r"\b(?:pending|await\w*|submitted|applied\sfor|appli\w+\smade|under\sreview|in\s(?:work|preparation)|drafts?"
    r"|to\sbe\s(?:confirmed|approved))\b"
)
ASKED_FOR = re.compile(_ASKED_FOR, re.IGNORECASE)
# In the sentence after a grant: the rest of the paper is told apart, or approval was only asked for.
_REST_NEXT = re.compile(
    r"\b(?:(?:all\s)?others?|the\s(?:rest|remaind\w+)|remaining|exclusions?|(?:is|are)\snot\sfor)\b"
    rf"|{_ASKED_FOR}"
    r"|\bfor\s(?:reference|information|training|guidance)\b|\b(?:FAA[\s-])?accepted\b|\bacceptable\sto\b"
    r"|\b(?:limited|restricted|confined|exempt\w*|separate(?:ly)?|stars?|asterisks?|marked)\b"
    r"|\b(?:repairs?|pages?|parts?|chapters?|sections?|appendi(?:x|ces)|steps?|items?|figures?|paragraphs?)\b[^.]{0,60}"
    r"\b(?:must|needs?|requires?|shall|should)\b[^.]{0,60}\b(?:approv\w*|DER)\b",
    re.IGNORECASE,
)
# In the same sentence after the words that grant: a part is named, or a mark that shows which part.
NAMES_PART = re.compile(
    r"(?<!CFR\s)(?<!FAR\s)(?<!Regulations\s)(?<!Regulations,\s)"
    r"\b(?:parts?|sections?|chapters?|paragraphs?|pages?|appendi(?:x|ces)|steps?|items?|figures?|volumes?)"
    r"\s(?:[0-9]{1,2}|[A-Z]|[IVX]{1,4})\b(?!\sof\s(?:the\s)?(?:FAR|Federal|14|title))"
    r"|\bin\s(?:accordance|compliance)\swith\s(?:the\s)?(?:alert\s|mandatory\s)?(?:service|SB|SL|ASB)\b"
    r"|(?<!accordance\s)(?<!compliance\s)\bwith\b|\b(?:having|equipped|fitted|incorporating|omitted)\b"
    r"|\b(?:where|marked|as\s(?:noted|marked|indicated|to|shown|applicable)|see|notes?|to\sconfirm\w*"
    r"|agreement|bilateral|submitted|applied|serials?|S/N|N[0-9]{2,5}[A-Z]{0,2})\b",
    re.IGNORECASE,
)
# A sentence that speaks of the one after it: "The following is not part of this manual."
POINTS_ON = re.compile(r"\b(?:following|follows|below|next)\b", re.IGNORECASE)
# What introduces a wording instead of saying it: a rule that prescribes it, a sample page.
INTRODUCES_WORDING = re.compile(
    r"\b(?:reads?|states?|stating|statements?|wordings?|words|phrases?|says|examples?|samples?|specimen|contains?"
    r"|as\sfollows|following|looks?|marked|stamped|bears?|carr(?:y|ies)|legend|suggest\w+|fill\sin"
    r"|(?:check|tick|choose|select|mark)\s(?:one|box|the\sbox))\b[^.\n]{0,100}[:,]?\s{0,2}[\"\u201c\u2018']?\s?$",
    re.IGNORECASE,
)


# The end of a line that the next one must finish.
UNFINISHED = re.compile(
    r"\b(?:that|whether|the|an?|of|to|by|is|are|was|be|and|or|for|with|in|on|as|if|not)\s?$", re.IGNORECASE
)


def takes_back(part: str) -> bool:
    """Whether the words deny, delay, limit or only ask for what stands by them; misread letters count."""
    return any(
        pattern.search(reading)
        for reading in readings(part)
        for pattern in (NEGATION, HOPE, LIMITED, INSTRUCTION)
    )


# A word with a digit where a letter stood: it may be the one that takes all back ("0owever", "is0not").
_UNREADABLE = re.compile(r"\b(?:[0-9l][A-Z]{2,}|[0-9]+[a-z]{3,}|[A-Za-z]*[a-z][0-9][a-z]+)\b(?<!st|nd|rd|th)")


def unreadable(part: str) -> bool:
    """Whether a word among these has been misread beyond reading back."""
    return bool(_UNREADABLE.search(part))


def next_takes_back(sentence: str) -> bool:
    """Whether a sentence that follows a grant takes some of it back."""
    return unreadable(sentence) or any(
        _TAKES_BACK_NEXT.match(reading)
        or WITHDRAWN.search(reading)
        or UNFINISHED.search(reading)
        or _REST_NEXT.search(reading)
        or (NEGATION.search(reading) or LIMITED.search(reading))
        and _REACH.search(reading)
        for reading in readings(sentence)
    )


_DIGITS_AS_LETTERS = (str.maketrans("0135", "oles"), str.maketrans("0135", "oies"))
_MISREAD = re.compile(r"(?<=[A-Za-z])[0135]+(?=[A-Za-z])|(?<=[A-Za-z]{2})[0135]\b")


def readings(part: str) -> tuple[str, ...]:
    """The text as it stands, and with digits that OCR puts for letters read back ("n0t", "exc3pt")."""
    return part, *(
        _MISREAD.sub(lambda match, letters=letters: match[0].translate(letters), part)
        for letters in _DIGITS_AS_LETTERS
    )
