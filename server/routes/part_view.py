"""All about one row of a parts list -> what its page shows: pictures, tree, successors, the fleet."""

from dataclasses import dataclass
from typing import Any

from server.opened import OpenedLibrary
from server.routes import part_pictures as pictures
from server.routes.parts_view import (
    Fields,
    RowView,
    applies_view,
    named_view,
    page_words,
    part_address,
    parts_address,
    row_view,
)
from server.words import count_of

_NO_NUMBER = "a number that was not read"


@dataclass(frozen=True, slots=True)
class Saying:
    """A row that says it, in words and as printed; row_address "" = it is the row of the page."""

    said: str
    printed: str
    row_address: str


@dataclass(frozen=True, slots=True)
class Change:
    """first -> how -> second: read from left to right. The number of the page itself leads nowhere."""

    first: str
    first_address: str
    how: str
    second: str
    second_address: str
    held: str
    sayings: tuple[Saying, ...]


def part_view(library: OpenedLibrary, answer: Fields, zoom: int) -> dict[str, Any]:
    """What part_row.html shows; call it inside `reading`."""
    row = row_view(answer)
    owner = library.publication(answer["publication"]["id"])
    marks = answer["marks"]
    art = [
        pictures.marked_page(
            library,
            owner,
            each["pdf_page"],
            _art_caption(row, each),
            zoom,
            outlined=pictures.item_marks(each["callouts"]),
            label=f"{row.item_words} is outlined",
        )
        for each in marks["art"]
    ]
    pages = sorted({box.get("pdf_page", marks["list_page"]) for box in marks["row"]} | {marks["list_page"]})
    lists = [
        pictures.marked_page(
            library,
            owner,
            pdf_page,
            f"The row in the list, {page_words('', pdf_page)}",
            zoom,
            outlined=pictures.row_marks(marks["row"], pdf_page),
            filled=pictures.number_marks(marks["number"]) if pdf_page == marks["list_page"] else (),
            label="The row is outlined and its part number marked",
        )
        for pdf_page in pages
    ]
    return {
        "row": row,
        "named_in": named_view(answer["named_in"]),
        "art": art,
        "art_words": _art_words(answer, art),
        "list": lists,
        "zooms": pictures.zooms(zoom, part_address(row.id)),
        "zoom_class": pictures.zoom_class(zoom),
        "changes": _changes(answer),
        "above": [row_view(each) for step in answer["above"] for each in (*step["variants"], step)],
        "above_title": _above_title(answer["above"]),
        "above_words": _above_words(answer),
        "attaches": [row_view(each) for each in (answer["attaches"], *answer["attaches_also"]) if each],
        "attaching": [row_view(each) for each in answer["attaching_parts"]],
        "below": [row_view(each) for each in answer["below"]],
        "elsewhere": [row_view(each) for each in answer["used_elsewhere"]],
        "elsewhere_count": answer["used_elsewhere_count"],
        "alike": [row_view(each) for each in answer["may_be_used_elsewhere"]],
        "alike_count": answer["may_be_used_elsewhere_count"],
        "bulletins": answer["bulletins"],
        "figures": answer["figures"],
        "fleet": [applies_view(each) for each in answer["fleet"]],
        "fleet_words": _fleet_words(answer["fleet_counts"]),
        "look": parts_address(row.number),
        "origin": row.read or "Text as the file holds it.",
        "cautions": answer["cautions"],
    }


def _art_caption(row: RowView, each: Fields) -> str:
    page = page_words("", each["pdf_page"])
    return (
        f"The figure, {page}: {row.item_words.lower()} is outlined"
        if each["callouts"]
        else f"The figure, {page}"
    )


def _art_words(answer: Fields, art: list[pictures.MarkedPage]) -> str:
    """Why nothing is marked on the figure; "" = something is."""
    if not answer["illustrated"]:
        return "The list says that this item is not illustrated."
    if not art:
        return "No page with the picture of this figure was found."
    if not any(page.boxes for page in art):
        return "The item's number was not found in the text of the figure: look for it on the picture."
    return ""


def _above_title(above: list[Fields]) -> str:
    if any(step["variants"] for step in above):
        return "Assemblies above, nearest first; variants beside each other, it belongs to each"
    return "Assembly above" if len(above) < 2 else "Assemblies above, nearest first"


def _above_words(answer: Fields) -> str:
    if answer["above"] or answer["attaches"]:
        return ""
    if answer["indenture"] == 0:
        return "It has no dots: it is an assembly of the figure."
    return "Which assembly it belongs to is not certain: read the page."


def _changes(answer: Fields) -> list[Change]:
    """What supersedes the part and what it supersedes, step by step; what several rows say stands once."""
    said = answer["supersession"]
    steps = [
        *((each["after"], _way(each), each["number"], each) for each in said["replaced_by"]),
        *((each["number"], _way(each), each["after"], each) for each in said["replaces"]),
        *((each["after"], "optional or alternate part", each["number"], each) for each in said["either_way"]),
        *((each["after"], "is to be ordered as", each["number"], each) for each in said["order"]),
    ]
    by_step: dict[tuple[str, str, str], list[Fields]] = {}
    for first, how, second, each in steps:
        by_step.setdefault((first, how, second), []).append(each)
    return [_change(*step, every, answer) for step, every in by_step.items()]


def _way(each: Fields) -> str:
    return "is superseded by" if "superse" in each["said"] else "is replaced by"


def _change(first: str, how: str, second: str, every: list[Fields], answer: Fields) -> Change:
    this, other, count = answer["part_number"], every[0]["number"], every[0]["count"]
    rows = f"is in {count_of(count, 'row')}" if count else "has no row"
    return Change(
        first or _NO_NUMBER,
        parts_address(first) if first and first != this else "",
        how,
        second or _NO_NUMBER,
        parts_address(second) if second and second != this else "",
        f"{other} {rows} of the lists held here.",
        tuple(
            Saying(
                each["said"],
                each["words"],
                each["from"]["address"] if each["from"]["id"] != answer["id"] else "",
            )
            for each in every
        ),
    )


def _fleet_words(counts: Fields) -> list[str]:
    """Aircraft that are not answered one by one, in words."""
    outside, unanswered = counts["not covered by the publication"], counts["not answered here"]
    said = []
    if outside:
        said.append(
            f"The publication does not cover {count_of(outside, 'other aircraft').removesuffix('s')}."
        )
    if unanswered:
        said.append(f"{unanswered:,} more are not answered here: take one in hand.")
    return said
