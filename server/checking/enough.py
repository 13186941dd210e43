"""Whether a source is enough for a class of work. Three answers; YES only with quoted words of digital text.

Minor work and inspections: acceptable data (14 CFR 43.13(a)). Major work: approved technical data (14 CFR
65.95(a)(1), 145.201(c)(2)). A directive: what it requires, at the revision it names (14 CFR 39.27). Where the
trade disagrees no bare "no" is given: both positions stand in the notes, and whom to ask. Pure.
"""

from indexer.library.records import ReferenceState
from indexer.library.register_records import CurrencyState
from indexer.library.works import BULLETINS
from indexer.tagging.standing_scope import BULLETIN_CONDITION, LIMITATIONS_CONDITION, SRM_CONDITION
from indexer.tagging.tags import ClaimKind, StandingValue
from indexer.trade.applies import Applies
from indexer.trade.circular_conditions import circular_conditions
from indexer.trade.disputed import disputed_for_major_work
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.publication_types import type_row
from server.checking.answer_facts import (
    RULES_ONLY,
    Facts,
    blocked,
    cannot_tell,
    conditions_of,
    denied,
    no,
    not_known_to_apply,
    quoted,
    reached,
    said_not_used,
)
from server.checking.enough_directive import for_directive
from server.checking.entry_words import (
    outside_limits,
    pressurized_area,
    recommends_approval,
    says_repaired_before,
    speaks_of_life_limit,
)
from server.checking.findings import DirectiveFinding, Enough
from server.checking.standing_found import PART_APPROVAL

MINOR, MAJOR, DIRECTIVE, INSPECTION = "minor", "major", "directive", "inspection"
CLASSES = (MINOR, MAJOR, DIRECTIVE, INSPECTION)

_APPROVED, _ACCEPTABLE = StandingValue.APPROVED.value, StandingValue.ACCEPTABLE.value
_NO_PROCEDURE = {
    Type.PARTS_CATALOG: "It tells which part is meant and gives no procedure; it settles no eligibility.",
    Type.FLIGHT_MANUAL: "It holds limits and procedures for flight, no data for this work.",
    Type.FLIGHT_MANUAL_SUPPLEMENT: "It holds limits and procedures for flight, no data for this work.",
    Type.TYPE_CERTIFICATE_DATA_SHEET: "It holds limits of the type design and gives no procedure.",
    Type.MINIMUM_EQUIPMENT_LIST: "It permits dispatch and is no data for a repair (14 CFR 91.213).",
    Type.SUPPLEMENTAL_TYPE_CERTIFICATE: "The certificate names its data: cite the drawing or instruction "
    "used, with the holder's permission (49 USC 44704(b)(3)).",
}
# Conditions that say how far the words reach, for the place, the revision and the product that the finding
# names. Any other leaves open what only a person can find.
_SCOPE_WORDS = (
    "For the products and conditions ",
    "Listed on the approval page: ",
    "In force from ",
    "Only for the aircraft that ",
)
_ONLY_SCOPE = (SRM_CONDITION, LIMITATIONS_CONDITION, BULLETIN_CONDITION, *_SCOPE_WORDS)
_PAPERS_OF_ONE_AIRCRAFT = {
    Type.ENGINEERING_APPROVAL: "The form approves only where it says «approves», for the data and the "
    "aircraft it lists; «recommends approval» approves nothing (FAA Order 8110.37F).",
    Type.REPAIR_ALTERATION_RECORD: "A record is no approval: approved is only what stands over a signed "
    "item 3, for that one aircraft, or the data that item 8 cites.",
    Type.AMOC_LETTER: "An alternative method holds only for the directive, aircraft and holder the "
    "letter names (14 CFR 39.19).",
}


def enough(facts: Facts, work: str) -> Enough:
    """The answer for one class of work."""
    if work == DIRECTIVE:
        return for_directive(facts)
    if work == INSPECTION and facts.kind is Type.REGULATION:
        return cannot_tell(
            "A rule says what an inspection must cover (14 CFR 43.15(c) and part 43 Appendix D) and not how: "
            "name the checklist, manual or program that was used."
        )
    decided = _against(facts)
    if decided is not None:
        return decided
    return _for_major(facts) if work == MAJOR else _for_minor(facts, work)


def _against(facts: Facts) -> Enough | None:
    """What decides for every class of work but a directive's, the surest first; None = nothing."""
    standing, kind = facts.standing, facts.kind
    if standing.value == StandingValue.BLOCKED.value:
        return no(blocked(standing))
    if standing.value == PART_APPROVAL:
        return no(" ".join(standing.conditions))
    if kind in RULES_ONLY:
        return no(f"{kind.label}: {type_row(kind).standing_note or 'information, no data for work'}.")
    if kind is Type.ENGINEERING_APPROVAL and (said := recommends_approval(standing.quote, facts.said)):
        return no(f"«{said}» is no approval (FAA Order 8110.37F): the form approves only where it says so.")
    if kind in _PAPERS_OF_ONE_AIRCRAFT and facts.publication is None:
        return cannot_tell(f"{facts.reason} {_PAPERS_OF_ONE_AIRCRAFT[kind]}")
    circular = circular_conditions(facts.number)
    if circular is not None and (said := pressurized_area(facts.said)):
        return no(f"Outside the circular: the entry speaks of a «{said}» area. {circular.limits[0]}")
    if facts.publication is None:
        return cannot_tell(facts.reason) if circular is None else None
    if facts.applies.answer is Applies.DOES_NOT_APPLY:
        return no(f"It does not apply to {facts.aircraft or 'this aircraft'}: {facts.applies.why}")
    if facts.too_early:
        return cannot_tell(facts.too_early)
    if facts.not_used:
        return cannot_tell(said_not_used(facts))
    if facts.other_number:
        return cannot_tell(f"{facts.other_number} Cannot tell whether that is the one meant.")
    if facts.place is not ReferenceState.RESOLVED:
        return cannot_tell(facts.reason)
    if facts.current.state is CurrencyState.SUPERSEDED and not reached(facts):
        if named := _may_be_reached(facts):
            return cannot_tell(f"Not current: {facts.current.why} But {named.number}: {named.note}")
        history = "It is history" if kind is Type.AIRWORTHINESS_DIRECTIVE else "Do not cite it"
        if facts.changed.alone:
            changes = " and ".join(facts.changed.alone)
            return no(
                f"Not by itself: this page is changed by {changes}, which the entry does not cite. Read and "
                f"cite both. {facts.current.why}"
            )
        return no(
            f"Not current: {facts.current.why} {history}: work needs data that is current when it is done "
            "(14 CFR 43.13(a), 145.109(d)). That alone does not make the work wrong."
        )
    if kind is Type.AIRWORTHINESS_DIRECTIVE and not reached(facts):
        return cannot_tell("The directive is not shown to be in force on the day of the work.")
    if standing.value == StandingValue.INFORMATION.value and circular is None:
        return no(f"Information only{quoted(standing)}. It is no data for the work.")
    if (limited := _of_a_limit(facts)) is not None:
        return limited
    if not facts.complete:
        return cannot_tell("The reference is incomplete: it names no place in the document.")
    if facts.only_by_kind:
        return cannot_tell(
            "The words do not say whose document is meant: only one held here fits. Name maker or model, or "
            "choose the aircraft."
        )
    if facts.contradicted:
        return cannot_tell(facts.contradicted[0])
    if (beyond := _beyond_its_limits(facts)) is not None:
        return beyond
    return None if circular is not None or kind in _PAPERS_OF_ONE_AIRCRAFT else not_known_to_apply(facts)


def _of_a_limit(facts: Facts) -> Enough | None:
    """A bulletin beside words of a life limit: it changes no airworthiness limitation, whatever it says."""
    if facts.kind not in BULLETINS:
        return None
    stated = speaks_of_life_limit(facts.entry, facts.said) or facts.stretched
    if not stated and facts.limit is None:
        return None
    who = "bulletin" if stated and stated == facts.stretched else "entry"
    words = f"The {who} speaks of «{stated}»." if stated else ""
    if facts.limit is not None and (facts.limit.quote or not words):
        words = f"{words} {facts.limit.words}".strip() if who == "bulletin" else facts.limit.words
    words = (
        f"{words} An airworthiness limitation is changed only by its own revision or by an alternative the "
        "FAA has approved (14 CFR 43.16, 91.403(c)): a bulletin does not override it"
    )
    if stated and facts.standing.value != _APPROVED:
        return no(f"{words}.")
    return cannot_tell(f"{words}, unless that is what was approved. Ask.")


def _beyond_its_limits(facts: Facts) -> Enough | None:
    """What the entry says of the structure that a repair manual does not cover."""
    if facts.kind is not Type.STRUCTURAL_REPAIR_MANUAL:
        return None
    if said := says_repaired_before(facts.said):
        return cannot_tell(
            f"The entry says «{said}». Limits of a repair manual do not cover structure that was repaired "
            "before: ask the holder of the type certificate, or for engineering data approved for it."
        )
    if said := outside_limits(facts.said):
        return cannot_tell(
            f"The entry says «{said}»: what a repair manual gives ends at the limits it prints. Ask the "
            "holder of the type certificate, or for engineering data approved for it."
        )
    return None


def _for_minor(facts: Facts, work: str) -> Enough:
    standing, kind = facts.standing, facts.kind
    circular = circular_conditions(facts.number)
    if circular is not None:
        return cannot_tell(
            f"{circular.minor} {' '.join(circular.limits)} Whether that is so, the user finds."
        )
    if kind in _NO_PROCEDURE:
        return cannot_tell(_NO_PROCEDURE[kind])
    if kind in _PAPERS_OF_ONE_AIRCRAFT and not facts.aircraft:
        return cannot_tell(_PAPERS_OF_ONE_AIRCRAFT[kind])
    if standing.value == _APPROVED and standing.shown:
        return Enough(
            Answer.YES,
            f"Approved data{conditions_of(facts)}{quoted(standing)}. {_check_first(facts)}".strip(),
        )
    if standing.value == _ACCEPTABLE and standing.shown:
        return Enough(
            Answer.YES,
            f"Acceptable data{conditions_of(facts)}{quoted(standing)}; {work} work needs no more "
            f"(14 CFR 43.13(a)). {denied(facts)} {_check_first(facts)}".strip(),
        )
    if standing.quote:
        return cannot_tell(f"The words printed do not settle it{quoted(standing)}.")
    if standing.read_by_ocr:
        return cannot_tell("The place was read by OCR, which proves nothing: read the page itself.")
    label = kind.label if kind else "A document whose kind is not known"
    return cannot_tell(f"{label}: nothing printed on it shows that it is acceptable data.")


def _for_major(facts: Facts) -> Enough:
    standing, kind = facts.standing, facts.kind
    circular = circular_conditions(facts.number)
    if circular is not None:
        return cannot_tell(" ".join(circular.conditions))
    if kind in _NO_PROCEDURE:
        return cannot_tell(_NO_PROCEDURE[kind])
    if standing.value != _APPROVED or not standing.shown:
        return _not_shown(facts)
    if standing.entered:
        return cannot_tell(f"Approved only by the shop's own entry{quoted(standing)}.")
    if facts.current.state is CurrencyState.SUPERSEDED:
        return cannot_tell(
            f"A directive in force names this revision, and for its actions it is approved data. For "
            f"anything "
            f"else it is superseded: {facts.current.why}"
        )
    if standing.source and not (reached(facts) and facts.aircraft):
        lacks = (
            "which is not shown to reach it" if facts.aircraft else "for the aircraft that reaches: choose it"
        )
        return cannot_tell(f"Approved only through {standing.source}, {lacks}{quoted(standing)}.")
    if not facts.revision_named:
        return cannot_tell(
            f"The reference does not say which revision was used. The one held here says{quoted(standing)}."
        )
    doubts = [each for each in standing.conditions if not each.startswith(_ONLY_SCOPE)]
    if doubts:
        return cannot_tell(f"Approved{quoted(standing)}, but: {' '.join(doubts)}")
    return Enough(
        Answer.YES,
        " ".join(
            (
                f"Approved data{conditions_of(facts)}{quoted(standing)}, "
                f"scope: {standing.scope or 'the place quoted'}.",
                *standing.conditions,
                _check_first(facts),
            )
        ).strip(),
    )


def _not_shown(facts: Facts) -> Enough:
    """Not shown as approved. Where that is disputed, or a person must look, no "no" is given."""
    kind, standing = facts.kind, facts.standing
    if kind in _PAPERS_OF_ONE_AIRCRAFT:
        return cannot_tell(_PAPERS_OF_ONE_AIRCRAFT[kind])
    usually = "; its type is usually approved, not shown here" if standing.usual == _APPROVED else ""
    words = f"Not shown as approved data{usually}."
    if facts.denial is not None:
        words = f"Not shown as approved data. {denied(facts)}"
    if standing.quote and standing.value == StandingValue.UNDETERMINED.value:
        words = f"{words} The words printed do not settle it{quoted(standing)}."
    if disputed_for_major_work(kind):
        words = f"{words} Whether it is enough is disputed: both positions stand in the notes."
    return cannot_tell(f"{words} {' '.join(standing.conditions)}".strip())


def _may_be_reached(facts: Facts) -> DirectiveFinding | None:
    """A directive that may require this very revision; None = none."""
    levels = (ClaimKind.REQUIRES, ClaimKind.INCORPORATES)
    unsure = (
        each for each in facts.directives if each.level in levels and each.reaches is Answer.CANNOT_TELL
    )
    return next(unsure, None)


def _check_first(facts: Facts) -> str:
    """What must still be looked up before it is used."""
    if facts.current.state is CurrencyState.CURRENT:
        return ""
    return f"Check the revision first: {facts.current.why}"
