"""The words around an approval: who approves, what is approved, and every word that takes a grant back.

The lists of what grants are closed: a wording not on them grants nothing. The lists of what takes back are wide,
because a grant that is missed costs a look at the page and a grant that is invented can cost a life.
Wordings: bulletins, manuals and rules as quoted in the trade; most vary by maker (common practice, no source).
"""

import re

FAA = r"(?:FAA|F\.\s?A\.\s?A\.|Federal\s+Aviation\s+Administration)"
FOREIGN = (
    r"(?:EASA|European\s+(?:Union\s+)?Aviation\s+Safety\s+Agency|DGAC|LBA|TCCA|TCA|Transport\s+Canada(?:\s+Civil\s+Aviation)?"
    r"|ANAC|CTA|CAAC|JCAB|ENAC|RAI|CASA|FOCA|DAC|UK\s+CAA|CAA)"
)
_OFFICE = (
    r"(?:ACO|aircraft\s+certification\s+offices?|certification\s+(?:branch|office|directorate)"
    r"|(?:small\s+airplane|rotorcraft|transport\s+airplane|engine\s+(?:and|&)\s+propeller)\s+directorate)"
)
# "This", never "the" or a number: what is said of another document grants nothing here.
DOCUMENT = (
    r"(?:(?:alert|mandatory|airplane|aircraft|structural|maintenance|service|flight|repair|component|overhaul|technical"
    r"|engineering|temporary|airworthiness\s+limitations?|rotorcraft|manual|illustrated|parts)\s+)*"
    r"(?:bulletin|letter|instructions?|publication|document|manual|supplement|section|chapter|page|appendix|revision"
    r"|repair|drawing|SB|SRM|AFM|RFM|ALS)"
)
_CONTENT = (
    r"(?:(?:technical|engineering|structural|repair)\s+)?(?:contents?|aspects?|data|information|instructions|repairs"
    r"|procedures|limits|limitations|changes|modifications?|design)"
)
IDENTIFIED = r"(?:,?\s+(?:No\.\s*)?[A-Z0-9][A-Z0-9.-]*[0-9][A-Z0-9.-]*)?(?:,?\s+(?:Revision|Rev\.?|Issue)\s+[A-Z0-9]{1,4},?)?"
CONTENT_OF_THIS = (
    rf"(?:all\s+|the\s+|these\s+)*{_CONTENT}\s+(?:of|in|on|contained\s+in|presented\s+in|given\s+in|described\s+in"
    rf"|specified\s+in|defined\s+in|shown\s+(?:in|on))\s+this\s+{DOCUMENT}{IDENTIFIED}"
)
THIS = rf"(?:this\s+{DOCUMENT}{IDENTIFIED}|these\s+(?:pages|repairs|data|limits|procedures|instructions))"
LINK = r"(?:is|are|has\s+been|have\s+been)\s+(?:(?:hereby|also|now|fully)\s+)?"
SHOWN_AND = r"(?:(?:has|have)\s+been\s+shown\s+to\s+comply|compl(?:y|ies))\s+with\s+[^.;?!:]{0,120}?\s+and\s+(?:is|are)\s+"
BY_FAA = (
    rf"(?:{FAA}[\s-]+approved|approved\s+by\s+(?:the\s+)?(?:{FAA}|(?:manager|chief|director)\s*,?\s+[^.;?!:]{{0,60}}{_OFFICE}"
    rf"[^.;?!:]{{0,40}}))"
)
BY_DESIGNEE = (
    rf"(?:(?:{FAA}[\s-]+)?(?:DER|ODA|DMIR|delegated)[\s-]+approved"
    rf"|approved\s+by\s+(?:an?\s+|the\s+)?(?:{FAA}[\s-]+)?(?:DER|designated\s+engineering\s+representative)s?\b"
    r"|approved\s+(?:by|under)\s+[^.;?!:]{0,80}?(?:ODA\b|organization\s+designation\s+authorization))"
)
BY_FOREIGN = (
    rf"(?:{FOREIGN}[\s-]+approved|approved\s+by\s+(?:the\s+)?{FOREIGN}"
    r"|approved\s+under\s+(?:the\s+)?authority\s+of\s+(?:the\s+)?DOA\b|approved\s+under\s+(?:the\s+)?DOA\b"
    r"|approved\s+[^.;?!:]{0,60}EASA\.\s?21J\.\s?[0-9]+)"
)
ACCEPTED = (
    rf"(?:{FAA}[\s-]+accepted|(?:accepted|acceptable)\s+(?:by|to)\s+(?:the\s+)?(?:{FAA}|administrator))"
)

# A name put before the sentence that grants: paragraph marks, "Approval", a heading.
LABEL = (
    r"\s*(?:\(?[0-9A-Za-z]{1,3}[.)]\s*)*(?:(?:FAA|DER|engineering|regulatory)?\s*approvals?|airworthiness\s+limitations?"
    r"(?:\s+section)?|note)?\s*[:.-]*\s*"
)
APPROVAL_LABEL = (
    r"\s*(?:\(?[0-9A-Za-z]{1,3}[.)]\s*)*(?:engineering\s+|regulatory\s+)?approvals?\s*[:.\n-]+\s*"
)

NEGATION = re.compile(
    r"\b(?:not|never|no(?!\.|\s*[0-9])|none|nor|neither|without|cannot|nothing|lack(?:s|ing)?|absent|false(?:ly)?|incorrect"
    r"|wrong(?:ly)?|den(?:y|ied|ies)|refus\w+|reject\w+|withdr\w+|revok\w+|rescind\w+|cancel\w*|void(?:ed)?|expire[ds]?"
    r"|invalid|superseded|obsolete|longer|former\w*|previous\w*|unapproved|disapproved|non(?=[\s-]*(?:FAA|approved)))\b|n['\u2019]t\b",
    re.IGNORECASE,
)
LIMITED = re.compile(
    r"\b(?:except\w*|exclud\w+|exclusive|other\s+than|only|solely|partial\w*|in\s+part|some|most|certain|but|however|although"
    r"|though|apart\s+from|save\s+for)\b",
    re.IGNORECASE,
)
HOPE = re.compile(
    r"\b(?:will|would|shall|should|must|(?<![0-9]\s)(?<![0-9])may(?!\s*[0-9])|might|can|could|to\s+be|be(?=\s+(?:FAA|approved))|pending|await\w*|expect\w*"
    r"|anticipat\w*|intend\w*|plan(?:s|ned)?|propos\w+|drafts?|preliminary|in\s+(?:work|process|progress)|under\s+review"
    r"|until|unless|if|when|whenever|once|whether|provided|providing|subject\s+to|condition\w*|contingent|after|upon|before"
    r"|prior|hop(?:e|ed|es|ing)|assum\w+|suppos\w+|believ\w+|consider\w+|claim\w+|alleg\w+|apparently|possibly|probably"
    r"|likely|presum\w+|equivalent|as\s+though|as\s+if|tbd|tba|tbc|n/a|examples?|samples?|specimen|typical\w*|yet|requir\w+)\b",
    re.IGNORECASE,
)
INSTRUCTION = re.compile(
    r"\b(?:submit\w*|obtain\w*|request\w*|ask|contact|appl(?:y|ied|ication)|send|forward|coordinate|seek\w*|get|use|refer"
    r"|consult|in\s+accordance\s+with|IAW|per|according\s+to)\b",
    re.IGNORECASE,
)
# After a complete grant these words speak of the work, not of the approval: "... is FAA approved and must be done".
WORK_MODAL = re.compile(r"\band\s+(?:may|can|must|shall|should)\b", re.IGNORECASE)
# What introduces a wording instead of saying it: a rule that prescribes it, a sample.
INTRODUCES_WORDING = re.compile(
    r"\b(?:reads?|states?|stating|statements?|wordings?|words|phrases?|says|examples?|samples?|specimen|contains?|as\s+follows"
    r"|following)\b[^.\n]{0,100}[:,]?\s*(?:\n\s*)*[\"\u201c\u2018']?\s*$",
    re.IGNORECASE,
)
