"""A job packet as a list of sheets: which original pages, in what order, what each strip says. Pure."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

from server.packet_strip import Line

REFERENCE = "Reference copy: check the revision before use."
BESIDE = "Strip added at the left; page content at its true size."
_APPLIES = {"applies": "Applies to", "does not apply": "DOES NOT APPLY to", "cannot tell": "Cannot tell for"}


@dataclass(frozen=True, slots=True)
class PlannedPage:
    """One original page. `lines` go on its strip, before and after what the whole packet says."""

    item: int  # 1-based place of the item it belongs to
    copy_id: str
    pdf_page: int
    name: str  # "SB QZ62-32-0114, PDF page 3 (printed 201)"
    lines: tuple[Line, ...]


@dataclass(frozen=True, slots=True)
class PlannedWords:
    """A sheet of our own in place of pages: a finding, or that an item is not held any more."""

    item: int
    name: str
    finding: Mapping[str, Any] | None = None  # the item's fields; None = its source is gone


Planned = PlannedPage | PlannedWords


def plan(fields: Mapping[str, Any]) -> tuple[Planned, ...]:
    """The sheets after the cover, in order. A page of several items comes once, with the first of them, and
    says what there is to say of each: what holds for one passage of a page does not hold for another."""
    sheets: list[Planned] = []
    seen: set[tuple[str, int]] = set()
    together = _together(fields["items"])
    for place, item in enumerate(fields["items"], start=1):
        if item["kind"] == "finding" or not item["now"]["held"]:
            held = item["now"]["held"]
            sheets.append(PlannedWords(place, item["name"], item if held else None))
            continue
        source = item["now"]["source"]
        for page in item["now"]["pages"]:
            key = (source["id"], page["pdf_page"])
            if key in seen:
                continue
            seen.add(key)
            aircraft = fields["aircraft"]
            sheets += _before(place, source, page, aircraft)
            own = [line for each in together[key] for line in _own(*each)]
            worth = [line for each in together[key] for line in _worth(*each, aircraft)]
            sheets.append(_page(place, source, page, own, [*worth, applies_line(page["applies"], aircraft)]))
    return tuple(sheets)


def _together(items: Sequence[Mapping[str, Any]]) -> dict[tuple[str, int], list[tuple[Mapping, Mapping]]]:
    """For each page (publication, PDF page) the items that it belongs to, each with the page as it has it."""
    found: dict[tuple[str, int], list[tuple[Mapping, Mapping]]] = {}
    for item in items:
        if item["kind"] != "finding" and item["now"]["held"]:
            for page in item["now"]["pages"]:
                key = (item["now"]["source"]["id"], page["pdf_page"])
                found.setdefault(key, []).append((item, page))
    return found


def _worth(item: Mapping[str, Any], page: Mapping[str, Any], aircraft: str) -> list[Line]:
    """The standing that an item has on a page; of a passage or row by name, and whether it applies."""
    standing = standing_lines(page["standing"])
    if item["kind"] not in ("passage", "part"):
        return standing
    named = item["now"]["called"] or f"The {'passage' if item['kind'] == 'passage' else 'row'} collected"
    lines = [*standing, applies_line(item["now"]["applies"], aircraft)]
    return [Line(f"{named}: {each.words}", each.strong) for each in lines]


def _before(place: int, source: Mapping, page: Mapping, aircraft: str) -> Iterator[PlannedPage]:
    """Pages of temporary revisions, in front of the page they change."""
    for each in page["overrides"]:
        if each["in_front"]:
            words = f"Read this first: it changes {page_name(source, page)}, the page behind it."
            if each["state"] != "in force":
                words = f"Read this and {page_name(source, page)}, the page behind it: {each['words']}"
            before = each["page"]
            worth = [*standing_lines(before["standing"]), applies_line(before["applies"], aircraft)]
            yield _page(place, each["source"], before, [Line(words, strong=True)], worth)


def _own(item: Mapping[str, Any], page: Mapping[str, Any]) -> list[Line]:
    """What is said of a page beside its standing: what changed since it was added, and what overrides it."""
    lines = [Line(f"Since it was added: {each['words']}", strong=True) for each in item["changes"]]
    for each in page["overrides"]:
        where = " Its page stands in front of this one." if each["in_front"] else ""
        lines.append(Line(f"{each['words']}{where}", strong=each["in_front"]))
    if item["note"]:
        lines.append(Line(f"Note of the packet: {' '.join(item['note'].split())}"))
    return lines


def _page(
    place: int,
    source: Mapping[str, Any],
    page: Mapping[str, Any],
    more: Sequence[Line],
    worth: Sequence[Line],
) -> PlannedPage:
    """more: what changed, what overrides it, notes; worth: standing, and whether it applies."""
    name = page_name(source, page)
    against = page["current"]["state"] in ("superseded", "the check has expired")
    lines = [
        Line(f"{name}. {source['name']}. {source['kind']}."),
        Line(page["current"]["words"], strong=against),
        *more,
        *worth,
    ]
    if page["not_read"]:
        lines.append(Line(page["not_read"]))
    elif page["read_by_ocr"]:
        lines.append(Line("Its text was read by OCR: read the page itself before you cut, torque or sign."))
    return PlannedPage(place, source["copy_id"], page["pdf_page"], name, tuple(dict.fromkeys(lines)))


def page_name(source: Mapping[str, Any], page: Mapping[str, Any]) -> str:
    printed = f" (printed {page['printed_page']})" if page["printed_page"] else ""
    return f"{source['short']}, PDF page {page['pdf_page']}{printed}"


def standing_lines(standing: Mapping[str, Any]) -> list[Line]:
    """The standing, and the words quoted for it with where they stand; in short, for a strip."""
    parts = standing["parts"]
    if len(parts) > 2:
        return [Line(f"{standing['lead']}. The words for each are on the cover.", strong=True)]
    lines = []
    for each in parts:
        quote = f" «{each['quote']}» ({each['quote_place']})" if each["quote"] else ""
        notes = f" {' '.join(each['notes'])}" if each["notes"] else ""
        lines.append(Line(f"{each['lead']}. {each['why']}{quote}{notes}"))
    if len({each["lead"] for each in parts}) > 1:
        lines.insert(0, Line(f"{standing['lead']}.", strong=True))
    return lines


def applies_line(answer: Mapping[str, str], aircraft: str) -> Line:
    whose = aircraft or "an aircraft"
    words = f"{_APPLIES[answer['answer']]} {whose}: {answer['why']}"
    return Line(words, strong=answer["answer"] == "does not apply")


def strip_lines(
    sheet: PlannedPage, number: int, of: int, fields: Mapping[str, Any], printed: str
) -> tuple[Line, ...]:
    """All lines of a page's strip; number: of the sheet in the packet, 1-based."""
    state = fields["library_state"]
    demonstration = [Line(state["demonstration"], strong=True)] if state["demonstration"] else []
    return (
        Line(f"{REFERENCE} Page {number} of {of} of the job packet.", strong=True),
        *demonstration,
        *sheet.lines,
        Line(
            f"Job: {fields['name']}. Aircraft: {fields['aircraft_words']}. Printed {printed}, library state "
            f"{state['generation']}. {BESIDE}"
        ),
    )
