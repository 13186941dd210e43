"""Words for a system's listing that the page, the CSV file and the terminal share. Pure."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from indexer.trade.evidence import Basis
from server.applies_words import hidden_words
from server.ocr_words import ReadWords, read_words
from server.system_asked import number_name
from server.system_how import HOW_COUNTED, HOW_WORDS
from server.system_order import ONE_SUBJECT
from server.system_records import Cause, Counts, Hidden, How, Line, PagePlace, WordCounts
from server.words import count_of, publication_name, shortened, standing_words

_MOST_ALSO = 3  # other words named


def pages_words(pages: Iterable[int]) -> str:
    """ "5", "5 to 7", "5 to 7, 12": numbers in order, runs drawn together."""
    runs: list[list[int]] = []
    for page in sorted(set(pages)):
        if runs and page == runs[-1][-1] + 1:
            runs[-1].append(page)
        else:
            runs.append([page])
    return ", ".join(f"{run[0]} to {run[-1]}" if len(run) > 1 else str(run[0]) for run in runs)


def printed_words(pages: Sequence[PagePlace]) -> str:
    """ "401 to 403", "5-12, 5-14": as printed, runs of the file drawn together; "" when none is."""
    runs: list[list[PagePlace]] = []
    for page in pages:
        if not page.printed_page:
            continue
        if runs and page.pdf_page == runs[-1][-1].pdf_page + 1:
            runs[-1].append(page)
        else:
            runs.append([page])
    return ", ".join(
        f"{run[0].printed_page} to {run[-1].printed_page}" if len(run) > 1 else run[0].printed_page
        for run in runs
    )


def places_words(pages: Sequence[PagePlace]) -> str:
    """ "Printed pages 401 to 403 (PDF pages 31 to 33)", "PDF page 5, no printed page number found".

    "Pages 1 to 3" where both agree.
    """
    pdf = pages_words(page.pdf_page for page in pages)
    if printed_words(pages) == pdf:
        return f"Page{'s' if len(pages) > 1 else ''} {pdf}"
    sheets = f"PDF page{'s' if len(pages) > 1 else ''} {pdf}"
    printed = [page for page in pages if page.printed_page]
    if not printed:
        return f"{sheets}, no printed page number found"
    return f"Printed page{'s' if len(printed) > 1 else ''} {printed_words(pages)} ({sheets})"


def line_title(line: Line, one_subject: bool) -> str:
    """What a line is called: the paper, or in a manual the number with what stands there."""
    record = line.publication
    if one_subject:
        return publication_name(record)
    number = f"Section {line.own}" if line.own else number_name(line.number) if line.number else ""
    subject = line.subject or (line.headings[0] if line.headings else "") or line.block
    return " ".join(part for part in (number, subject) if part) or record.title or record.file


def standings_words(lines: Sequence[Line]) -> str:
    """ "Standing of the 40 lines: 3 approved data, 35 not determined, 2 not the same over their pages." """
    if not lines:
        return ""
    of_each = [set(map(standing_words, line.standings)) for line in lines]
    alike = Counter(standings.pop().lead for standings in of_each if len(standings) == 1)
    counted = [f"{count:,} {lead[:1].lower()}{lead[1:]}" for lead, count in alike.most_common()]
    if mixed := len(lines) - alike.total():
        counted.append(f"{mixed:,} not the same over {'its' if mixed == 1 else 'their'} pages")
    return f"Standing of the {count_of(len(lines), 'line')}: {', '.join(counted)}."


def rest_words(lines: Sequence[Line]) -> str:
    """ "9 more lines: QZM-62-2: MAINTENANCE MANUAL (7); SHOP MANUAL, WT-5 (2)"; "" for none."""
    if not lines:
        return ""
    of_each = Counter(publication_name(line.publication) for line in lines)
    named = "; ".join(f"{name} ({count:,})" for name, count in of_each.items())
    return f"{count_of(len(lines), 'more line')}: {named}"


def line_reading(line: Line) -> ReadWords | None:
    """How the passages of a line were read; None where all are born digital."""
    read = read_words(line.read)
    some = read and len(line.read) < len(line.passages)
    if not some:
        return read
    part = f"{read.label}: {len(line.read):,} of {count_of(len(line.passages), 'passage')}"
    return replace(read, label=part)


def how_words(line: Line) -> str:
    """ "Printed", "Likely 32", "Filed under 52, refers to it": with the number where the title has it not."""
    shown = not line.own and line.publication.type not in ONE_SUBJECT
    if line.number is None or shown:
        return HOW_WORDS[line.how]
    if line.how in (How.REFERRED, How.TIED):
        words = HOW_WORDS[line.how]
        return f"Filed under {number_name(line.number)}, {words[:1].lower()}{words[1:]}"
    return f"{HOW_WORDS[line.how]} {number_name(line.number)}"


def evidence_words(line: Line, length: int = 120) -> str:
    """ ": «see 32-42-00» (PDF page 31)"; "" where nothing is quoted but the number that is shown."""
    evidence = line.evidence
    if evidence is None or not evidence.quote or evidence.quote == str(line.number):
        return ""
    page = f" (PDF page {evidence.pdf_page})" if evidence.pdf_page else ""
    if evidence.basis is Basis.INFERRED:
        return f", by the words {shortened(evidence.quote, length)}{page}"
    return f": “{shortened(evidence.quote, length)}”{page}"


def elsewhere_words(elsewhere: Mapping[str, int]) -> str:
    """What is filed in other parts of the chapter and so not listed; "" when nothing is."""
    if not elsewhere:
        return ""
    total = sum(elsewhere.values())
    parts = ", ".join(f"{count:,} under {name}" for name, count in elsewhere.items())
    return f"Not listed, in other parts of the chapter: {count_of(total, 'passage')} ({parts})."


def word_counts_words(counts: WordCounts) -> str:
    """Where the passages with the words asked for stand."""
    also = f" or {', '.join(counts.also[:_MOST_ALSO])}" if counts.also else ""
    return (
        f"“{counts.words}”{also} stands in {count_of(counts.total, 'passage')} of the library:"
        f" {counts.listed:,} listed here, {counts.elsewhere:,} filed elsewhere,"
        f" {counts.not_numbered:,} not numbered."
    )


def how_counts_words(counts: Counts) -> str:
    """ "73 printed, 11 tied to a listed paper": passages by how we know."""
    return ", ".join(f"{count:,} {HOW_COUNTED[how]}" for how, count in counts.by_how.items())


def hidden_in_listing(hidden: Hidden, registration: str) -> str:
    """How many passages are hidden, of how many publications, and whether directives are among them."""
    words = hidden_words(len(hidden.passages), registration)
    if not hidden.passages:
        return words
    words = f"{words[:-1]}, of {count_of(len(hidden.publications), 'publication')}."
    if hidden.directives:
        count = len(hidden.directives)
        kinds = "directive or proposal" if count == 1 else "directives or proposals"
        words += f" Among them: {count} {kinds} ({'; '.join(hidden.directives)})."
    return words


def cause_words(cause: Cause) -> str:
    """ "146 passages carry no number ..."."""
    words = cause.words
    if cause.total == 1:
        for many, one in (("stand ", "stands "), ("carry ", "carries "), ("have ", "has "), ("are ", "is ")):
            words = words.replace(many, one, 1) if words.startswith(many) else words
    return f"{count_of(cause.total, cause.unit)} {words}"
