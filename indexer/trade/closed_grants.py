"""What may stand beside words that grant: closed forms, in which every word is accounted for.

A grant with any other word after it in its sentence, or with any other sentence in its paragraph, is not
read as one: nobody can list all the ways in which a writer takes words back. Wordings: common practice, no
source.
"""

import re
from functools import cache

from indexer.trade import approval_vocabulary as words
from indexer.trade.chapter_tables import read_table
from indexer.trade.dates import find_dates

_DATE = r"<date>"
_NUMBER = r"(?-i:[A-Z0-9][A-Z0-9./-]*[0-9][A-Z0-9./-]*)"  # of a letter, a project, a model
_OFFICES = (
    r"(?:(?:[A-Z][a-z]+\s){1,3}(?:Aircraft\sCertification\s(?:Office|Branch)|ACO(?:\sBranch)?|FSDO)"
    r"|Small\sAirplane\s(?:Directorate|Standards\sBranch)|Rotorcraft\s(?:Directorate|Standards\sBranch)"
    r"|Transport\s(?:Airplane\sDirectorate|Standards\sBranch)|Engine\sand\sPropeller\s(?:Directorate|Standards\sBranch))"
)
_PRODUCTS = r"(?:airplanes?|aircraft|helicopters?|rotorcraft|engines?|propellers?)"
_PARAGRAPH = r"(?:paragraph|section)?\s?1\.?\s?A\.?(?:\([0-9]\))?"
# One after another, each at most once, in any order.
_TAIL_PARTS = (
    r"\s\(FAA\)",
    rf",?\s(?:on\s|dated?\s)?{_DATE}",
    rf"\sby\s(?:the\s)?(?:FAA\s)?letter\s(?:No\.\s)?{_NUMBER}(?:,?\sdated\s{_DATE})?",
    rf",?\sunder\s(?:FAA\s)?project\s(?:No\.\s|number\s)?{_NUMBER}",
    rf",\s(?-i:{_OFFICES})",
    r"\sin\s(?:accordance|compliance)\swith\s(?:title\s)?14\sCFR\s(?:parts?\s)?[0-9]{2}(?:\.[0-9]{1,4})?",
    r"\sfor\sthe\srepairs\s(?:it\s(?:describes|contains)|described\s(?:here)?in(?:\sit)?)",
    rf"\sfor\s(?:all\s)?(?:the\s)?{_PRODUCTS}\s(?:that\sare\s)?(?:listed|shown|identified)\sin\s{_PARAGRAPH}"
    r"(?:,?\s\(?Effectivity\)?)?(?:,?\s(?:of|in)\sthis\s(?:service\s)?bulletin)?",
    r"\sand\s(?:must|shall|may|can)\sbe\s(?:done|used|accomplished)\sas\s(?:written|printed)",
    r",?\sand\scompl(?:y|ies)\swith\s(?:the\s)?(?:(?:applicable|FAA)\s){0,2}"
    r"(?:type\sdesign|Federal\sAviation\sRegulations|airworthiness\srequirements)",
    r"\sdata",
)
_TAIL = re.compile(rf"(?:{'|'.join(_TAIL_PARTS)}){{0,3}}[.]?", re.IGNORECASE)
# Sentences that may follow in the paragraph: they tell the reader to do work, or how long the paper is.
_WORK_VERBS = (
    r"(?:adjust|align|apply|assemble|attach|bend|bolt|bond|brush|clean|close|connect|cut|deburr|degrease|disconnect"
    r"|drill|dry|fill|fit|form|grease|grind|install|lay|lubricate|measure|mount|open|paint|polish|prime|ream|record|reinstall|replace"
    r"|remove|rivet|route|safety|sand|seal|secure|shim|smooth|splice|tighten|torque|trim|turn|wash|weld|wipe)"
)
_ORDER = re.compile(rf"(?:{_WORK_VERBS}\b|do\snot\sexceed\b)", re.IGNORECASE)
_NO_THING = re.compile(
    rf"\b(?:{_WORK_VERBS}|check|inspect|examine|out|off|up|down|in|on|then|hand|new)[.]$", re.IGNORECASE
)
# "Clean the parts and lay them out": the pronoun stands for the thing the same sentence names.
_OWN_OBJECT = re.compile(
    rf"^({_WORK_VERBS}\s(?:the\s)?(?:parts?|bolts?|rivets?|nuts?|fasteners?)\sand\s{_WORK_VERBS})\sthem\b",
    re.IGNORECASE,
)
_DONE = re.compile(r"\b(?:is|are)\s(?=[a-z]+ed\b)", re.IGNORECASE)
_OTHER_HARMLESS = re.compile(
    r"keep\sa\scopy\swith\sthe\s(?:airplane|aircraft|maintenance)\srecords[.]"
    r"|repair\s[0-9]{1,3}\sis\sdone\sas\sfollows[.]"
    r"|it\shas\s[0-9]{1,4}\spages(?:\sand\sno\sindex)?[.]",
    re.IGNORECASE,
)
# Sentences that may stand before it.
_LEADS = re.compile(
    r"insert\sfacing\spage\s[0-9-]+[.]"
    r"|for\slimitations,\sprocedures,?\sand\sperformance(?:\sinformation)?(?:\sthat\s(?:is|are))?\snot"
    r"(?:\scontained)?\sin\sthis\ssupplement,?\s(?:use|consult|refer\sto)\sthe\s(?:basic\s)?"
    r"(?:airplane\s|rotorcraft\s)?flight\smanual[.]"
    rf"|(?:{words.APPROVAL_LABEL})?this\s{words.DOCUMENT}\s(?:was|has\sbeen)\s(?:examined|reviewed)\sby\s(?:the\s)?{words.FAA}"
    r"(?:\s\(FAA\))?[.]",
    re.IGNORECASE,
)
# Words about the paper, the print or the stamp itself, which work is not done with.
DOUBTS_PAPER = re.compile(
    r"\b(?:approv\w*|stamp\w*|cop(?:y|ies|ied)|facsimiles?|samples?|examples?|editions?|old\w*|origina\w*|retyped"
    r"|translat\w*|reprint\w*|reproduc\w*|photo\w*|pictures?|scan\w*|signatures?|seals?|blank|answers?|questions?"
    r"|quiz|imagin\w*|suppos\w*|previous|earlier|former\w*|next|above|foregoing|statements?|statuses|status|claims?"
    r"|errat\w*|label\w*|carried|so|dealers?|sellers?|sketch\w*|applies|legends?|captions?|excerpts?|extracts?"
    r"|says?|said|opinions?|mistakes?|errors?|recommend\w*|suggest\w*|advi[cs]\w*|digests?|summar\w*|joke\w*|propos\w*|provisional\w*|tentative\w*|interim|covered|later|since|outside|alone|added|newer"
    r"|(?:operator|owner|customer|vendor|installer)s?['\u2019]s?|boilerplate|text|wrong\w*|believe\w*)\b",
    re.IGNORECASE,
)
_MARK = re.compile(
    r"[\s\W]+|\b(?:no|of|and|the|for|to|rev|pg)\b\.?|^\(?[A-Z][.)]\s|\b[IVX]{2,5}\b"
    r"|\b(?:page|pages|pg|sheet)\.?\s(?:[A-Z]-?)?[0-9][0-9.-]*(?:\sof\s[0-9]+)?|\b[0-9]{1,3}(?:[.-][0-9]{1,3}){0,3}\b"
    r"|\b(?:revision|rev\.?|issue)\s(?:no\.\s)?(?:[A-Z]|[0-9]{1,3})\b",
    re.IGNORECASE,
)
# The paper's own number on its title page; a code without "No." may be another paper's, in a list.
_OWN_NUMBER = re.compile(
    r"(?:(?:document|manual|catalog|supplement)\sno\.\s|model\s)(?-i:[A-Z0-9][A-Z0-9-]*)", re.IGNORECASE
)
# Lines that publishers run along every page, about the paper and not about its standing.
# A copyright holder ends in a word for a company: any other name may be words about the paper.
_RUNNING_NOTICE = re.compile(
    r"fictitious\ssample\sof\san\sinvented\s[a-z]+\s-\snot\sfor\sflight|printed\sin\s(?:the\s)?(?:U\.?S\.?A\.?)"
    r"|(?:copyright\s(?:(?:\u00a9|\(c\))\s)?|(?:\u00a9|\(c\))\s)[0-9]{4}(?:[-,]\s?[0-9]{4})*,?\s(?:by\s)?"
    r"(?P<holder>(?-i:[A-Z][A-Za-z]+)(?:\s(?-i:[A-Z][A-Za-z]+)){0,2})"
    r"\s(?:aircraft|airplanes?|aviation|industries|corporation|corp|company|inc|llc|ltd)[.]?(?:\sall\srights\sreserved[.]?)?"
    r"|all\srights\sreserved[.]?|uncontrolled\s(?:when|if)\sprinted[.]?",
    re.IGNORECASE,
)
# What a limitations section says of itself, in the words of the rule (14 CFR part 23, A23.4).
_SECTION_CONTENT = re.compile(
    r"(?:\(?[0-9A-Za-z][.)]\s)?this\ssection\s(?:holds|contains|gives|sets\sforth)\s(?:all\s|each\s)?(?:of\s)?(?:the\s)?"
    r"mandatory\sreplacement\stimes?,\s(?:structural\s)?inspection\sintervals?,?\sand\s(?:the\s)?"
    r"(?:related\s)?(?:structural\s)?inspection\sprocedures?"
    r"(?:\sof\sthe\s(?-i:[A-Z0-9-]+)(?:\sand\s(?-i:[A-Z0-9-]+))?\s(?:airplanes?|helicopters?|engines?|propellers?))?[.]",
    re.IGNORECASE,
)
_NAMES_ROW = re.compile(
    r"(?:revision|rev\.?|issue)\s(?:no\.\s)?\w{1,3}|[0-9]{4,}(?:-[0-9]+)*[A-Z]?", re.IGNORECASE
)
_REPAIR_TITLE = re.compile(
    r"(?:typical\s)?(?:(?:repair|scheme)\s(?:no\.\s)?[A-Z]{0,2}-?[0-9]{1,3}[A-Z]?\b|repairs\sof\b)"
    r"[\s.:,-]*(?P<name>[A-Za-z\s,/-]{0,60})[.]?",
    re.IGNORECASE,
)
_SUBJECT = re.compile(r"subject:\s[A-Za-z/&'-]+(?:\s[A-Za-z/&'-]+){0,7}", re.IGNORECASE)


@cache
def _work_words() -> frozenset[str]:
    """Words of sentences that tell of work by hand and name no paper."""
    return frozenset(row["word"] for row in read_table("work_words.csv"))


@cache
def _heading_words() -> frozenset[str]:
    """Words of titles, headings and running lines that say nothing of an approval."""
    return frozenset(row["word"] for row in read_table("heading_words.csv") if row["where"] == "title")


@cache
def _repair_words() -> frozenset[str]:
    """Those words and the ones that a repair's title may hold besides ("Repair 5 - Frame Splice")."""
    return frozenset(row["word"] for row in read_table("heading_words.csv"))


def ends_whole(rest: str) -> bool:
    """Whether the rest of a sentence after the words that grant is of a closed form, or nothing."""
    for date in reversed(find_dates(rest)):
        rest = f"{rest[: date.start]}{_DATE}{rest[date.end :]}"
    return _TAIL.fullmatch(re.sub(r"\s+", " ", rest.rstrip())) is not None


def is_work(sentence: str) -> bool:
    """Whether a sentence only tells of work by hand, in words that are all known to speak of that."""
    said = _OWN_OBJECT.sub(r"\1", re.sub(r"\s+", " ", sentence.strip()))
    if _OTHER_HARMLESS.fullmatch(said):
        return True
    if not said.endswith(".") or not (_ORDER.match(said) or _DONE.search(said)):
        return False
    told = re.findall(r"[^\W_]+(?:-[^\W_]+)*", _DONE.sub(" ", re.sub(r"(?i)^do not exceed ", "", said[:-1])))
    known = all(word.lower() in _work_words() or word.isdigit() for word in told)
    return known and len(told) > 1 and not _NO_THING.search(said) and bool(re.fullmatch(r"[\w\s,.-]+", said))


def may_lead(sentence: str) -> bool:
    """Whether a sentence may stand before a grant in its paragraph."""
    return is_work(sentence) or _LEADS.fullmatch(re.sub(r"\s+", " ", sentence.strip())) is not None


def is_running_notice(line: str) -> bool:
    """Whether a line is a publisher's notice of the kind that runs along every page."""
    notice = _RUNNING_NOTICE.fullmatch(line.strip())
    holder = notice["holder"] or "" if notice else ""
    return notice is not None and not words.takes_back(holder) and not DOUBTS_PAPER.search(holder)


def is_section_content(sentence: str) -> bool:
    """Whether a sentence only says what a limitations section holds."""
    return _SECTION_CONTENT.fullmatch(re.sub(r"\s+", " ", sentence.strip())) is not None


def is_neutral(line: str) -> bool:
    """Whether every word of a line is a page mark, number, date or known word of titles and headings."""
    if is_running_notice(line):
        return True
    for date in reversed(find_dates(line)):
        line = f"{line[: date.start]} {line[date.end :]}"
    line = _OWN_NUMBER.sub(" ", line)
    title = is_repair_title(line)
    known = _repair_words() if title else _heading_words()
    left = _MARK.sub(" ", title["name"] if title else line)
    return all(word in known for word in left.lower().split())


def names_row(line: str) -> bool:
    """Whether a line is a revision or a drawing's number alone: a row of a list of what is approved."""
    return _NAMES_ROW.fullmatch(line.strip()) is not None


def is_repair_title(line: str) -> re.Match | None:
    """ "Repair 5 - Frame Splice", with the words after its number as "name"."""
    return _REPAIR_TITLE.fullmatch(line.strip())


def is_subject_line(line: str) -> bool:
    """Whether a line names the subject of a bulletin or letter, and takes nothing back."""
    if not _SUBJECT.fullmatch(line.strip()):
        return False
    named = line.strip().partition(":")[2]
    return not words.takes_back(named) and not DOUBTS_PAPER.search(named)
