"""Rows at a figure and item: of one catalogue, or of all that have it, for the reader to choose."""

import re
from collections.abc import Callable, Collection
from typing import Any

from indexer.errors import PublicationUnknown, QueryProblem
from indexer.library import parts
from indexer.library.catalogue import Catalogue
from indexer.library.parts_records import FigureRecord
from indexer.library.records import PublicationRecord
from server.kept import KeptByState
from server.opened import OpenedLibrary
from server.parts_asked import PartsAsked, PartsKind, parts_asked
from server.parts_found import Found
from server.parts_words import folded_number, place_words
from server.shelf import named_all
from server.words import count_of, publication_kind

_figures = KeptByState(most=4)
_LETTERS = re.compile("[A-Z]+$")
_MOST_LISTED = 12  # figures that a refusal names


def every_figure(catalogue: Catalogue) -> list[FigureRecord]:
    """Figures on the shelf, read once for each state of the library; inside `reading`."""
    return _figures.of(catalogue, catalogue.generation).once("all", lambda: parts.figures(catalogue))


def by_place(
    catalogue: Catalogue,
    asked: PartsAsked,
    publications: Collection[str] | None,
    named: Callable[[str], dict[str, Any]],
) -> Found:
    """Rows of the figure, and of the item where one is asked for.

    publications   ids to stay within; None = all
    named          a publication as plain data, for the choice between several
    """
    found = Found()
    held = [
        each
        for each in every_figure(catalogue)
        if publications is None or each.publication_id in publications
    ]
    figures = figures_meant(held, asked)
    if not figures:
        found.said.append(f"No parts list here has {asked.place.rpartition(', item')[0] or asked.place}.")
        return found
    item = folded_number(asked.item)
    by_publication: dict[str, int] = {}
    others: dict[str, int] = {}
    holding: list[FigureRecord] = []
    for figure in figures:
        for key, held_item in parts.items_of(catalogue, figure.publication_id, figure.figure.ordinal):
            if item and folded_number(held_item) != item:
                if _is_variant(held_item, item):
                    others[held_item] = others.get(held_item, 0) + 1
                continue
            found.add("figure and item", key)
            holding += [figure] if figure not in holding[-1:] else []
            by_publication[key[0]] = by_publication.get(key[0], 0) + 1
    if not by_publication:
        found.said.append(f"The figure is here, and no row of it is item {asked.item}.")
    found.said += [
        f"{other} is another item of the figure: {count_of(count, 'row')}."
        for other, count in sorted(others.items())
    ]
    found.said += _sections_to_name(holding, asked)
    if len(by_publication) > 1:
        lists = count_of(len(by_publication), "parts list")
        found.said.append(f"{lists} have {asked.place}: choose the one for the aircraft.")
    found.choices = [{**named(each), "rows": count} for each, count in by_publication.items()]
    return found


def _sections_to_name(figures: Collection[FigureRecord], asked: PartsAsked) -> list[str]:
    """Books by chapter begin each section with figure 1: says that the section tells them apart."""
    sections: dict[str, set[str]] = {}
    for each in figures:
        sections.setdefault(each.publication_id, set()).add(each.figure.number)
    most = max(sections.values(), key=len, default=set())
    if len(most) < 2 or asked.section.count("-") > 1:
        return []
    example = f"{max(most)} fig {asked.figure}{f' item {asked.item}' if asked.item else ''}"
    return [
        f"Figure {asked.figure}{' with this item' if asked.item else ''} stands in {len(most)} sections of "
        f"one parts list: name the section as well, as in {example}."
    ]


def figures_meant(figures: Collection[FigureRecord], asked: PartsAsked) -> list[FigureRecord]:
    """Figures with the number asked for as a whole, or with their section before it; else those whose number
    ends with it: figure 01 of 32-42-00 is also printed 32-42-00-01."""
    wanted, section = folded_number(asked.figure), folded_number(asked.section)
    whole = [
        each
        for each in figures
        if folded_number(each.figure.figure) == wanted
        and (not section or _is_of(folded_number(each.figure.number), section))
    ]
    if section:
        joined = f"{section}-{wanted}"
        return whole or [each for each in figures if folded_number(each.figure.figure) == joined]
    in_one = [each for each in figures if each.figure.number and _in_one(each) == wanted]
    if whole or in_one:
        return [*whole, *(each for each in in_one if each not in whole)]
    return [
        each
        for each in figures
        if each.figure.figure.count("-") > 1
        and folded_number(each.figure.figure).rpartition("-")[2] == wanted
    ]


def _is_of(number: str, section: str) -> bool:
    """Whether a figure of 32-42-00 is asked for: by 32-42-00, or by 32-42."""
    return number == section or (section.count("-") == 1 and number.startswith(f"{section}-"))


def _in_one(figure: FigureRecord) -> str:
    """Section and figure as one number: 32-41-00 and 1 as 32-41-00-01, folded."""
    return folded_number(f"{figure.figure.number}-{figure.figure.figure}")


class FigureNotOne(QueryProblem):
    """A figure number that no figure of a parts list has, or several."""

    slug = "figure-not-one"

    def __init__(
        self,
        given: str,
        found: Collection[tuple[FigureRecord, PublicationRecord]],
        held: Collection[tuple[FigureRecord, PublicationRecord]],
    ):
        what = f"{count_of(len(found), 'figure')} of these parts lists are figure {given}."
        named = list(found or held)
        typed = [_typed(each) for each, _ in named]
        listed = [
            f"{words if typed.count(words) == 1 else each.id} ({_titled(each, of, typed.count(words) > 1)})"
            for words, (each, of) in zip(typed, named, strict=True)
        ]
        more = f"; and {len(listed) - _MOST_LISTED} more" if len(listed) > _MOST_LISTED else ""
        super().__init__(
            what if found else f"No figure {given} in this parts list.",
            f"Type one of these: {'; '.join(listed[:_MOST_LISTED])}{more}."
            if named
            else "No figure of it was read: hangarleaf part finds what was.",
        )


def _typed(figure: FigureRecord) -> str:
    """What names the figure when it is typed: "32-42-00 fig 1"."""
    return place_words(figure.figure.figure, "", figure.figure.number).replace("figure ", "fig ")


def _titled(figure: FigureRecord, of: PublicationRecord, alike: bool) -> str:
    edition = publication_kind(of.type, of.revision, of.date, of.entered)
    return ", ".join(filter(None, (figure.figure.title, edition if alike else "")))


def figure_named(library: OpenedLibrary, catalogue: str, given: str) -> str:
    """The id of the one figure with a number ("14", "32-42-00 fig 14", "32-42-00-14", also with an item) in
    the parts lists of a name, or of the one figure of a section ("32-42-00").

    Raises PublicationUnknown, FigureNotOne.
    """
    named = named_all(library, catalogue)
    if not named:
        raise PublicationUnknown(catalogue)
    asked = parts_asked(given)
    if asked.kind is not PartsKind.PLACE:
        asked = parts_asked("", figure=given)
    with library.reading():
        ids = {each.id for each in named}
        held = [each for each in every_figure(library.catalogue) if each.publication_id in ids]
    section = folded_number(asked.figure)
    found = figures_meant(held, asked) or [
        each for each in held if not asked.section and folded_number(each.figure.number) == section
    ]
    if len(found) != 1:
        raise FigureNotOne(
            given,
            [(each, library.publication(each.publication_id)) for each in found],
            [(each, library.publication(each.publication_id)) for each in held],
        )
    return found[0].id


def _is_variant(held: str, asked: str) -> bool:
    """15A beside 15: an added or alternate part."""
    return _LETTERS.sub("", folded_number(held)) == _LETTERS.sub("", asked)
