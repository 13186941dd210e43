"""What a question leads straight to, as the lines above its hits. No catalogue is read here."""

from dataclasses import dataclass

from server.applies_words import AppliesWords, applies_words
from server.current import CurrentWords, current_words
from server.routes.addresses import publication_address
from server.routes.parts_view import figure_address, figure_words, part_address, parts_address
from server.search import SearchAnswer, listing_address
from server.straight_to import HeldFigure, HeldPublication, StraightTo
from server.system_asked import number_name
from server.words import count_of, publication_kind, publication_name


@dataclass(frozen=True, slots=True)
class StraightLine:
    """kind   what it leads to, in a word; currency, now and applies as beside a hit"""

    kind: str
    name: str
    address: str
    where: str = ""
    currency: tuple[str, ...] = ()
    now: CurrentWords | None = None
    applies: AppliesWords | None = None


def straight_lines(found: StraightTo, answer: SearchAnswer, question: str) -> list[StraightLine]:
    """Publications, parts, figures, then the complete listings of systems."""
    registration = answer.aircraft.registration if answer.aircraft else ""
    lines = [_publication(each, registration) for each in found.publications]
    if found.more_publications:
        more = f"{count_of(found.more_publications, 'more publication')} with this number"
        lines.append(StraightLine("Publications", more, "/publications"))
    if part := found.part:
        rows = f"{count_of(part.rows, 'row')} of parts lists"
        address = part_address(part.only_row) if part.only_row else parts_address(part.number)
        alike = f"and {part.alike:,} that only look alike, or were read by OCR" if part.alike else ""
        lines.append(StraightLine("Part", f"{part.number}: {rows}", address, alike))
    lines += [_figure(each) for each in found.figures]
    if found.more_figures:
        more = f"{count_of(found.more_figures, 'more figure')} with this number"
        lines.append(StraightLine("Figures", more, parts_address(question)))
    for each in answer.systems:
        name = number_name(each.number)
        lines.append(
            StraightLine("System", f"{name} {each.title}", listing_address(name), "everything, complete")
        )
    return lines


def _publication(held: HeldPublication, registration: str) -> StraightLine:
    record = held.record
    return StraightLine(
        "Publication",
        publication_name(record),
        publication_address(record.id),
        publication_kind(record.type, record.revision, record.date, record.entered),
        held.currency,
        current_words(held.current, held.currency),
        applies_words(held.applies, registration),
    )


def _figure(held: HeldFigure) -> StraightLine:
    fields = {"figure": held.figure.figure.figure, "number": held.figure.figure.number}
    name = figure_words({**fields, "title": held.figure.figure.title})
    row = held.rows[0].id if held.rows else ""
    parts = "; ".join(f"{each.row.part_number} {each.row.nomenclature}".strip() for each in held.rows)
    of = publication_name(held.publication)
    return StraightLine(
        "Figure",
        f"{name}, item {held.item}: {parts}" if held.rows else name,
        figure_address(held.figure.id, row),
        of,
        ("Superseded publication.",) if held.superseded else (),
    )
