"""Whether a publication, or a page of it, is known to be current on one day, and from what.

Only a check of the register by a named person makes a revision current, and only where the file's own
revision was read for sure. All else is superseded, a check that has run out, or unknown.
"""

import datetime
import re
from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from indexer.library.catalogue import Catalogue
from indexer.library.day import today
from indexer.library.directives_held import force_of
from indexer.library.effective_pages import list_check
from indexer.library.list_check_records import ListCheck, PageFinding, PageState
from indexer.library.records import (
    OverrideState,
    PageOverride,
    PassageRecord,
    PublicationRecord,
    SupersessionKind,
)
from indexer.library.register import DIRECTIVE_LIST, latest_checks
from indexer.library.register_records import CurrencyFinding, CurrencyState, RevisionCheck
from indexer.library.relation_rules.directive_force import Force
from indexer.library.stated import documents_generation
from indexer.library.works import DIRECTIVES
from indexer.trade.evidence import Answer, Basis, Origin
from indexer.trade.publication_types import PublicationType
from indexer.trade.revisions import later_revision, same_revision
from server.currency import Currency, Relation
from server.kept import KeptByState
from server.words import date_words

_NOT_SURE = "Cannot tell whether that is this one."
_NOBODY = "Nobody has checked which revision is current."
_CURRENT, _SUPERSEDED = CurrencyState.CURRENT, CurrencyState.SUPERSEDED
_EXPIRED, _UNKNOWN = CurrencyState.CHECK_EXPIRED, CurrencyState.UNKNOWN
_LABELS = {
    _CURRENT: "Current as checked",
    _SUPERSEDED: "Superseded",
    _EXPIRED: "The check has expired",
    _UNKNOWN: "Not known to be current",
}
_lists = KeptByState(most=8)  # lists of effective pages held against their pages: each may be long
_words = KeptByState(most=1024)  # the same in a few words for each page
_checks = KeptByState(most=100_000, states=4)  # of the register, by day
_findings = KeptByState(most=100_000, states=4)  # by day


def currency_of(catalogue: Catalogue, publication: PublicationRecord, on: datetime.date) -> CurrencyFinding:
    """The state of a publication on a day."""
    return Current(catalogue, on).of_publication(publication)


def page_currency(
    catalogue: Catalogue,
    publication: PublicationRecord,
    pdf_page: int,
    on: datetime.date,
    read_with: Collection[str] = (),
) -> CurrencyFinding:
    """The same of one page (1-based), with lists of effective pages and temporary revisions.

    read_with  ids of temporary revisions that are cited with the page: they do not make it superseded
    """
    return Current(catalogue, on).of_page(publication, pdf_page, read_with)


def current_fields(finding: CurrencyFinding) -> dict[str, Any]:
    return {"state": finding.state.value, "why": finding.why}


@dataclass(frozen=True, slots=True)
class CurrentWords:
    """A state for the screen: the state, then why; `alarm` = a reason not to use the page as it is."""

    lead: str
    why: str
    alarm: bool

    @property
    def words(self) -> str:
        return f"{self.lead} {self.why}".strip()


def current_words(finding: CurrencyFinding, said: Iterable[str] = ()) -> CurrentWords:
    """The state and why, without sentences that stand beside it already; words "" when nothing is left."""
    why = finding.why
    for words in said:
        why = why.replace(words, "")
    why = " ".join(why.split())
    alarm = finding.state in (_SUPERSEDED, _EXPIRED)
    if finding.state is _SUPERSEDED and why != " ".join(finding.why.split()):
        return CurrentWords("As for the revision:" if why else "", why, False)
    return CurrentWords(f"{_LABELS[finding.state]}.", why, alarm)


def kept_list_check(catalogue: Catalogue, publication: PublicationRecord) -> ListCheck | None:
    """The publication's list of effective pages held against its pages; worked out once while the documents
    stay as they are."""
    with catalogue.reading():
        kept = _lists.of(catalogue, documents_generation(catalogue))
        return kept.once(_list_key(publication), lambda: list_check(catalogue, publication))


@dataclass(frozen=True, slots=True)
class _PageWords:
    """How a page stands to the list; `older` = by its own date it came before the one listed."""

    state: PageState
    why: str
    older: bool


@dataclass(frozen=True, slots=True)
class _ListWords:
    """What is asked of a list for each of many answers; whole, age as of ListCheck; problems "" = none."""

    whole: bool
    age: int
    problems: str
    pages: Mapping[int, _PageWords]  # by PDF page


def _list_words(catalogue: Catalogue, publication: PublicationRecord) -> _ListWords | None:
    """Of the publication's list, kept as `kept_list_check` is; None = it has none."""
    with catalogue.reading():
        kept = _words.of(catalogue, documents_generation(catalogue))
        return kept.once(_list_key(publication), lambda: _shortened(list_check(catalogue, publication)))


def _shortened(check: ListCheck | None) -> _ListWords | None:
    if check is None:
        return None
    alike: dict[_PageWords, _PageWords] = {}  # most pages of a list stand to it in the same words
    pages = {}
    for pdf_page in {each.pdf_page for each in check.findings} - {None}:
        words = _page_words(check.of_page(pdf_page))
        pages[pdf_page] = alike.setdefault(words, words)
    return _ListWords(check.whole, check.age, list_problems(check), pages)


def _page_words(page: PageFinding) -> _PageWords:
    listed = page.listed.date if page.listed else None
    printed = page.mark.date.value if page.mark and page.mark.date else None
    older = page.state is PageState.WRONG_DATE and bool(listed and printed and printed < listed)
    return _PageWords(page.state, page.why, older)


def _list_key(publication: PublicationRecord) -> tuple[str, datetime.date | None]:
    """All that a list is held against follows from the documents, but for a date that the shop entered."""
    return publication.id, publication.date


class Current:
    """Reads the catalogue, each thing once in one state of it; make one for each answer, inside `reading`."""

    def __init__(
        self, catalogue: Catalogue, on: datetime.date | None = None, currency: Currency | None = None
    ):
        """`on`: None = today."""
        self._catalogue = catalogue
        now = today(catalogue)
        self.on = on or now
        self._looks_back = self.on < now
        self._currency = currency or Currency(catalogue)
        generation = catalogue.generation
        self._checks = _checks.of(catalogue, generation, self.on)
        self._found = _findings.of(catalogue, generation, (self.on, self._looks_back))

    def prepare(self, publications: Iterable[PublicationRecord]) -> None:
        """Read the register, and what is held against them, for many publications at once."""
        by_id = {publication.id: publication for publication in publications}
        unknown = [by_id[each] for each in self._found.missing(by_id)]
        works = self._checks.missing((DIRECTIVE_LIST, *(publication.work_id for publication in unknown)))
        found = latest_checks(self._catalogue, works, self.on)
        for work in works:
            self._checks.keep(work, found.get(work))
        self._currency.read_ahead(by_id.values())

    def of_publication(self, publication: PublicationRecord) -> CurrencyFinding:
        """The state of a publication."""
        return self._found.once(publication.id, lambda: self._of_publication(publication))

    def of_page(
        self, publication: PublicationRecord, pdf_page: int, read_with: Collection[str] = ()
    ) -> CurrencyFinding:
        """The state of one page: nothing that its publication is not, and less where something changes it.

        read_with  as of `page_currency`
        """
        whole = self.of_publication(publication)
        listed = self._by_list(whole, publication, pdf_page)
        overrides = self._currency.overrides(publication, pdf_page)
        beside = [
            self._currency.beside_words(printed, each)
            for printed, each in self._currency.beside(publication, pdf_page)
            if each.source_id not in read_with and not self._is_later(each.source_id)
        ]
        cited = [each.source_id for each in overrides if each.source_id in read_with]
        together = [f"With {self._currency.short_name(each)}, which changes this page." for each in cited]
        found = self._overridden(listed, [each for each in overrides if each.source_id not in read_with])
        said = " ".join(dict.fromkeys([*together, *beside]))
        return CurrencyFinding(found.state, f"{said} {found.why}", found.check) if said else found

    def of_passage(self, publication: PublicationRecord, passage: PassageRecord) -> CurrencyFinding:
        """The state of the pages a passage stands on."""
        pages = {passage.pdf_page, *(place.pdf_page for place in passage.boxes)}
        return self.of_pages(publication, sorted(pages))

    def of_pages(self, publication: PublicationRecord, pages: Sequence[int]) -> CurrencyFinding:
        """The state of several pages (1-based): superseded, else not current, else as all of them are.

        Lists of effective pages are looked at only where the publication would be current.
        """
        whole = self.of_publication(publication)
        if not pages:
            return whole
        if whole.state is _CURRENT:
            found = [self.of_page(publication, pdf_page) for pdf_page in pages]
        else:
            found = [
                self._overridden(whole, self._currency.overrides(publication, pdf_page)) for pdf_page in pages
            ]
        return next((each for each in found if each.state is _SUPERSEDED), None) or next(
            (each for each in found if each.state is not _CURRENT), found[0]
        )

    def is_superseded(self, publication: PublicationRecord) -> bool:
        """Whether the state of a publication is superseded; no list of effective pages is read for it."""
        if publication.type in DIRECTIVES:
            return self.of_publication(publication).state is _SUPERSEDED
        if self._against(publication):
            return True
        check = self._check(publication.work_id)
        return self._by_register(publication, check).state is _SUPERSEDED

    def overridden_pages(self, publication: PublicationRecord) -> frozenset[int]:
        """Its pages (1-based) that a temporary revision in force changes: they are superseded."""
        return self._currency.pages_overridden_in_force(publication)

    def _of_publication(self, publication: PublicationRecord) -> CurrencyFinding:
        check = self._check(publication.work_id)
        if publication.type in DIRECTIVES:
            return self._of_directive(publication, check)
        against = self._against(publication)
        if against:
            return CurrencyFinding(
                _SUPERSEDED, " ".join([*against, *self._contradicted(check, publication)]), check
            )
        open_order = [
            relation.words
            for relation in self._currency.superseding(publication)
            if relation.kind == SupersessionKind.CANNOT_TELL.value
        ]
        finding = self._by_register(publication, check)
        if later := [relation.words for relation in self._came_later(publication)]:
            day = date_words(self.on)
            words = " ".join(f"{each.rstrip('.')}, after {day}." for each in later)
            finding = CurrencyFinding(finding.state, f"{words} {finding.why}", finding.check)
        if open_order and finding.state in (_CURRENT, _EXPIRED):
            return CurrencyFinding(_UNKNOWN, " ".join([*open_order, finding.why]), check)
        if finding.state is _CURRENT:
            return CurrencyFinding(_CURRENT, f"{finding.why}{self._list_words(publication)}", check)
        return finding

    def _against(self, publication: PublicationRecord) -> list[str]:
        """What is held here that supersedes it."""
        words = [
            relation.words
            for relation in self._currency.superseding(publication)
            if relation.kind != SupersessionKind.CANNOT_TELL.value
            and relation not in self._came_later(publication)
        ]
        return [*words, *_replaced(publication)]

    def _came_later(self, publication: PublicationRecord) -> list[Relation]:
        """What supersedes it and is dated after the day asked about, when that day is past."""
        return [
            relation
            for relation in self._currency.superseding(publication)
            if relation.kind != SupersessionKind.CANNOT_TELL.value
            and self._is_later(relation.publication) is not None
        ]

    def _is_later(self, publication_id: str) -> datetime.date | None:
        """The date of a publication that is later than a past day asked about; None = it is not."""
        if not self._looks_back:
            return None
        date = self._catalogue.publication(publication_id).date
        return date if date is not None and date > self.on else None

    @staticmethod
    def _contradicted(check: RevisionCheck | None, publication: PublicationRecord) -> list[str]:
        """What the register says beside what is held here: both are said where they do not agree."""
        if check is None:
            return []
        if same_publication(publication, check) is Answer.YES:
            return [
                f"The register still names this one: {_is_current(check)}. The two do not agree: check again."
            ]
        return [f"The register: {_is_current(check)}."]

    def _by_register(self, publication: PublicationRecord, check: RevisionCheck | None) -> CurrencyFinding:
        if check is None:
            return CurrencyFinding(_UNKNOWN, _NOBODY)
        doubt = identity_doubt(publication)
        same = same_publication(publication, check)
        held = f"held here: {_edition(publication.revision, publication.date)}"
        if not (publication.revision and check.revision):  # then the date alone tells them apart
            doubt = doubt or _date_doubt(publication)
        if doubt:
            return CurrencyFinding(_UNKNOWN, f"{_sentence(_is_current(check))} {doubt}", check)
        if same is Answer.YES:
            if self.on >= check.review_due:
                due = date_words(check.review_due)
                return CurrencyFinding(
                    _EXPIRED, f"{_was_current(check)} A new check was due on {due}.", check
                )
            due = date_words(check.review_due)
            return CurrencyFinding(_CURRENT, f"{_sentence(_is_current(check))} Review due {due}.", check)
        later = _is_later(check, publication)
        if same is Answer.NO and later is Answer.YES:
            return CurrencyFinding(_SUPERSEDED, f"{_sentence(_is_current(check))[:-1]}; {held}.", check)
        if same is Answer.NO and later is Answer.NO:
            words = "This file is later than that: the two do not agree, check which is current."
            return CurrencyFinding(_UNKNOWN, f"{_sentence(_is_current(check))[:-1]}; {held}. {words}", check)
        return CurrencyFinding(_UNKNOWN, f"{_sentence(_is_current(check))[:-1]}; {held}. {_NOT_SURE}", check)

    def _of_directive(self, publication: PublicationRecord, check: RevisionCheck | None) -> CurrencyFinding:
        """Whether a directive binds on the day, as far as those held here say; that is never proof."""
        replaced = _replaced(publication)
        force = force_of(self._catalogue, publication.id, self.on)
        why = force.why if force else "It does not print what it requires and from when."
        if replaced or (force and force.state in (Force.SUPERSEDED, Force.WITHDRAWN)):
            return CurrencyFinding(_SUPERSEDED, " ".join([*replaced, why]), check)
        against = [relation.words for relation in self._currency.superseding(publication)]
        if against and not (force and force.binds):
            return CurrencyFinding(_SUPERSEDED, " ".join([*against, why]), check)
        if check:
            finding = self._by_register(publication, check)
            binds = force is not None and force.binds
            state = finding.state if binds else _lowered(finding.state)
            return CurrencyFinding(state, f"{why} {finding.why}", check)
        if publication.type is PublicationType.PROPOSED_DIRECTIVE:
            return CurrencyFinding(_UNKNOWN, f"{why} Look whether a rule was made of it.")
        held = f"Among those held here: {why[:1].lower()}{why[1:]}"
        listed = self._check(DIRECTIVE_LIST)
        if listed is None:
            return CurrencyFinding(_UNKNOWN, f"{held} Nobody has checked the authority's list of directives.")
        words = f"The authority's list was looked at on {date_words(listed.checked_on)} by {listed.who}"
        due = date_words(listed.review_due)
        late = f"; a new look was due on {due}" if self.on >= listed.review_due else ""
        return CurrencyFinding(
            _UNKNOWN,
            f"{held} {words} ({listed.source}){late}; what it said of this directive was not entered.",
            listed,
        )

    def _check(self, work_id: str) -> RevisionCheck | None:
        def read() -> RevisionCheck | None:
            return latest_checks(self._catalogue, [work_id], self.on).get(work_id)

        return self._checks.once(work_id, read)

    def _overridden(self, finding: CurrencyFinding, overrides: list[PageOverride]) -> CurrencyFinding:
        """What temporary revisions make of a page."""
        later = {each.source_id: date for each in overrides if (date := self._is_later(each.source_id))}
        if later:
            said = " ".join(
                f"Changed by {self._currency.short_name(source)} of {date_words(date)}, "
                f"after {date_words(self.on)}."
                for source, date in later.items()
            )
            finding = CurrencyFinding(finding.state, f"{said} {finding.why}", finding.check)
        overrides = [each for each in overrides if each.source_id not in later]
        words = dict.fromkeys(
            self._currency.override_words(each)
            for each in overrides
            if each.state is not OverrideState.SUPERSEDED
        )
        if not words:
            return finding
        in_force = any(each.state is OverrideState.IN_FORCE for each in overrides)
        why = " ".join([*words, finding.why])
        if in_force:
            return CurrencyFinding(_SUPERSEDED, why, finding.check)
        return CurrencyFinding(_lowered(finding.state), why, finding.check)

    def _by_list(
        self, finding: CurrencyFinding, publication: PublicationRecord, pdf_page: int
    ) -> CurrencyFinding:
        """What the list of effective pages says of a page."""
        check = _list_words(self._catalogue, publication)
        page = check.pages.get(pdf_page) if check else None
        if check is None or page is None:
            if finding.state is not _CURRENT:
                return finding
            none = (
                "no list of effective pages was read here" if check is None else "the list says nothing of it"
            )
            return CurrencyFinding(
                _CURRENT if check is None or not check.whole else _UNKNOWN,
                f"{finding.why} The page's own date was not held against anything: {none}.",
                finding.check,
            )
        if page.state is PageState.RIGHT:
            if check.age:
                return self._by_other_list(finding, page.why, check.age)
            within = f" of revision {publication.revision}" if publication.revision else ""
            kind = "list of effective pages" if check.whole else "page control chart"
            words = f"This page is {page.why} in the {kind}{within}."
            return CurrencyFinding(finding.state, f"{words} {finding.why}", finding.check)
        words = f"Of this page: {page.why}."
        state = _SUPERSEDED if page.older else _lowered(finding.state)
        return CurrencyFinding(state, f"{words} {finding.why}", finding.check)

    @staticmethod
    def _by_other_list(finding: CurrencyFinding, why: str, age: int) -> CurrencyFinding:
        """A list of another revision than the file prints: a page that agrees with it proves too little."""
        than = "older" if age < 0 else "newer"
        words = f"This page is {why}, but the list is {than} than the revision this file prints as its own."
        return CurrencyFinding(_lowered(finding.state), f"{words} {finding.why}", finding.check)

    def _list_words(self, publication: PublicationRecord) -> str:
        """What to know of a publication that is current, where its pages are not as its list has them."""
        check = _list_words(self._catalogue, publication)
        if check is None or not check.problems:
            return ""
        return f" Not every page is as its list of effective pages has it: {check.problems}."


def list_problems(check: ListCheck) -> str:
    """ "1 page with another date than listed, 2 pages missing"; "" when there are none."""
    named = (
        (PageState.WRONG_DATE, "with another date than listed"),
        (PageState.MISSING, "missing"),
        (PageState.EXTRA, "not listed"),
    )
    counted = [(check.count(state), words) for state, words in named]
    return ", ".join(f"{count} page{'s' if count > 1 else ''} {words}" for count, words in counted if count)


def identity_doubt(publication: PublicationRecord) -> str:
    """Why a file cannot be matched for sure with a line of the register; "" when it can."""
    identity = publication.identity
    tags = (("number", identity.number), ("revision", identity.revision), ("date", identity.date))
    read = [name for name, tag in tags if tag and tag.evidence.origin is not Origin.DIGITAL]
    if read:
        them = f"{' and '.join(read)} of this file {'were' if len(read) > 1 else 'was'}"
        return f"The {them} read by OCR, which may take one figure for another. {_NOT_SURE}"
    for name, tag in tags[1:]:
        if tag and tag.evidence.basis not in (Basis.PRINTED, Basis.SHOP_ENTRY):
            return f"The {name} of this file is not printed on its pages. {_NOT_SURE}"
    for other in identity.revision.others if identity.revision else ():
        if same_revision(other.value, publication.revision) is not Answer.YES:
            both = f"revision {publication.revision} and also {other.value}"
            return f"This file prints {both}. {_NOT_SURE}"
    return ""


def _date_doubt(publication: PublicationRecord) -> str:
    others = publication.identity.date.others if publication.identity.date else ()
    other = next((each.value for each in others if each.value != publication.date), None)
    if other is None or publication.date is None:
        return ""
    both = f"{date_words(publication.date)} and also {date_words(other)}"
    return f"This file prints the dates {both}. {_NOT_SURE}"


def same_publication(publication: PublicationRecord, check: RevisionCheck) -> Answer:
    """Whether the revision that a check names is the one held here."""
    dates = publication.date == check.date if publication.date and check.date else None
    if publication.revision and check.revision:
        same = same_revision(publication.revision, check.revision)
        if same is Answer.YES:
            return Answer.CANNOT_TELL if dates is False else Answer.YES
        return same
    if dates is None:
        return Answer.CANNOT_TELL
    return Answer.YES if dates else Answer.NO


def _is_later(check: RevisionCheck, publication: PublicationRecord) -> Answer:
    """Whether the revision of a check came after the one held here; both marks and dates must agree to it."""
    by_date = Answer.CANNOT_TELL
    if check.date and publication.date and check.date != publication.date:
        by_date = Answer.YES if check.date > publication.date else Answer.NO
    by_mark = Answer.CANNOT_TELL
    if check.revision and publication.revision:
        by_mark = later_revision(check.revision, publication.revision)
    known = {by_date, by_mark} - {Answer.CANNOT_TELL}
    return known.pop() if len(known) == 1 else Answer.CANNOT_TELL


def _replaced(publication: PublicationRecord) -> list[str]:
    if publication.replaced is None:
        return []
    since = date_words(publication.replaced.since.date())
    return [f"Replaced on {since} by a newer file at the same place."]


def _lowered(state: CurrencyState) -> CurrencyState:
    return _UNKNOWN if state in (_CURRENT, _EXPIRED) else state


def _edition(revision: str, date: datetime.date | None) -> str:
    """ "revision 6 of 14 March 2031", "of 14 March 2031" """
    bare = re.sub(r"^(?:revision|rev)\b\.?\s*", "", revision, flags=re.IGNORECASE)
    named = "the original issue" if bare.casefold() == "original" else f"revision {bare}"
    words = named if revision else "a revision without a number"
    return f"{words} of {date_words(date)}" if date else words


def _is_current(check: RevisionCheck) -> str:
    edition = _edition(check.revision, check.date) if check.revision or check.date else "the list"
    return f"{edition} is current per {check.source} on {date_words(check.checked_on)} by {check.who}"


def _was_current(check: RevisionCheck) -> str:
    return _sentence(_is_current(check).replace(" is current per ", " was current per ", 1))


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."
