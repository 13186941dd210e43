"""What a directive says of other documents: required, incorporated, credit, mentioned, superseded.

Only words of a rule in force may require or incorporate. A proposal's, and another authority's, are mentions.
"""

import datetime
import re
from collections.abc import Iterable, Iterator
from dataclasses import replace

from indexer.tagging.cited_documents import CitedDocument, find_cited_documents
from indexer.tagging.directive_layout import Paragraph
from indexer.tagging.directive_material import row_of_table, unnumbered_material
from indexer.tagging.directive_orders import only_mentions, orders_by, without_unless_done
from indexer.tagging.directive_reading import DirectiveReading
from indexer.tagging.directive_replaced import DIRECTIVE_NUMBER
from indexer.tagging.tags import Claim, ClaimKind
from indexer.trade.dates import find_dates
from indexer.trade.directive_numbers import normalised_directive
from indexer.trade.evidence import Evidence
from indexer.trade.publication_types import PublicationType

_ABBREVIATED = re.compile(r"\b(?:No|Nos|Rev|Fig|Inc|Ltd|Co|St|Dept|U\.S|P\.O|para|pars|Mr|Ms|approx)\.$")
# Work done in time with an earlier document counts.
_CREDITS = re.compile(
    r"\b(?:acceptable\s+for\s+compliance|considered\s+(?:acceptable|to\s+be\s+in\s+compliance)"
    r"|provides?\s+credit|(?:is|are)\s+given\s+credit"
    r"|credit\s+(?:is|will\s+be)\s+(?:given|allowed)|acceptable\s+means\s+of\s+compliance"
    r"|meets?\s+the\s+requirements)\b",
    re.IGNORECASE,
)
_BOUND = re.compile(
    r"\b(?:before|prior\s+to)\s+(?:(?P<own>the\s+effective\s+date\s+of\s+this\s+(?:AD|amendment))|"
    r"(?-i:(?=[A-Z\d])))",
    re.IGNORECASE,
)
_DAY_OF = re.compile(r"\beffective\s+date\s+of\s+$", re.IGNORECASE)  # "the effective date of AD 2030-02-09"
_TAKES_OUT = re.compile(
    r"\bno longer\b|\bremoved\b|\bnot (?:incorporated|required)\b|\bwithdrawn\b", re.IGNORECASE
)
_LATER_ALLOWED = re.compile(
    r"\bor (?:later|subsequent)(?:[- ](?:(?:FAA|DGAC|EASA)[- ])?approved)?\s+(?:revision|version|issue)",
    re.IGNORECASE,
)
_DIRECTIVE_NUMBER = re.compile(rf"(?<![\w-])({DIRECTIVE_NUMBER})")
# In the older form, by the preamble's sentence; a second one tells of what was approved before. Both are in
# the rule.
_OLD_INCORPORATION = re.compile(
    r"incorporation by reference of\b.{10,1500}?\b(?:is|was|were)\s+(?:previously\s+)?approved"
    r"(?:\s+previously)?\s+by the Director",
    re.IGNORECASE,
)
# In a list of incorporated material: where to get it.
_WHERE_TO_GET = re.compile(
    r"^\s*\(\d+\)\s*(?:For\b[^.]*\bcontact\b|You (?:may|can) (?:view|find|get|obtain|review))"
    r"|\bCopies\s+may\s+be\b",
    re.IGNORECASE,
)
_ITEM_LIST = re.compile(r"in accordance with[^.]{0,200}paragraphs? \([a-z]{1,2}\)\(1\)", re.IGNORECASE)

_MENTIONED_HEADINGS = (
    "applicability", "subject", "reason", "unsafe condition", "related information", "additional information",
    "effective date", "comments due date", "parts installation", "special flight permit", "no reporting",
    "exception", "definition", "note",
)  # fmt: skip


def directive_claims(reading: DirectiveReading) -> tuple[Claim, ...]:
    """Every claim of the directive, strongest first; each level names a document at a revision once.

    Of what is no rule in force all are mentions, but for what a withdrawal takes out of force.
    """
    claims = stated_claims(reading)
    if reading.adopted is None:
        claims = (*_of_its_own_directive(reading), *claims)
        gone = {tag.value for tag in reading.facts.withdraws}
        claims = tuple(
            each if each.kind is ClaimKind.SUPERSEDES and each.document in gone else _as_mention(each)
            for each in claims
        )
    return _each_once(claims)


def _of_its_own_directive(reading: DirectiveReading) -> Iterator[Claim]:
    """A correction, or a paper that puts a directive off, bears the directive's number and speaks of it."""
    facts, action = reading.facts, reading.action
    if facts.number and action and (facts.correction or facts.put_off):
        kind = PublicationType.AIRWORTHINESS_DIRECTIVE
        yield Claim(ClaimKind.MENTIONS, facts.number.value, action.evidence, kind)


def stated_claims(reading: DirectiveReading) -> tuple[Claim, ...]:
    """The claims at the levels its words give them, whether the paper is in force, proposed or foreign."""
    return _each_once([*_superseded(reading), *_of_paragraphs(reading), *_of_preamble(reading)])


def _each_once(claims: Iterable[Claim]) -> tuple[Claim, ...]:
    order = list(ClaimKind)
    seen: dict[tuple, Claim] = {}
    for claim in sorted(claims, key=lambda each: order.index(each.kind)):
        seen.setdefault((claim.kind, claim.document, claim.revision, claim.date), claim)
    return tuple(claim for claim in seen.values() if not _said_better(claim, seen.values()))


def _said_better(claim: Claim, claims: Iterable[Claim]) -> bool:
    """Whether a mention only repeats what another claim says of the same document, with as much or more
    detail."""
    bare = not claim.revision and claim.date is None
    if bare and not claim.paragraphs and claim.kind is not ClaimKind.MENTIONS:
        # "AD 2024-0237, dated December 3, 2024 (AD 2024-0237)": the short name that the sentence gives it.
        return any(
            other.kind is claim.kind and other.document == claim.document and other is not claim
            and (claim.kind is ClaimKind.INCORPORATES or other.evidence.quote == claim.evidence.quote)
            for other in claims
        )  # fmt: skip
    if claim.kind is not ClaimKind.MENTIONS:
        return False
    return any(
        other.document == claim.document
        and other is not claim
        and (bare or (other.revision, other.date) == (claim.revision, claim.date))
        for other in claims
    )


def _as_mention(claim: Claim) -> Claim:
    return replace(claim, kind=ClaimKind.MENTIONS, later_allowed=False, before=None)


def _superseded(reading: DirectiveReading) -> Iterator[Claim]:
    """What it replaces or withdraws; other directives of "(b) Affected ADs" are mentions."""
    kind = PublicationType.AIRWORTHINESS_DIRECTIVE
    replaced = (*reading.facts.replaces, *reading.facts.withdraws)
    for tag in replaced:
        yield Claim(ClaimKind.SUPERSEDES, tag.value, tag.evidence, kind)
    flow, known = reading.flow, {tag.value for tag in (reading.facts.number, *replaced) if tag}
    for paragraph in reading.paragraphs:
        if not paragraph.heading.casefold().startswith("affected"):
            continue
        for first, last in _sentences(flow.plain, paragraph.start, paragraph.end):
            for found in _DIRECTIVE_NUMBER.finditer(flow.plain, first, last):
                number = found.group(1).replace("- ", "-")
                if normalised_directive(number) not in known and number not in known:
                    evidence = flow.evidence(first, last, "directive affected directives paragraph")
                    yield Claim(ClaimKind.MENTIONS, number, evidence, kind)


def _of_paragraphs(reading: DirectiveReading) -> Iterator[Claim]:
    for paragraph in reading.paragraphs:
        heading = paragraph.heading.lower()
        if heading.startswith("affected"):
            continue
        takes_out = heading.startswith("material") and _TAKES_OUT.search(
            reading.flow.plain, paragraph.start, paragraph.end
        )
        lists_items = bool(_ITEM_LIST.search(reading.flow.plain, paragraph.start, paragraph.end))
        for first, last in _sentences(reading.flow.plain, paragraph.start, paragraph.end):
            claims = list(_of_sentence(reading, paragraph, first, last, lists_items))
            if not claims and heading.startswith("material") and not takes_out:
                claims = list(unnumbered_material(reading.flow, first, last))
            yield from map(_as_mention, claims) if takes_out else claims


def _of_sentence(
    reading: DirectiveReading, paragraph: Paragraph, first: int, last: int, lists_items: bool
) -> Iterator[Claim]:
    flow = reading.flow
    sentence = flow.plain[first:last]
    heading = paragraph.heading.lower()
    if _is_list_of_material(heading) and _WHERE_TO_GET.search(sentence):
        return
    for cited in find_cited_documents(sentence):
        if _is_own_kind_of_text(reading, cited):
            continue
        if _is_list_of_material(heading):
            place = first + cited.end
            cited = row_of_table(cited, flow.plain[place : min(place + 60, paragraph.end)])
        kinds = [_level(heading, sentence, cited, lists_items)]
        if heading.startswith("incorporation by reference"):
            kinds = [ClaimKind.INCORPORATES, *(kind for kind in kinds if kind is ClaimKind.REQUIRES)]
        for kind in kinds:
            letter = f"({paragraph.letter}) " if paragraph.letter else ""
            evidence = flow.evidence(first, last, f"directive paragraph {letter}{kind}")
            before = (
                _bound(reading, paragraph, first + cited.start, last) if kind is ClaimKind.CREDITS else None
            )
            yield _claim(kind, cited, evidence, bool(_LATER_ALLOWED.search(sentence, cited.end)), before)


def _is_list_of_material(heading: str) -> bool:
    return heading.startswith(("material incorporated", "incorporation by reference"))


def _bound(reading: DirectiveReading, paragraph: Paragraph, place: int, end: int) -> datetime.date | None:
    """The day before which work must have been done to count: by the last words before the document's name
    that say so, else by those after it in its sentence."""
    plain = reading.flow.plain
    said = [
        *reversed(list(_BOUND.finditer(plain, paragraph.start, place))),
        *_BOUND.finditer(plain, place, end),
    ]
    for bound in said:
        if bound["own"]:
            return reading.facts.effective.value if reading.facts.effective else None
        dates = find_dates(plain[bound.end() : bound.end() + 30])
        if dates and dates[0].start == 0:
            return dates[0].date
    return None


def _level(heading: str, sentence: str, cited: CitedDocument, lists_items: bool) -> ClaimKind:
    if _DAY_OF.search(sentence[: cited.start]):
        return ClaimKind.MENTIONS
    if heading.startswith("credit") or re.search(r"\b(?:previous|prior|earlier)\b", heading):
        return ClaimKind.CREDITS
    if "optional" in heading:
        return ClaimKind.MENTIONS
    if heading.startswith("material incorporated"):
        return ClaimKind.INCORPORATES
    if "alternative method" in heading or "amoc" in sentence.lower():
        return ClaimKind.ALTERNATIVE
    if any(heading.startswith(name) for name in _MENTIONED_HEADINGS):
        return ClaimKind.MENTIONS
    ordered = without_unless_done(sentence)
    if _CREDITS.search(ordered) and _BOUND.search(ordered):
        return ClaimKind.CREDITS
    if only_mentions(ordered):
        return ClaimKind.MENTIONS
    item = lists_items and re.match(r"\s*\(\d+\)", sentence)
    return ClaimKind.REQUIRES if item or orders_by(sentence[: cited.start]) else ClaimKind.MENTIONS


def _of_preamble(reading: DirectiveReading) -> Iterator[Claim]:
    """Mentions; in the older form also the sentence by which the register incorporates material."""
    flow = reading.flow
    end = reading.paragraphs[0].opening if reading.paragraphs else reading.end
    own_list = any(each.heading.lower().startswith("material") for each in reading.paragraphs)
    incorporated = [
        (reading.start + found.start(), reading.start + found.end())
        for found in _OLD_INCORPORATION.finditer(flow.plain[reading.start : end])
        if not own_list  # then the preamble tells of an earlier directive's
    ]
    for first, last in _sentences(flow.plain, reading.start, end):
        for cited in find_cited_documents(flow.plain[first:last]):
            if _is_own_kind_of_text(reading, cited):
                continue
            within = any(start <= first + cited.start < stop for start, stop in incorporated)
            kind = ClaimKind.INCORPORATES if within else ClaimKind.MENTIONS
            yield _claim(kind, cited, flow.evidence(first, last, f"directive preamble {kind}"), False)


def _is_own_kind_of_text(reading: DirectiveReading, cited: CitedDocument) -> bool:
    """True for the directive's own number, and for circulars and rules that are not work documents."""
    own = reading.facts.number.value if reading.facts.number else None
    return cited.number == own or cited.type is PublicationType.ADVISORY_CIRCULAR


def _claim(
    kind: ClaimKind,
    cited: CitedDocument,
    evidence: Evidence,
    later_allowed: bool,
    before: datetime.date | None = None,
) -> Claim:
    return Claim(
        kind=kind,
        document=cited.number,
        evidence=evidence,
        type=cited.type,
        revision=cited.revision,
        date=cited.date,
        paragraphs=cited.paragraphs,
        later_allowed=later_allowed,
        before=before,
    )


def _sentences(text: str, start: int, end: int) -> Iterator[tuple[int, int]]:
    """Sentences and numbered items of text[start:end] as places in the text."""
    first = start
    for stop in re.finditer(r"[.;:]\s+(?=[A-Z(\"])", text[start:end]):
        place = start + stop.start() + 1
        if _ABBREVIATED.search(text[max(first, place - 12) : place]) or _inside_reference(text, place):
            continue
        if text[place - 1] == ":" and not re.match(r"\s+\(\d+\)", text[place:]):
            continue
        yield first, place
        first = start + stop.end()
    if text[first:end].strip():
        yield first, end


def _inside_reference(text: str, place: int) -> bool:
    """True after "paragraph 2." of "paragraph 2. (1)": not the end of a sentence."""
    return bool(re.search(r"\bparagraphs?\s+\d\.$", text[max(0, place - 16) : place]))
