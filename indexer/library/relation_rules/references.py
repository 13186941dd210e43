"""Where each reference of a passage leads among the publications held here.

A place in the same paper is looked for there; a bare chapter number in the same work, else in the maintenance
manual of the same maker and models; a type word chooses that type. Where several fit, all are given and none
is chosen. Common practice, no source, where no other is named.
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from indexer.library.records import ReferenceState
from indexer.library.relation_rules.cited_dates import cited_days, is_of_day
from indexer.library.relation_rules.held import Held, Shelf
from indexer.library.relation_rules.places import Inside
from indexer.library.relation_rules.reference_places import Found, Source, place_in
from indexer.library.relation_rules.reference_targets import Targets
from indexer.library.works import DIRECTIVES
from indexer.tagging.tags import Citation, CitationKind
from indexer.trade.chapters import Scheme
from indexer.trade.dates import date_words
from indexer.trade.evidence import Answer
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.revisions import same_revision

NO_PAPER = "No document with this number is held here."
NO_MANUAL = "No manual for this product that could be meant is held here."
NO_RULES = "The text of this rule is not held here."
SEVERAL = "Several documents held here fit, and the words do not say which."
NEITHER = "The paper prints neither maker nor model, so it cannot be told whose manual is meant."
NOT_THERE = "It is not found in the document held here."

# What these lead to depends on where they stand in their paper.
OWN_PLACES = frozenset(
    {CitationKind.FIGURE, CitationKind.PAGE, CitationKind.PARAGRAPH, CitationKind.OWN_SECTION}
)


class Resolver:
    """Finds where citations lead. Equal words in equal places have equal answers, so answers may be kept."""

    def __init__(self, shelf: Shelf, replaced_by_newer: Iterable[str], insides: Mapping[str, Inside]):
        """
        replaced_by_newer   ids of publications of which a newer revision is held
        insides             places of a publication by id, asked only for those that are looked into
        """
        self._targets = Targets(shelf, frozenset(replaced_by_newer))
        self._insides = insides

    def find(self, source: Source, citation: Citation) -> Found:
        """Where a citation of a publication on the shelf leads."""
        held = self._targets.shelf.by_id[source.publication_id]
        match citation.kind:
            case CitationKind.REGULATION:
                return self._rule(held, source, citation)
            case CitationKind.DOCUMENT:
                return self._document(held, source, citation)
            case CitationKind.CHAPTER | CitationKind.TASK:
                return self._number(held, source, citation)
        return self._in(held, source, citation)

    def _in(self, held: Held, source: Source, citation: Citation) -> Found:
        """A place in one publication."""
        return place_in(held.id, self._insides[held.id], source, citation)

    def _rule(self, held: Held, source: Source, citation: Citation) -> Found:
        texts = self._targets.rules(citation.number)
        if not texts:
            return Found(ReferenceState.NOT_HELD, (), NO_RULES)
        return _together([self._in(each, source, citation) for each in texts], len(texts) > 1)

    def _number(self, held: Held, source: Source, citation: Citation) -> Found:
        """A chapter number or task: in this work, else in the manual of the type meant for this product."""
        own_type = citation.type is None or citation.type is held.type
        if held.type is Type.TEMPORARY_REVISION:
            own_type = False  # it bears its manual's numbers and speaks of the manual's pages
        if own_type and (citation.chapter_number is None or self._holds(held, citation)):
            return self._in(held, source, citation)
        manuals = self._targets.manuals(held, citation.type)
        holding = [each for each in manuals.found if self._holds(each, citation)]
        if not holding:
            if len(manuals.found) == 1 and manuals.sure:
                where = ((manuals.found[0].id, None, None),)
                return Found(ReferenceState.NO_SUCH_PLACE, where, NOT_THERE)
            return Found(ReferenceState.NOT_HELD, (), NO_MANUAL)
        found = _together([self._in(each, source, citation) for each in holding], len(holding) > 1)
        if not manuals.sure:
            return Found(ReferenceState.CANNOT_TELL, found.targets, NEITHER)
        return found

    def _holds(self, held: Held, citation: Citation) -> bool:
        number = citation.chapter_number
        return number is not None and bool(self._insides[held.id].under(number))

    def _document(self, held: Held, source: Source, citation: Citation) -> Found:
        if not citation.number:
            return self._by_type(held, source, citation)
        named = self._targets.named(held, citation)
        if not named:
            if citation.chapter_number and citation.chapter_number.scheme is not Scheme.OWN:
                return self._number(held, source, replace(citation, number="", kind=CitationKind.CHAPTER))
            return Found(ReferenceState.NOT_HELD, (), NO_PAPER)
        if citation.revision and held.number and held not in named and self._targets.is_named(held, citation):
            named = [*named, held]  # this very revision may be the one named
        meant, reason, state = of_revision(citation, named)
        if state is not ReferenceState.RESOLVED:
            return Found(state, tuple((each.id, None, None) for each in meant), reason)
        makers = {each.maker for each in meant if each.maker}
        answers = [self._place_or_whole(each, source, citation) for each in meant]
        several = len(makers) > 1 and citation.type not in DIRECTIVES
        return _together(answers, several) if several else _all(answers)

    def _by_type(self, held: Held, source: Source, citation: Citation) -> Found:
        manuals = self._targets.manuals(held, citation.type)
        if not manuals.found:
            return Found(ReferenceState.NOT_HELD, (), NO_MANUAL)
        answers = [self._place_or_whole(each, source, citation) for each in manuals.found]
        found = _together(answers, len(answers) > 1)
        if not manuals.sure:
            return Found(ReferenceState.CANNOT_TELL, found.targets, NEITHER)
        return found

    def _place_or_whole(self, held: Held, source: Source, citation: Citation) -> Found:
        if citation.chapter_number or citation.page or citation.figure or citation.paragraph:
            own = citation.chapter_number is None or not _is_own_number(citation)
            if own:
                return self._in(held, source, citation)
        return Found(ReferenceState.RESOLVED, ((held.id, None, None),))


def _is_own_number(citation: Citation) -> bool:
    """Whether the chapter number is that of the document itself: a component manual's."""
    return str(citation.chapter_number) == citation.number and not (
        citation.page or citation.figure or citation.paragraph
    )


def of_revision(citation: Citation, named: list[Held]) -> tuple[list[Held], str, ReferenceState]:
    """Those of the revision named; all of them when none is."""
    if not citation.revision and not citation.date:
        return named, "", ReferenceState.RESOLVED
    answers = {each.id: _fits(citation, each) for each in named}
    exact = [each for each in named if answers[each.id] is Answer.YES]
    if exact:
        return exact, "", ReferenceState.RESOLVED
    if all(answer is Answer.NO for answer in answers.values()):
        held = ", ".join(sorted({_edition(each, bool(citation.date)) for each in named}))
        wanted = f"{citation.revision} of {_days(citation)}".strip() if citation.date else citation.revision
        reason = f"Held here, but not at the revision named ({wanted}): {held}."
        return named, reason, ReferenceState.NOT_HELD
    if not citation.revision and len(cited_days(citation)) > 1:
        reason = (
            f"Held here; «{citation.date_words}» can be read {_days(citation)}: cannot tell which is meant."
        )
        return named, reason, ReferenceState.CANNOT_TELL
    return named, "Held here; cannot tell whether it is the revision named.", ReferenceState.CANNOT_TELL


def _days(citation: Citation) -> str:
    return " or ".join(date_words(each) for each in cited_days(citation))


def _edition(held: Held, dated: bool) -> str:
    mark = held.revision or "without a revision mark"
    return f"{mark} of {date_words(held.date)}" if dated and held.date else mark


def _fits(citation: Citation, target: Held) -> Answer:
    mark = same_revision(citation.revision, target.revision) if citation.revision else None
    date = is_of_day(citation, target.date) if citation.date else None
    if target.type in DIRECTIVES:
        return Answer.YES  # its number names it; dates beside it are of its issue or its effect
    answers = {each for each in (mark, date) if each is not None}
    if Answer.NO in answers:
        return Answer.NO
    return Answer.YES if Answer.YES in answers else Answer.CANNOT_TELL


def _together(found: list[Found], several: bool) -> Found:
    """One answer from those in each candidate; of several candidates none is chosen."""
    if not several:
        return found[0] if len(found) == 1 else _all(found)
    there = [each for each in found if each.state is not ReferenceState.NO_SUCH_PLACE] or found
    targets = tuple(target for each in there for target in each.targets)
    if len({target[0] for target in targets}) == 1:
        return there[0]
    return Found(ReferenceState.CANNOT_TELL, targets, SEVERAL)


def _all(found: list[Found]) -> Found:
    """Several that are all meant, such as every revision of a bulletin."""
    there = [each for each in found if each.state is ReferenceState.RESOLVED]
    if there:
        return Found(ReferenceState.RESOLVED, tuple(target for each in there for target in each.targets))
    targets = tuple(target for each in found for target in each.targets)
    return Found(found[0].state, targets, found[0].reason)
