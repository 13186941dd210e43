"""The answer to a search as its page shows it: straight lines, notes, filters, groups of hits."""

from dataclasses import dataclass, replace
from typing import Any

from indexer.library.analysis import tokens
from server.applies_words import hidden_words
from server.applying import Applying
from server.facet_counts import current_count, facet_counts, not_hidden_count
from server.fleet import registrations
from server.hiding import HIDE
from server.not_current import not_current_words
from server.opened import OpenedLibrary
from server.question import NO_NUMBER
from server.routes.addresses import CURRENT_ONLY, ON, Asked, Chip, Facet, active_chips, facets
from server.routes.in_hand import choose_address
from server.routes.search_notes import note_views
from server.routes.straight_lines import straight_lines
from server.routes.views import HitView, hit_view
from server.search import Group, Hit, SearchAnswer
from server.straight_to import straight_to
from server.words import chapter_words, count_of, not_searched_words, publication_name

MOST_AIRCRAFT = 6  # offered as chips; of a larger fleet one is chosen from the list


@dataclass(frozen=True, slots=True)
class GroupView:
    """hits_address   where the hits of a closed group are fetched from; more_address = the page with all"""

    chapter: str
    title: str
    count: int
    hits: list[HitView]
    hits_address: str
    more_address: str
    more_words: str


def found_view(library: OpenedLibrary, asked: Asked, answer: SearchAnswer) -> dict[str, Any]:
    """`asked` = the search as its address holds it, with the chapter that the question names as a filter."""
    with library.reading():
        applying = Applying(library.catalogue, answer.aircraft) if answer.aircraft else None
        straight = straight_to(library, answer.question.text, applying)
        return {
            "back": asked.address,
            "straight": straight_lines(straight, answer, answer.question.text),
            "notes": note_views(answer, asked),
            "active": active_chips(asked, _publication_names(library, asked)),
            "facets": [
                facet
                for facet in (
                    _left_out_facet(library, asked, answer),
                    *facets(asked, facet_counts(library, answer)),
                    _aircraft(library, asked, answer),
                )
                if facet.items
            ],
            "groups": _groups(asked, answer),
            "spread_words": _spread_words(answer),
            "left_out": _left_out(asked, answer),
            "not_searched_words": not_searched_words(
                answer.owed.without_text,
                answer.passages_not_numbered,
                bool(asked.chapter),
                answer.owed.words,
            ),
        }


def _left_out(asked: Asked, answer: SearchAnswer) -> list[tuple[str, Chip]]:
    """What was left out, in words, and the way to have it back."""
    found = []
    if answer.hidden is not None and answer.aircraft:
        words = hidden_words(answer.hidden, answer.aircraft.registration)
        found.append((words, Chip("Show everything", replace(asked, hide=()).address)))
    if answer.superseded is not None:
        back = Chip("Show what is superseded too", replace(asked, current=()).address)
        found.append((not_current_words(answer.superseded), back))
    return found


def _aircraft(library: OpenedLibrary, asked: Asked, answer: SearchAnswer) -> Facet:
    """The aircraft that hits are marked for: it filters nothing by itself."""
    held = registrations(library)
    if answer.aircraft:
        name = answer.aircraft.registration
        chips = [Chip(f"Marked for {name}", choose_address(replace(asked, hide=()).address, ""), on=True)]
    elif len(held) <= MOST_AIRCRAFT:
        chips = [Chip(each, choose_address(asked.address, each)) for each in held]
    else:
        chips = [Chip("Choose an aircraft", choose_address(asked.address))]
    return Facet("aircraft", "Aircraft", tuple(chips))


def _left_out_facet(library: OpenedLibrary, asked: Asked, answer: SearchAnswer) -> Facet:
    """What may be left out: what is not current, what does not apply."""
    chips = []
    if not asked.current and (count := current_count(library, answer)):
        chips.append(Chip(CURRENT_ONLY, replace(asked, current=(ON,)).address, count))
    if answer.aircraft and not asked.hide and (count := not_hidden_count(library, answer)):
        name = f"Hide what does not apply to {answer.aircraft.registration}"
        chips.append(Chip(name, replace(asked, hide=(HIDE,)).address, count))
    return Facet("left-out", "Show less", tuple(chips))


def _groups(asked: Asked, answer: SearchAnswer) -> list[GroupView]:
    """Hits under their chapters; of one chapter that is asked for, all in one group."""
    if len(asked.chapter) == 1 and answer.total:
        chapter = "" if asked.chapter[0] == NO_NUMBER else asked.chapter[0]
        hits = sorted((hit for group in answer.groups for hit in group.hits), key=lambda hit: hit.place)
        title = chapter_words(chapter[:2])
        return [GroupView(chapter, title, answer.total, _hits(hits, asked, answer), "", "", "")]
    return [_group(group, asked, answer) for group in answer.groups]


def _group(group: Group, asked: Asked, answer: SearchAnswer) -> GroupView:
    more = group.count - len(group.hits)
    chapter = group.chapter or NO_NUMBER
    query = asked.without_chapters.address.removeprefix("/").removeprefix("?")
    by_section = bool(answer.filters.sections)  # then a whole chapter would be more than the group
    return GroupView(
        group.chapter,
        group.title,
        group.count,
        _hits(group.hits, asked, answer),
        "" if by_section else f"/find/chapter/{chapter}?{query}",
        asked.with_value("chapter", chapter).address if more > 0 and not by_section else "",
        f"All {group.count:,} {f'in chapter {group.chapter}' if group.chapter else 'not numbered'}",
    )


def _hits(hits: Any, asked: Asked, answer: SearchAnswer) -> list[HitView]:
    back = asked.address.removeprefix("/?")
    name = answer.aircraft.registration if answer.aircraft else ""
    return [hit_view(hit, _as_found(hit, asked, answer), back, name) for hit in hits]


def _as_found(hit: Hit, asked: Asked, answer: SearchAnswer) -> str:
    """The question with the word being typed written out as in the hit, to be marked on its page."""
    begun = answer.wording.begun
    if begun is None or not asked.q.endswith(begun.words[0]):
        return asked.q
    there = {token.text for token in tokens("\n".join((*hit.passage.heading_path, hit.passage.text)))}
    whole = next((other for other in begun.others if other in there), begun.words[0])
    return asked.q.removesuffix(begun.words[0]) + whole


def _spread_words(answer: SearchAnswer) -> str:
    """ "in 3 chapters and 2 not numbered": where the passages found stand."""
    numbered = sum(1 for chapter in answer.by_chapter if chapter)
    loose = answer.by_chapter.get("", 0)
    parts = [f"in {count_of(numbered, 'chapter')}"] if numbered else []
    if loose:
        parts.append(
            f"{'and ' if parts else ''}{loose:,} without a chapter number"
            if parts
            else "without a chapter number"
        )
    return " ".join(parts)


def _publication_names(library: OpenedLibrary, asked: Asked) -> dict[str, str]:
    return {each: publication_name(library.publication(each)) for each in asked.publication}
