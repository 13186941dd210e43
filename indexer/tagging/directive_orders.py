"""Whether a directive's sentence orders work by a document it names, or only speaks of the document.

Wordings: common practice, no source. In doubt it only speaks of it.
"""

import re

_REQUIRES = re.compile(
    r"in accordance with|as (?:specified|described|defined|given|outlined|set forth|prescribed|contained) in"
    r"|specified in|by following|by doing|according to"
    # "Following accomplishment of" a bulletin is a time, not an order.
    r"|(?<!the )\bfollowing (?=(?:the )?(?:instructions|procedures?|steps|accomplishment instructions)\b"
    r"|(?:(?-i:[A-Z])[\w.&',-]*\s*){0,8}$)"
    r"|comply with"
    r"|by (?:accomplishing|incorporating)|\b(?:using|per)\b"
    r"|\b(?:do|accomplish|perform|complete)\b(?=[^.;,]*\b(?:paragraphs?|parts?|steps?|sections?)\s+[\dIVX])",
    re.IGNORECASE,
)
# Beside the document's name: it informs, permits, prohibits or makes an exception, and requires nothing.
_ONLY_MENTIONS = re.compile(
    r"guidance|can be found in|may be found in|refer to|additional (?:source|information)"
    r"|for (?:more )?information"
    r"|related information|also covers|(?:does|do|is|are|need) not\b|must not|may not|cannot|no person"
    r"|except where"
    r"|^\s*(?:\(\d+\)\s*)?(?:where|although|note)\b|prohibit|\boptional|was prompted|for reference"
    r"|\bmay be\b|permitted"
    r"|acceptable|in lieu of|instead of|as an alternative|before the effective date|previously"
    r"|\bexempt\w*|\bconstitutes?\b|\beliminates?\b|\brelieves?\b|\bno longer\b|\bdiscontinue\w*"
    r"|terminat\w+ action|\bterminates?\b|\bcredit\b|\bif you (?:did|have|already)\b|\bmeets?\b",
    re.IGNORECASE,
)
# "Within 50 hours, unless accomplished previously": a condition of every order, and no word of done work.
_UNLESS_DONE = re.compile(
    r",?\s*\bunless\s+(?:(?:already|previously)\s+)?(?:accomplished|done|performed|completed)(?:\s+"
    r"(?:already|previously))?\b"
    r"(?:\s+within\s+the\s+last\s+[^,.;]{1,60})?\s*(?=[,.;:])",
    re.IGNORECASE,
)
# Just before "in accordance with": work done already, or a condition that the work meets.
_ALREADY_DONE = re.compile(
    r"\b(?:has|have|had|having)\s+(?:\w+ly\s+)?(?:been\b|\w+ed\b|done\b)|\b(?:was|were|is|are)\s+"
    r"(?:\w+ly\s+)?(?:\w+ed|done)\b"
    r"|\b(?:if|when|unless|until|on which|that)\b[^,]*\b(?:\w+ed|done)\s*$",
    re.IGNORECASE,
)
# "Modified using", "installed per": done work is described, unless it "must be done".
_DESCRIBES_DONE = re.compile(r"(?<!\bbe )(?<!\bbeing )\b(?:\w+ed|made|done|built)\s*$", re.IGNORECASE)
# A clause that is a condition or a time orders nothing: "If the work per Service Bulletin 5 fails, ...".
_CONDITION = re.compile(
    r"\s*(?:\(\w+\)\s*)*(?:if|when|whenever|unless|until|after|upon|once|where|whether)\b", re.IGNORECASE
)
# "Specified in" orders only actions; times, parts, forms and addresses are merely found there.
_FOUND_IN = re.compile(r"(?:specified|described|defined|given) in", re.IGNORECASE)
_ACTIONS = re.compile(
    r"\b(?:actions?|inspections?|procedures?|instructions?|steps?|tests?|replacements?|modifications?"
    r"|repairs?"
    r"|methods?|tasks?|requirements?)(?: as| that (?:is|are))?\s*$",
    re.IGNORECASE,
)
_ONLY_CONTACT = re.compile(
    r"\b(?:contact|report|send|submit|address|times?|intervals?|thresholds?)\b[^,;]*,?\s*$", re.IGNORECASE
)
# Between the words that order and the document's name: another method or clause comes first.
_PARTED = re.compile(r";|\bmethods?\b", re.IGNORECASE)
# "in accordance with Service Bulletin 1, dated ...; and Service Bulletin 2": one list.
_AND_ANOTHER = re.compile(r";\s+and\s+(?=[A-Z])")


def without_unless_done(sentence: str) -> str:
    """The sentence without the condition that stands in every order."""
    return _UNLESS_DONE.sub("", sentence)


def only_mentions(sentence: str) -> bool:
    """Whether the whole sentence informs, permits, prohibits or makes an exception."""
    return _ONLY_MENTIONS.search(sentence) is not None


def orders_by(before: str) -> bool:
    """Whether the words before a document's name order work by it: "replace ... in accordance with Part 2
    of"."""
    before = _AND_ANOTHER.sub(", and ", before)
    phrases = list(_REQUIRES.finditer(before))
    if not phrases or len(before) - phrases[-1].end() > 200:
        return False
    lead, order = before[: phrases[-1].start()], phrases[-1]
    if _PARTED.search(before, order.end()) or _DESCRIBES_DONE.search(lead) or _ONLY_CONTACT.search(lead):
        return False
    if _FOUND_IN.fullmatch(order[0]) and not _ACTIONS.search(lead):
        return False
    clauses = [clause for clause in re.split(r"[,:;]", lead) if clause.strip()]
    if not clauses:
        return True
    return not (_ALREADY_DONE.search(clauses[-1]) or _CONDITION.match(clauses[-1]))
