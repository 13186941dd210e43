"""Which page of a manual was effective on a day, among the revisions held. Pure; nothing is ever guessed.

A page keeps its date until a revision changes it (common practice, no source): a page that a later revision
still holds with an older date was effective all the while. Where a revision lies between that is not held, or
a date is missing, the answer is "cannot tell".
"""

import datetime
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from indexer.library.effective_pages import page_key
from indexer.library.records import PublicationRecord
from indexer.tagging.effective_pages import BLANK, INSERTED, INSERTED_BLANK, LISTED, UNREAD
from indexer.tagging.tags import ListedPage, PageMark
from indexer.trade.dates import date_words
from indexer.trade.evidence import Answer, Origin
from indexer.trade.revisions import later_revision, normalised_revision

Key = tuple[str, str]


@dataclass(frozen=True)
class HeldRevision:
    """One revision held here, with what its pages and its list print."""

    record: PublicationRecord
    marks: tuple[PageMark, ...]
    lines: tuple[ListedPage, ...] = ()

    @property
    def name(self) -> str:
        mark = f"revision {self.record.revision}" if self.record.revision else "the revision"
        return f"{mark} of {date_words(self.record.date)}" if self.record.date else mark

    @cached_property
    def pages(self) -> Mapping[Key, list[PageMark]]:
        found: dict[Key, list[PageMark]] = {}
        for mark in self.marks:
            if mark.printed_page:
                found.setdefault(page_key(mark.number, mark.printed_page), []).append(mark)
        return found

    @cached_property
    def listed(self) -> Mapping[Key, ListedPage]:
        """What its list of effective pages, or the chart of its change, lists."""
        rules = (LISTED, BLANK) if self.has_list else (INSERTED, INSERTED_BLANK)
        return {
            page_key(line.number, line.printed_page): line
            for line in self.lines
            if line.printed_page and line.evidence.rule in rules
        }

    @cached_property
    def list_pages(self) -> frozenset[int | None]:
        """The pdf pages that its list stands on; many lists do not list these."""
        return frozenset(line.evidence.pdf_page for line in self.lines)

    @cached_property
    def has_list(self) -> bool:
        return any(line.evidence.rule in (LISTED, BLANK) for line in self.lines)

    @cached_property
    def has_chart(self) -> bool:
        return not self.has_list and any(line.evidence.rule == INSERTED for line in self.lines)

    @cached_property
    def list_is_whole(self) -> bool:
        return self.has_list and not any(line.evidence.rule == UNREAD for line in self.lines)


@dataclass(frozen=True, slots=True)
class EffectivePage:
    """One page on one day.

    record, pdf_page  where it is bound, None when nothing held is known to have been effective
    date              that the page prints
    answer            YES = effective among what is held; CANNOT_TELL
    why               in words for a person
    """

    number: str
    printed_page: str
    record: PublicationRecord | None
    pdf_page: int | None
    date: datetime.date | None
    answer: Answer
    why: str


@dataclass(frozen=True, slots=True)
class NamedRevision:
    """A revision that is not held and that somebody named: the register. date: None = not known"""

    revision: str
    date: datetime.date | None


@dataclass(frozen=True)
class PageHistory:
    """The revisions of one work that are held, in order of date.

    unordered  revisions whose place in time is not known
    named      revisions that are not held
    """

    revisions: tuple[HeldRevision, ...]
    unordered: tuple[HeldRevision, ...] = field(default=())
    named: tuple[NamedRevision, ...] = field(default=())

    def latest(self, on: datetime.date) -> HeldRevision | None:
        """The newest revision of that day, or before it."""
        return next((each for each in reversed(self.revisions) if each.record.date <= on), None)

    def next(self, on: datetime.date) -> HeldRevision | None:
        """The first revision after that day."""
        return next((each for each in self.revisions if each.record.date > on), None)

    def pages(self, on: datetime.date) -> list[EffectivePage]:
        """Every page that was effective on a day or may have been, in the order of the newest revision that
        holds it."""
        keys: dict[Key, None] = {}
        for revision in (self.latest(on), self.next(on), *reversed(self.revisions)):
            keys.update(dict.fromkeys((*revision.pages, *revision.listed) if revision else ()))
        found = (self._page(key, on) for key in keys)
        return [page for page in found if page]

    def in_doubt(self, on: datetime.date) -> str:
        """Why another revision than the newest held may have been in effect that day; "" = none is known."""
        latest, following = self.latest(on), self.next(on)
        for each in self.unordered:
            mark = each.record.revision
            if not (latest and later_revision(latest.record.revision, mark) is Answer.YES):
                name = f"Revision {mark}" if mark else f"A revision ({each.record.file})"
                return f"{name} is held here, and its date was not read for sure"
        for each in self.named:
            if latest and _may_have_come(each, latest.record, on):
                mark = (
                    f"Revision {each.revision}"
                    if each.revision
                    else f"The revision of {date_words(each.date)}"
                )
                return f"{mark}, which the register names, is not held"
        if latest and following:
            between = _between(latest.record.revision, following.record.revision)
            if len(between) == 1:
                return f"Revision {between[0]}, between those held, is not held"
            if between:
                return f"Revisions {between[0]} to {between[-1]}, between those held, are not held"
        return ""

    def _page(self, key: Key, on: datetime.date) -> EffectivePage | None:
        latest, following = self.latest(on), self.next(on)
        for revision in (latest, following, *reversed(self.revisions)):
            if revision and len(revision.pages.get(key, ())) > 1:
                return self._open(key, f"{revision.name} held here holds this page more than once")
        carried = self._carried_over(key, on)
        if carried:
            return carried
        if latest is None:
            return self._open(key, "what stood here before is not held; the page held is of a later day")
        if key in latest.pages:
            return self._of_latest(key, latest, on)
        return self._kept_from_before(key, latest, on)

    def _carried_over(self, key: Key, on: datetime.date) -> EffectivePage | None:
        """The page of the first later revision, where it prints a date of that day or before."""
        following = self.next(on)
        mark = _only(following, key)
        if following is None or mark is None or not _sure_date(mark) or mark.date.value > on:
            return None
        latest = self.latest(on)
        before = _only(latest, key)
        if before and _sure_date(before) and before.date.value > mark.date.value:
            return self._open(key, f"{following.name} holds an older page than {latest.name}")
        same = before and _sure_date(before) and before.date.value == mark.date.value
        place, held = (latest, before) if same else (following, mark)
        why = f"dated {date_words(mark.date.value)}, and {following.name} still holds it so"
        return _effective(place, held, why)

    def _of_latest(self, key: Key, latest: HeldRevision, on: datetime.date) -> EffectivePage:
        mark = latest.pages[key][0]
        line = latest.listed.get(key)
        if any(tag and tag.evidence.origin is not Origin.DIGITAL for tag in (mark.date, mark.revision)):
            return self._open(key, "its date was read by OCR, which may take one figure for another")
        if mark.date and mark.date.value > on:
            day = date_words(mark.date.value)
            return self._open(key, f"the page in {latest.name} prints {day}, which is later than that day")
        if line and line.date and mark.date and line.date != mark.date.value:
            both = (
                f"the list gives {date_words(line.date)}, the page held prints {date_words(mark.date.value)}"
            )
            return self._open(key, f"in {latest.name} {both}")
        if line is None and latest.has_list and mark.pdf_page not in latest.list_pages:
            return self._open(key, f"the list of effective pages of {latest.name} does not list it")
        doubt = self.in_doubt(on)
        if doubt:
            return self._open(key, f"{doubt}: it may have changed this page by that day")
        listed = ", as its list of effective pages gives it" if line and line.date else ""
        why = (
            f"dated {date_words(mark.date.value)}, in {latest.name}{listed}"
            if mark.date
            else f"in {latest.name}"
        )
        return _effective(latest, mark, why)

    def _kept_from_before(self, key: Key, latest: HeldRevision, on: datetime.date) -> EffectivePage | None:
        """A page that the newest revision does not hold: kept from an earlier one, taken out, or unknown."""
        line = latest.listed.get(key)
        earlier = [
            each for each in self.revisions if each.record.date < latest.record.date and key in each.pages
        ]
        if line and line.evidence.rule in (BLANK, INSERTED_BLANK):
            return None
        if line and line.date:
            for revision in reversed(earlier):
                mark = revision.pages[key][0]
                if _sure_date(mark) and mark.date.value == line.date and not self.in_doubt(on):
                    day = date_words(line.date)
                    why = f"{latest.name} lists it with its date, {day}; bound in {revision.name}"
                    return _effective(revision, mark, why)
            return self._open(
                key, f"{latest.name} lists it with {date_words(line.date)}, and that page is not held"
            )
        if line:
            return self._open(key, f"{latest.name} lists it, and it is not in the file")
        if latest.list_is_whole:
            return (
                self._open(key, self.in_doubt(on)) if self.in_doubt(on) else None
            )  # not part of the book then
        if not earlier:
            return self._open(key, "what stood here before is not held; the page held is of a later day")
        if latest.has_chart and not self.in_doubt(on):
            revision = earlier[-1]
            why = (
                f"in {revision.name}; the change of {date_words(latest.record.date)} "
                "does not put this page in"
            )
            return _effective(revision, revision.pages[key][0], why)
        words = "does not hold this page, and has no list that says whether it was taken out or kept"
        return self._open(key, f"{latest.name} {words}")

    def _open(self, key: Key, why: str) -> EffectivePage:
        number, printed = self._printed(key)
        return EffectivePage(
            number, printed, None, None, None, Answer.CANNOT_TELL, f"{why[:1].upper()}{why[1:]}."
        )

    def _printed(self, key: Key) -> tuple[str, str]:
        """Number and page as printed, of the newest place that prints them."""
        for revision in reversed(self.revisions):
            if key in revision.pages:
                return revision.pages[key][0].number, revision.pages[key][0].printed_page
            if key in revision.listed:
                return revision.listed[key].number, revision.listed[key].printed_page
        return key


def history(revisions: Iterable[HeldRevision], named: Iterable[NamedRevision] = ()) -> PageHistory:
    """In order of date. Of several copies of one revision the one on the shelf is taken, else the first."""
    dated: dict[tuple[datetime.date, str], HeldRevision] = {}
    undated: list[HeldRevision] = []
    for each in sorted(revisions, key=lambda each: (each.record.replaced is not None, each.record.id)):
        date = each.record.identity.date
        if date is None or date.evidence.origin is not Origin.DIGITAL:
            undated.append(each)
        else:
            dated.setdefault((each.record.date, normalised_revision(each.record.revision)), each)
    return PageHistory(tuple(dated[key] for key in sorted(dated)), tuple(undated), tuple(named))


def _may_have_come(named: NamedRevision, latest: PublicationRecord, on: datetime.date) -> bool:
    """Whether a revision not held may have come after the newest held of that day, and by that day."""
    if named.date:
        return latest.date < named.date <= on
    return later_revision(latest.revision, named.revision) is not Answer.YES


def _effective(revision: HeldRevision, mark: PageMark, why: str) -> EffectivePage:
    return EffectivePage(
        mark.number,
        mark.printed_page,
        revision.record,
        mark.pdf_page,
        mark.date.value if mark.date else None,
        Answer.YES,
        f"{why[:1].upper()}{why[1:]}.",
    )


def _only(revision: HeldRevision | None, key: Key) -> PageMark | None:
    return revision.pages[key][0] if revision and key in revision.pages else None


def _sure_date(mark: PageMark) -> bool:
    return mark.date is not None and mark.date.evidence.origin is Origin.DIGITAL


def _between(one: str, other: str) -> Sequence[str]:
    """The marks between two revisions that count in one way: 6 between 5 and 7, B between A and C."""
    first, last = normalised_revision(one), normalised_revision(other)
    first = "0" if first == "original" and last.isdigit() else first
    if first.isdigit() and last.isdigit():
        return [str(each) for each in range(int(first) + 1, int(last))]
    if len(first) == len(last) == 1 and first.isalpha() and last.isalpha():
        return [chr(each) for each in range(ord(first) + 1, ord(last))]
    return []
