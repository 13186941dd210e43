"""The listing of a system, printed for a person at a terminal."""

import shlex
import sys

from rich.console import Console
from rich.text import Text

from server.applies_console import show_applies, show_in_hand
from server.framing import left_out_words
from server.system import answer_name
from server.system_asked import number_name
from server.system_not_here import missing, rules_words
from server.system_order import GROUPS, ONE_SUBJECT
from server.system_records import Line, Meaning, NotHereKind, Part, Section, SystemAnswer
from server.system_text import (
    cause_words,
    elsewhere_words,
    evidence_words,
    hidden_in_listing,
    how_counts_words,
    how_words,
    line_reading,
    line_title,
    places_words,
    word_counts_words,
)
from server.words import SHORT_CAUTION, count_of, publication_kind, publication_name, standing_words


def show_system(answer: SystemAnswer) -> None:
    """Everything of it, nothing folded."""
    out = Console(file=sys.stdout, highlight=False, soft_wrap=True, markup=False)
    out.print(Text(answer_name(answer), "bold"))
    out.print(answer.taken.reason)
    if answer.could_mean:
        out.print(f"It could also mean: {'; '.join(map(_meaning, answer.could_mean))}")
    for words in answer.no_systems:
        out.print(f"It could also mean {words}, which is no system: hangarleaf search {shlex.quote(words)}")
    if words := left_out_words(answer.left_out):
        out.print(words)
    for words in answer.warnings:
        out.print(f"! {words}")
    registration = show_in_hand(out, answer.aircraft, answer.state.day)
    if answer.hidden is not None:
        out.print(hidden_in_listing(answer.hidden, registration))
    for section in answer.sections:
        _show_section(out, section, registration)
    if words := answer.owed.words:
        out.print(f"\n{words}")
    if words := elsewhere_words(answer.elsewhere):
        out.print(f"\n{words}")
    if answer.word_counts:
        out.print(word_counts_words(answer.word_counts))
    if answer.not_here:
        out.print(Text("\nNamed on these pages, and not held here or not told apart", "bold"))
        found = missing(answer.not_here)
        for each in found:
            if each.kind is NotHereKind.DOCUMENT:
                out.print(f"  {each.name}: {each.words} ({count_of(len(each.named_by), 'place')})")
        if rules := rules_words(found):
            out.print(f"  {rules}")
        for each in found:
            if each.kind is NotHereKind.PLACE:
                out.print(f"  {each.name}: {each.words} ({count_of(len(each.named_by), 'place')})")
    out.print(Text("\nIn no listing", "bold"))
    for cause in answer.remainder:
        out.print(f"  {cause_words(cause)}")
    if not answer.remainder:
        out.print("  Nothing: every passage carries a number, and every page has text.")
    if answer.refused:
        out.print(f"  {count_of(answer.refused, 'file')} not taken at all; see: hangarleaf status")
    out.print(f"  Search among them with: hangarleaf search --chapter none {shlex.quote(answer.look_for)}")
    state = answer.state
    out.print(f"\nLibrary state {state.generation}, {state.shown_at:%Y-%m-%d %H:%M} UTC. {SHORT_CAUTION}")


def _meaning(meaning: Meaning) -> str:
    return f"{number_name(meaning.number)} {meaning.title}"


def _show_section(out: Console, section: Section, registration: str) -> None:
    counts = section.counts
    if section.part is Part.MAY_BE and not counts.passages:
        return
    found = f"{count_of(counts.passages, 'passage')} in {count_of(counts.publications, 'publication')}"
    how = f": {how_counts_words(counts)}" if counts.passages else ""
    out.print(Text(f"\n{section.part.value.capitalize()}: {found}{how}", "bold"))
    for group in GROUPS:
        lines = [line for line in section.lines if line.group is group]
        if lines:
            out.print(Text(f"\n{group.title} ({section.counts.by_group.get(group.key, 0):,})", "bold"))
        block = None
        for line in lines:
            if line.block != block and group.blocks:
                block = line.block
                out.print(f"  {block or 'Without a page block'}")
            _show_line(out, line, registration)


def _show_line(out: Console, line: Line, registration: str) -> None:
    record = line.publication
    one_subject = record.type in ONE_SUBJECT
    out.print(Text(f"  {line_title(line, one_subject)}", "bold"))
    kind = publication_kind(record.type, record.revision, record.date, record.entered)
    name = "" if one_subject else f"{publication_name(record)}, "
    out.print(f"    {name}{kind}")
    out.print(f"    {places_words(line.pages)}")
    for words in line.currency:
        out.print(f"    ! {words}")
    out.print(f"    currency: {line.current.state.value}. {line.current.why}")
    show_applies(out, line.applies, registration)
    if read := line_reading(line):
        out.print(f"    {read.label}. {read.doubt}".rstrip())
    for tie in line.ties:
        out.print(f"    {tie.words}")
    out.print(f"    {how_words(line)}{evidence_words(line)}")
    if line.wider:
        out.print(f"    {line.wider}")
    if line.also_read:
        out.print(f"    Also read as {', '.join(map(number_name, line.also_read))}")
    for words in dict.fromkeys(standing_words(standing).lead for standing in line.standings):
        out.print(f"    {words}")
    if line.refers_to or line.referred_from:
        out.print(f"    Refers to {len(line.refers_to)}, referred to from {len(line.referred_from)}")
