"""The listing of a system -> what its page shows. No catalogue is read here."""

from collections.abc import Sequence
from dataclasses import dataclass
from urllib.parse import quote, urlencode

from server.framing import left_out_words
from server.hiding import HIDE
from server.opened import OpenedLibrary
from server.question import NO_NUMBER
from server.routes.addresses import Asked, Chip, page_address, publication_address
from server.routes.system_line_view import LineView, PageLink, line_view
from server.system_asked import number_name
from server.system_not_here import missing, rules_words
from server.system_order import GROUPS, GroupKind
from server.system_records import Cause, Line, Meaning, NotHereKind, Part, Section, SystemAnswer
from server.system_text import (
    cause_words,
    elsewhere_words,
    hidden_in_listing,
    how_counts_words,
    rest_words,
    standings_words,
    word_counts_words,
)
from server.words import count_of, publication_name

SHOWN = 3  # lines of a group shown at once; the rest wait in its fold


@dataclass(frozen=True, slots=True)
class GroupView:
    key: str
    title: str
    count: str
    first: tuple[LineView, ...]
    rest: tuple[LineView, ...]
    rest_words: str  # how many lines wait, and of which publications; "" = none

    @property
    def lines(self) -> tuple[LineView, ...]:
        return self.first + self.rest


@dataclass(frozen=True, slots=True)
class SectionView:
    summary: str
    how: str
    standings: str  # how many lines have which standing
    groups: tuple[GroupView, ...]


@dataclass(frozen=True, slots=True)
class MissingView:
    name: str
    words: str
    named_by: tuple[PageLink, ...]


@dataclass(frozen=True, slots=True)
class NotHereView:
    documents: tuple[MissingView, ...]
    rules: str  # all of them in one line; "" = none
    rules_named_by: tuple[MissingView, ...]
    places: tuple[MissingView, ...]


@dataclass(frozen=True, slots=True)
class CauseView:
    words: str
    search: str  # address of a search among them; "" for pages, which no search finds
    publications: tuple[PageLink, ...]


@dataclass(frozen=True, slots=True)
class SystemView:
    asked: str
    name: str
    number: str
    title: str
    reason: str
    choices: tuple[Chip, ...]
    no_systems: tuple[Chip, ...]  # searches for what else an abbreviation means
    left_out: str
    warnings: tuple[str, ...]
    main: SectionView
    may_be: SectionView
    jumps: tuple[Chip, ...]
    no_directive: bool
    hiding: tuple[str, Chip] | None  # what is hidden, in words, and the way to hide or show
    elsewhere: str
    chapter: Chip | None  # the whole chapter, where only a part of it was asked for
    words: str
    words_elsewhere: Chip | None
    words_loose: Chip | None
    not_here: NotHereView | None
    missing: str  # how many documents that are named are not held here; "" = none
    causes: tuple[CauseView, ...]
    owed: str  # what OCR owes, in words
    refused: int
    look_for: str
    csv: str
    printable: str


def system_address(asked: str) -> str:
    """The listing of a system; one whose name has a slash is asked for by a query."""
    if "/" in asked:
        return f"/system?{urlencode({'q': asked})}"
    return f"/system/{quote(asked, safe='')}"


def system_view(library: OpenedLibrary, answer: SystemAnswer, in_address: bool = False) -> SystemView:
    """in_address   the address names the aircraft: then the links of this listing do too"""
    number, chapter = answer.taken.number, answer.could_mean
    whole = next((each for each in chapter if each.number.section is None and answer.elsewhere), None)
    counts = answer.word_counts
    asked = system_address(number_name(number))
    name = answer.aircraft.registration if answer.aircraft else ""
    sections = {section.part: _section(library, section, name) for section in answer.sections}
    return SystemView(
        asked=answer.asked,
        name=f"{number_name(number)} {answer.taken.title}",
        number=number_name(number),
        title=answer.taken.title,
        reason=f"Taken for “{answer.words}”: {answer.taken.reason}" if answer.words else answer.taken.reason,
        choices=tuple(_choice(meaning) for meaning in answer.could_mean),
        no_systems=tuple(Chip(words, Asked(words).address) for words in answer.no_systems),
        left_out=left_out_words(answer.left_out),
        warnings=answer.warnings,
        main=sections[Part.ON],
        may_be=sections[Part.MAY_BE],
        jumps=_jumps(answer),
        no_directive="directives" not in answer.on.counts.by_group
        and not (answer.hidden and answer.hidden.directives),
        hiding=_hiding(answer, in_address),
        elsewhere=elsewhere_words(answer.elsewhere),
        chapter=_choice(whole) if whole else None,
        words=word_counts_words(counts) if counts else "",
        words_elsewhere=Chip("Search all of them", Asked(q=counts.words).address, counts.total)
        if counts and counts.total
        else None,
        words_loose=Chip(
            "Only those not numbered", Asked(counts.words, (NO_NUMBER,)).address, counts.not_numbered
        )
        if counts and counts.not_numbered
        else None,
        not_here=_not_here(library, answer) if answer.not_here else None,
        missing=_missing_words(answer),
        causes=tuple(_cause(library, cause, answer.look_for) for cause in answer.remainder),
        owed=answer.owed.words,
        refused=answer.refused,
        look_for=answer.look_for,
        csv=_with(f"/api{system_address(_plain(answer))}.csv", _about(answer, True)),
        printable=_with(
            system_address(_plain(answer)) if answer.words else asked,
            [("print", "1"), *_about(answer, in_address)],
        ),
    )


def _about(answer: SystemAnswer, named: bool) -> list[tuple[str, str]]:
    """What an address says of the aircraft in hand; `named` = it must name it."""
    if answer.aircraft is None:
        return []
    hides = [("hide", HIDE)] if answer.hidden is not None else []
    return ([("aircraft", answer.aircraft.registration)] if named else []) + hides


def _with(address: str, pairs: Sequence[tuple[str, str]]) -> str:
    return f"{address}?{urlencode(pairs)}" if pairs else address


def _hiding(answer: SystemAnswer, in_address: bool) -> tuple[str, Chip] | None:
    if answer.aircraft is None:
        return None
    name, address = answer.aircraft.registration, system_address(_plain(answer))
    named = [("aircraft", name)] if in_address else []
    if answer.hidden is None:
        hide = _with(address, [*named, ("hide", HIDE)])
        return "", Chip(f"Hide what does not apply to {name}", hide)
    return hidden_in_listing(answer.hidden, name), Chip("Show everything", _with(address, named))


def _plain(answer: SystemAnswer) -> str:
    """What to ask again with: the words, for they say more than the number; a slash is as good as a space."""
    return answer.words.replace("/", " ") if answer.words else number_name(answer.taken.number)


def _choice(meaning: Meaning) -> Chip:
    return Chip(f"{number_name(meaning.number)} {meaning.title}", system_address(number_name(meaning.number)))


def _jumps(answer: SystemAnswer) -> tuple[Chip, ...]:
    """Links down the page: the groups, what may concern it, what is in no listing."""
    chips = [
        Chip(group.short, f"#{group.key}", sum(1 for line in answer.on.lines if line.group is group))
        for group in GROUPS
        if group.key in answer.on.counts.by_group
    ]
    if answer.may_be.counts.passages:
        chips.append(Chip("May concern it", "#may-be", answer.may_be.counts.lines))
    if answer.not_here:
        named = missing(answer.not_here)
        documents = sum(each.kind is NotHereKind.DOCUMENT for each in named)
        chips.append(Chip("Not held here", "#not-here", documents or len(named)))
    loose = sum(cause.total for cause in answer.remainder if cause.unit == "passage")
    chips.append(Chip("Not numbered", "#not-listed", loose))
    unread = sum(cause.total for cause in answer.remainder if cause.unit == "page")
    if unread:
        chips.append(Chip("Pages not searched", "#not-listed", unread))
    return tuple(chips)


def _section(library: OpenedLibrary, section: Section, registration: str) -> SectionView:
    counts = section.counts
    return SectionView(
        f"{count_of(counts.passages, 'passage')} in {count_of(counts.publications, 'publication')}",
        how_counts_words(counts),
        standings_words(section.lines),
        tuple(
            _group(
                library, group, [line for line in section.lines if line.group is group], section, registration
            )
            for group in GROUPS
            if group.key in counts.by_group
        ),
    )


def _group(
    library: OpenedLibrary, group: GroupKind, lines: Sequence[Line], section: Section, registration: str
) -> GroupView:
    views = []
    block = None
    for line in lines:
        said = line.block or "Without a page block"
        views.append(line_view(library, line, said if group.blocks and said != block else "", registration))
        block = said
    passages = count_of(section.counts.by_group[group.key], "passage")
    shown = SHOWN if len(views) > SHOWN + 1 else len(views)
    return GroupView(
        group.key if section.part is Part.ON else f"may-be-{group.key}",
        group.title,
        f"{count_of(len(lines), 'line')}, {passages}",
        tuple(views[:shown]),
        tuple(views[shown:]),
        rest_words(lines[shown:]),
    )


def _missing_words(answer: SystemAnswer) -> str:
    documents = sum(each.kind is NotHereKind.DOCUMENT for each in missing(answer.not_here))
    if not documents:
        return ""
    named = f"{count_of(documents, 'document')} named on these pages {'is' if documents == 1 else 'are'}"
    return f"{named} not held here, or not at the revision named."


def _not_here(library: OpenedLibrary, answer: SystemAnswer) -> NotHereView:
    found = missing(answer.not_here)
    of_kind: dict[NotHereKind, list[MissingView]] = {kind: [] for kind in NotHereKind}
    for each in found:
        of_kind[each.kind].append(MissingView(each.name, each.words, _named_by(library, each.named_by)))
    documents, rules, places = (tuple(of_kind[kind]) for kind in NotHereKind)
    return NotHereView(documents, rules_words(found), rules, places)


def _named_by(library: OpenedLibrary, places: Sequence[tuple[str, int | None]]) -> tuple[PageLink, ...]:
    links = []
    for publication_id, page in places:
        record = library.publication(publication_id)
        name = publication_name(record)
        at = page or record.first_page
        links.append(PageLink(f"{name}, PDF page {at}", page_address(publication_id, at)))
    return tuple(links)


def _cause(library: OpenedLibrary, cause: Cause, look_for: str) -> CauseView:
    links = []
    for publication_id, count in sorted(cause.counts.items(), key=lambda pair: -pair[1]):
        record = library.publication(publication_id)
        name = publication_name(record)
        links.append(PageLink(f"{name}: {count_of(count, cause.unit)}", publication_address(publication_id)))
    search = Asked(look_for, (NO_NUMBER,)).address if cause.unit == "passage" else ""
    return CauseView(cause_words(cause), search, tuple(links))
