"""The listing of a system as CSV (RFC 4180): a row a line, then one a cause of what is not listed."""

import re
from collections.abc import Iterable, Iterator

from indexer.errors import HangarleafError
from indexer.library.records import ReferenceState
from server.applies_words import hidden_words
from server.csv_file import csv_text
from server.fleet import aircraft_words, confirmed_words
from server.system import answer_name
from server.system_asked import number_name
from server.system_how import HOW_WORDS
from server.system_records import Line, Mention, Part, SystemAnswer
from server.system_text import line_reading, pages_words, printed_words
from server.words import SHORT_CAUTION, basis_words, standing_words

NOT_LISTED = "not listed"
HIDDEN = "hidden"
COLUMNS = (
    "system", "part", "group", "publication", "title", "type", "revision", "date", "file", "publication id",
    "page block", "number", "scheme", "own section", "subject", "headings", "printed pages", "pdf pages",
    "how we know", "basis", "evidence", "evidence pdf page", "rule", "confidence", "also read as",
    "data standing", "aircraft", "applies", "why it applies or not", "words that say so", "currency", "ties",
    "refers to", "referred from", "why here", "read by OCR", "passages",
    "passages with the words", "passage ids", "library state", "library changed", "made at", "caution",
)  # fmt: skip


class NotWritten(HangarleafError):
    """The file to write to cannot be written."""

    slug = "not-written"

    def __init__(self, file: str, detail: str):
        super().__init__(
            f"{file}: the file cannot be written ({detail}).", "Name another file, or check its folder."
        )


def system_csv(answer: SystemAnswer) -> str:
    """The whole file as text, rows ended by CR LF. Write it as utf-8-sig: spreadsheets need the mark."""
    hand = answer.aircraft
    every_row = {
        "aircraft": f"{aircraft_words(hand)}; {confirmed_words(hand, answer.state.day)}" if hand else "",
        "system": answer_name(answer),
        "library state": str(answer.state.generation),
        "library changed": answer.state.changed_at.isoformat(),
        "made at": answer.state.shown_at.isoformat(),
        "caution": f"{answer.state.demonstration} {SHORT_CAUTION}".strip(),
    }
    return csv_text(COLUMNS, ({**every_row, **row} for row in _rows(answer)))


def _rows(answer: SystemAnswer) -> Iterator[dict[str, str]]:
    for section in answer.sections:
        for line in section.lines:
            yield _row(section.part, line)
    if answer.hidden is not None and answer.aircraft:
        hidden = len(answer.hidden.passages)
        why = hidden_words(hidden, answer.aircraft.registration)
        yield {"part": HIDDEN, "why here": why, "passages": str(hidden)}
    for cause in answer.remainder:
        why = f"{cause.total} {cause.unit}s {cause.words}"
        if cause.key == "not read":
            why = f"{why}. {answer.owed.words}"
        yield {"part": NOT_LISTED, "why here": why, "passages": str(cause.total)}


def file_name(answer: SystemAnswer) -> str:
    """ "system-32-41.csv": plain letters, figures and dashes."""
    name = re.sub(r"[^A-Za-z0-9]+", "-", number_name(answer.taken.number)).strip("-").lower()
    return f"system-{name}.csv"


def _row(part: Part, line: Line) -> dict[str, str]:
    record, evidence = line.publication, line.evidence
    return {
        "part": part.value,
        "group": line.group.title,
        "publication": record.number,
        "title": record.title,
        "type": record.type.value if record.type else "",
        "revision": record.revision,
        "date": record.date.isoformat() if record.date else "",
        "file": record.file,
        "publication id": record.id,
        "page block": line.block,
        "number": str(line.number) if line.number else "",
        "scheme": line.number.scheme.value if line.number else "",
        "own section": line.own,
        "subject": line.subject,
        "headings": _joined(line.headings),
        "printed pages": printed_words(line.pages),
        "pdf pages": pages_words([page.pdf_page for page in line.pages]),
        "how we know": HOW_WORDS[line.how],
        "basis": basis_words(evidence) if evidence else "",
        "evidence": evidence.quote if evidence else "",
        "evidence pdf page": str(evidence.pdf_page or "") if evidence else "",
        "rule": evidence.rule if evidence else "",
        "confidence": "" if evidence is None or evidence.confidence is None else f"{evidence.confidence:.3f}",
        "also read as": _joined(number_name(number) for number in line.also_read),
        "data standing": _joined(
            dict.fromkeys(f"{words.lead}. {words.why}" for words in map(standing_words, line.standings))
        ),
        "applies": line.applies.value if line.applies else "",
        "why it applies or not": line.applies.why if line.applies else "",
        "words that say so": line.applies.quote if line.applies else "",
        "currency": _joined(line.currency),
        "ties": _joined(tie.words for tie in line.ties),
        "refers to": _joined(dict.fromkeys(map(_mention, line.refers_to))),
        "referred from": _joined(dict.fromkeys(map(_mention, line.referred_from))),
        "why here": line.wider,
        "read by OCR": f"{read.label}. {read.doubt}".strip() if (read := line_reading(line)) else "",
        "passages": str(len(line.passages)),
        "passages with the words": "" if line.holds_words is None else str(line.holds_words),
        "passage ids": " ".join(each.passage_id for each in line.passages),
    }


def _mention(mention: Mention) -> str:
    if mention.state is ReferenceState.RESOLVED:
        return mention.words
    return f"{mention.words} ({mention.state.value})"


def _joined(parts: Iterable[str]) -> str:
    return " | ".join(parts)
