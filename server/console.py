"""Answers printed for a person at a terminal, and as JSON for a program."""

import json
import shlex
import sys
from collections.abc import Mapping
from types import MappingProxyType
from typing import Any

from rich.console import Console
from rich.padding import Padding
from rich.text import Text

from indexer.tagging.tags import StandingValue
from indexer.trade.evidence import Origin
from server.applies_console import show_applies, show_in_hand
from server.applies_words import hidden_words
from server.not_current import not_current_words
from server.ocr_words import ReadWords, ocr_label
from server.routes.views import hit_view, number_words
from server.search import SearchAnswer
from server.snippet import Snippet
from server.system_asked import number_name
from server.understood import notes_on
from server.why import Why
from server.words import READ_AGAIN, STANDING_LABELS, StandingWords, count_of, not_searched_words, shortened

_INDENT = 4


def _console() -> Console:
    """Colours and wrapping only where a person reads; plain lines where a program does."""
    return Console(file=sys.stdout, highlight=False, soft_wrap=not sys.stdout.isatty(), markup=False)


def show_json(answer: Any) -> None:
    """One JSON value, UTF-8."""
    text = json.dumps(answer, ensure_ascii=False, indent=2)
    sys.stdout.buffer.write(f"{text}\n".encode())
    sys.stdout.buffer.flush()


def show_search(answer: SearchAnswer, reasons: Mapping[str, Why] = MappingProxyType({})) -> None:
    """Hits under their chapters, how the question was understood, and what was not searched.

    reasons   passage id -> why it is here
    """
    out = _console()
    for note in notes_on(answer):
        out.print(note.words)
        for way in note.ways:
            exactly = "--as-typed " if way.as_typed else "" if way.misread else "--no-misreadings "
            _line(out, f"{way.words}: hangarleaf search {exactly}{shlex.quote(way.question)}")
    if answer.any_word:
        out.print(_any_word_words(answer))
    out.print(f"{count_of(answer.total, 'passage')} found. Library state {answer.state.generation}.")
    registration = show_in_hand(out, answer.aircraft, answer.state.day)
    if answer.hidden is not None:
        out.print(hidden_words(answer.hidden, registration))
    if answer.superseded is not None:
        out.print(not_current_words(answer.superseded))
    by_chapter = bool(answer.filters.chapters or answer.filters.sections)
    owed = answer.owed
    if words := not_searched_words(owed.without_text, answer.passages_not_numbered, by_chapter, owed.words):
        out.print(words)
    if not answer.state.up_to_date:
        out.print("An ingest is at work: what it takes is not all searched yet.")
    for system in answer.systems:
        name = number_name(system.number)
        out.print(f"Everything on {name} {system.title}: hangarleaf system {shlex.quote(name)}")
    for group in answer.groups:
        out.print()
        out.print(Text(f"{group.chapter} {group.title} ({group.count:,})".strip(), "bold"))
        for hit in group.hits:
            _show_hit(out, hit, registration)
            if hit.passage.id in reasons:
                _show_why(out, reasons[hit.passage.id])
        if len(group.hits) < group.count:
            _line(out, f"{group.count - len(group.hits):,} more", 2)


def _any_word_words(answer: SearchAnswer) -> str:
    if answer.with_all:
        held = f"Only {count_of(answer.with_all, 'passage')} {'holds' if answer.with_all == 1 else 'hold'}"
        return f"{held} all of these words. What holds them all stands first; the rest holds some of them."
    if answer.total:
        return "No passage holds all of these words; these hold any of them."
    return "No passage holds all of these words, and none holds any of them."


def _show_hit(out: Console, hit: Any, registration: str) -> None:
    view = hit_view(hit, "", "", registration)
    page = (
        f"printed page {view.printed_page} (PDF page {view.pdf_page})"
        if view.printed_page
        else (f"PDF page {view.pdf_page}")
    )
    out.print()
    _line(out, Text(view.name, "bold"), 2)
    where = [view.kind, page, view.number, view.page_block]
    _line(out, " · ".join(part for part in where if part))
    _show_read(out, view.read)
    for words in view.misread:
        _line(out, words)
    for words in view.currency:
        _line(out, f"! {words}")
    if view.now.words:
        _line(out, view.now.words)
    show_applies(out, hit.applies, registration)
    _line(out, _marked(view.snippet))
    _show_standing(out, view.standing)
    _line(out, f"{hit.publication.file}, passage {hit.passage.id}")


def _show_read(out: Console, read: ReadWords | None) -> None:
    if read:
        _line(out, f"{read.label}. {read.doubt}".strip())


def _show_why(out: Console, why: Why) -> None:
    """The parts of a hit's score in hundredths, and how its number is known."""
    _line(out, "Why is this here? In hundredths of its score:")
    for part in why.parts:
        _line(out, f"{why.share(part):>4}  {part.name}")
    numbers = why.passage.numbers
    known = f"filed under {number_words(numbers[0])}" if numbers else "no chapter number was found"
    _line(out, f"{known[0].upper()}{known[1:]}.")


def _marked(snippet: Snippet) -> Text:
    text = Text()
    for words, marked in snippet.parts():
        text.append(words, "bold underline" if marked else "")
    return text


def _show_standing(out: Console, words: StandingWords) -> None:
    quote = f" “{words.quote}”" if words.quote else ""
    page = f" ({words.quote_place})" if words.quote_place else ""
    _line(out, f"{words.lead}. {words.why}{quote}{page}")
    for note in words.notes:
        _line(out, note)


def _line(out: Console, words: str | Text, indent: int = _INDENT) -> None:
    """One paragraph: wrapped at a terminal, one line where a program reads."""
    text = Text(words) if isinstance(words, str) else words
    if out.is_terminal:
        out.print(Padding(text, (0, 0, 0, indent)))
    else:
        out.print(Text(" " * indent) + text)


def show_publication(answer: dict[str, Any]) -> None:
    """What a publication says of itself, with the evidence, and how it stands to others."""
    out = _console()
    out.print(Text(" ".join(filter(None, (answer["number"], answer["title"]))) or answer["file"], "bold"))
    for words in answer["currency"]:
        out.print(f"! {words}")
    out.print(f"currency: {answer['current']['state']}. {answer['current']['why']}")
    for name, tag in answer["tags"].items():
        for one in tag if isinstance(tag, list) else [tag]:
            _show_tag(out, name, one)
    out.print(f"file: {answer['file']}, PDF pages {answer['first_page']} to {answer['last_page']}")
    usual = STANDING_LABELS[StandingValue(answer["usual_standing"])].casefold()
    out.print(f"usual standing of the type: {usual} (the habit of the type, not a finding about this copy)")
    for relation in answer["relations"]:
        out.print(relation["words"])
    for claim in answer["not_held"]:
        out.print(f"{claim['kind'].capitalize()}: {claim['document']}. {claim['reason']}")
    if answer["ocr"]["pages_not_read"] or answer["ocr"]["pages_could_not_be_read"]:
        out.print(answer["ocr"]["words"])
    for found in answer["chapters"]:
        out.print(f"{found['chapter'] or '--'} {found['title']}: {found['count']:,} passages")


def _show_tag(out: Console, name: str, tag: dict[str, Any] | None) -> None:
    if tag is None:
        out.print(f"{name}: not found in this file")
        return
    out.print(f"{name}: {tag['value']}   {_because(tag['evidence'])}")
    for other in tag["others"]:
        out.print(f"    elsewhere: {other['value']}   {_because(other['evidence'])}")


def _because(evidence: dict[str, Any] | None) -> str:
    if evidence is None:
        return ""
    quote = f": “{shortened(evidence['quote'])}”" if evidence["quote"] else ""
    page = f", PDF page {evidence['pdf_page']}" if evidence["pdf_page"] else ""
    source = f" of {evidence['source']}" if evidence["source"] else ""
    return f"[{evidence['basis']}{quote}{page}{source}]"


def show_page(answer: dict[str, Any]) -> None:
    """The passages of one page with their tags."""
    out = _console()
    printed = f"printed page {answer['printed_page']}, " if answer["printed_page"] else ""
    out.print(Text(f"{answer['publication']['file']}, {printed}PDF page {answer['pdf_page']}", "bold"))
    for words in answer["currency"]:
        out.print(f"! {words}")
    out.print(f"currency: {answer['current']['state']}. {answer['current']['why']}")
    for override in answer["overridden_by"]:
        out.print(f"! {override['words']}")
    if answer["not_read"]:
        out.print(answer["not_read"])
    elif not answer["passages"]:
        out.print(f"No text was read from this page ({answer['state']}).")
    show_tags(answer["passages"])


def show_tags(passages: list[dict[str, Any]]) -> None:
    """Passages with their tags and evidence, one after another."""
    out = _console()
    for passage in passages:
        number = passage["number"]
        standing = passage["standing"]
        evidence = passage["evidence"]
        out.print()
        page = f"page {passage['printed_page']}, " if passage["printed_page"] else ""
        out.print(Text(f"{page}PDF page {passage['pdf_page']}, {passage['kind']}", "bold"))
        _line(out, passage["heading"] or "(no heading)")
        if label := ocr_label([Origin(passage["origin"])]):
            _show_read(out, ReadWords(label, passage["cannot_tell"] or ""))
        first = evidence["numbers"][0] if evidence["numbers"] else None
        _line(
            out,
            f"number: {number['scheme']} {number['text']} {_because(first)}" if number else "not numbered",
        )
        if passage["page_block"]:
            _line(out, f"page block: {passage['page_block']} {_because(evidence['page_block'])}")
        label = STANDING_LABELS[StandingValue(standing["value"])]
        usual = STANDING_LABELS[StandingValue(standing["usual"])].casefold()
        because = _because(evidence["standing"])
        _line(out, f"standing: {label}{f' {because}' if because else ''}; usually (by type): {usual}")
        for condition in standing["conditions"]:
            _line(out, condition)
        for line in passage["text"].splitlines():
            _line(out, line)


def show_status(answer: dict[str, Any]) -> None:
    """What is held, not searched, and refused."""
    out = _console()
    state = answer["library_state"]
    out.print(Text(f"Library {answer['folder']}", "bold"))
    rows = [
        ("state", f"{state['generation']}, changed {state['changed_at']}"),
        ("search index", "up to date" if state["up_to_date"] else "being brought up to date"),
        ("publications", f"{answer['publications']:,}"),
        ("files", f"{answer['copies']:,} ({answer['replaced_copies']:,} replaced ones kept beside them)"),
        ("pages", f"{answer['pages']:,}"),
        (
            "not yet read by OCR",
            f"{answer['ocr']['pages_not_read'] - answer['ocr']['pages_not_in_place']:,}",
        ),
        ("read by OCR but not in place", f"{answer['ocr']['pages_not_in_place']:,}"),
        ("could not be read by OCR", f"{answer['ocr']['pages_could_not_be_read']:,}"),
        ("other pages without text", f"{answer['pages_without_text']:,}"),
        ("passages", f"{answer['passages']:,}"),
        ("without a chapter number", f"{answer['passages_not_numbered']:,}"),
    ]
    if answer["copies_read_by_older_rules"]:
        rows.append(("files read by older rules", f"{answer['copies_read_by_older_rules']:,}; {READ_AGAIN}"))
    for name, value in rows:
        out.print(f"{name}: {value}")
    out.print()
    out.print(Text("Publications", "bold"))
    for held in answer["shelf"]:
        out.print(f"  {held['name']}   {held['kind']}   {held['file']}   {held['id']}")
    if words := answer["ocr"]["words"]:
        out.print()
        out.print(Text(words, "bold"))
        for line in answer["ocr"]["publications"]:
            counts = (
                f"{line['pages_not_read'] - line['pages_not_in_place']:,} not yet read,"
                f" {line['pages_could_not_be_read']:,} could not be"
            )
            if line["pages_not_in_place"]:
                counts += f", {line['pages_not_in_place']:,} read but not in place"
            out.print(f"  {line['publication']['file']}: {counts}")
        for words in answer["ocr"]["not_in_place"]:
            out.print(words)
    if answer["not_searched"]:
        out.print()
        out.print(Text("Pages that search cannot find", "bold"))
        for line in answer["not_searched"]:
            out.print(f"  {line['publication']['file']}, PDF page {line['pdf_page']}: {line['state']}")
    if answer["refused"]:
        out.print()
        out.print(Text("Files that were not taken", "bold"))
        for refused in answer["refused"]:
            out.print(f"  {refused['what']} {refused['remedy']}")
