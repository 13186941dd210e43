"""Chapters of passages that print no number: worked out from the passage, its section and its neighbours.

A passage of a manual with its own order seldom says what it is about; its section does. So the passages of a
section vote together with its title, and passages under one heading of one page with one another. A section
of many subjects votes for none. What a passage says strongly by itself still counts, and so does the work
that its heading or its section's title names: a servicing section's paragraph on brakes is servicing and
landing gear.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from indexer.reading.page import Passage
from indexer.tagging.inference import (
    LIKELY,
    POSSIBLE,
    Guess,
    can_be_judged,
    guesses_from,
    log_chances,
    model,
    normalised,
)
from indexer.tagging.inference_text import is_listing, with_heading
from indexer.tagging.own_sections import OwnSection
from indexer.trade.chapters import ChapterNumber, chapter_group
from indexer.trade.evidence import Basis, Evidence, Tag
from indexer.trade.publication_types import PublicationType as Type
from indexer.trade.publication_types import parse_type

FROM_TEXT = "worked out from the text"
FROM_SECTION = "worked out from the whole section"

# Papers about rules, persons and single articles: words of a system in them are examples.
_ABOUT_NO_SYSTEM = frozenset(
    {
        Type.REGULATION, Type.ACCIDENT_REPORT, Type.CODE_TABLE,
        Type.RELEASE_CERTIFICATE, Type.REPAIR_ALTERATION_RECORD,
        Type.ENGINEERING_APPROVAL, Type.PARTS_APPROVAL,
        Type.TYPE_CERTIFICATE_DATA_SHEET, Type.AMOC_LETTER,
    }
)  # fmt: skip
_LEAST_VOTE = -5.0  # log chance: a title cannot rule a chapter out for its section
_PASSAGES_WEIGH = 1.5  # of a section, where its title weighs 1
_LEAST_SAY = -4.0  # nor a section for a passage
_SECTION_SHARE = 0.6  # of the section's vote in what a passage is said to be
_NEIGHBOUR_SHARE = 0.3
_AGREEMENT = 0.5  # share of a section's passages that must point at a chapter for it to stay beside another
_KINDS_OF_WORK = "Aircraft general"  # the group of chapters 00 to 19
_BESIDE = LIKELY - 0.01  # most confidence of a chapter that only the section gives: never "likely"
_MOST_CHAPTERS = 3

LogChances = NDArray[np.float64]


def inferred_numbers(
    kind: Type | None, passages: Sequence[Passage], sections: Mapping[int, OwnSection]
) -> dict[int, tuple[Tag[ChapterNumber], ...]]:
    """Per passage ordinal its chapters, best first; passages of which nothing can be said are left out.

    passages  of one work, without its title pages, contents and lists of pages; in any order
    sections  passage ordinal -> where it stands in the manual's own order; {} when it has none
    """
    if kind in _ABOUT_NO_SYSTEM:
        return {}
    texts = {
        passage.ordinal: with_heading(_subjects(passage), passage.text)
        for passage in passages
        if not is_listing(passage.text)
    }
    alone: dict[int, LogChances] = {}
    telling: dict[int, LogChances] = {}
    for ordinal, text in texts.items():  # both in a row: a text is read into features once
        alone[ordinal] = log_chances(text)
        if can_be_judged(text):
            telling[ordinal] = alone[ordinal]
    votes = _section_votes(telling, sections)
    near = _neighbours(passage for passage in passages if passage.ordinal in texts)
    numbers: dict[int, tuple[Tag[ChapterNumber], ...]] = {}
    for passage in passages:
        if passage.ordinal not in texts:
            continue
        text = texts[passage.ordinal]
        own = guesses_from(alone[passage.ordinal], text) if passage.ordinal in telling else ()
        section = sections.get(passage.ordinal)
        vote = votes.get(str(section.section)) if section else None
        beside = [alone[each] for each in near[passage.ordinal] if each != passage.ordinal]
        if vote is None and not own:
            continue
        together = _together(alone[passage.ordinal], vote.chances if vote else None, beside)
        agreed = guesses_from(vote.chances, text)[:1] if vote and vote.agreement >= _AGREEMENT else ()
        guesses = _merged(own, guesses_from(together, text), (*agreed, *_work_named(section, passage, text)))
        tags = tuple(_tag(each, rule, passage) for each, rule in guesses[:_MOST_CHAPTERS])
        if tags:
            numbers[passage.ordinal] = tags
    return numbers


@dataclass(frozen=True, slots=True)
class _Vote:
    """What a section says: its log chances, and the share of its passages that point at its first chapter."""

    chances: LogChances
    agreement: float


def _subjects(passage: Passage) -> tuple[str, ...]:
    """The headings above a passage, without the name of the kind of manual."""
    return tuple(heading for heading in passage.heading_path if not parse_type(heading))


def _section_votes(alone: Mapping[int, LogChances], sections: Mapping[int, OwnSection]) -> dict[str, _Vote]:
    """Per section number, from those of its passages that say enough.

    Their chances are averaged, not multiplied: ten paragraphs on ten systems leave every chapter unlikely,
    and ten on one leave that one.
    """
    members: dict[str, list[LogChances]] = defaultdict(list)
    titles: dict[str, str] = {}
    for ordinal, section in sections.items():
        titles.setdefault(str(section.section), section.title)
        if ordinal in alone:
            members[str(section.section)].append(alone[ordinal])
    votes: dict[str, _Vote] = {}
    for number, title in titles.items():
        said = members[number]
        total = np.zeros(len(model().classes))
        if said:
            total = _PASSAGES_WEIGH * np.log(np.mean(np.exp(said), axis=0))
        if title:
            total = total + np.maximum(log_chances(title), _LEAST_VOTE)
        if said or title:
            pointing = [int(np.argmax(each)) == int(np.argmax(total)) for each in said]
            votes[number] = _Vote(normalised(total), sum(pointing) / len(said) if said else 0.0)
    return votes


def _neighbours(passages: Iterable[Passage]) -> dict[int, list[int]]:
    """Per ordinal the passages of the same page under the same headings, itself among them."""
    groups: dict[tuple[int, tuple[str, ...]], list[int]] = defaultdict(list)
    for passage in passages:
        groups[passage.pdf_page, passage.heading_path].append(passage.ordinal)
    return {ordinal: group for group in groups.values() for ordinal in group}


def _together(own: LogChances, vote: LogChances | None, beside: Sequence[LogChances]) -> LogChances:
    total = own
    if vote is not None:
        total = total + _SECTION_SHARE * np.maximum(vote, _LEAST_SAY)
    if beside:
        total = total + _NEIGHBOUR_SHARE * np.maximum(np.mean(beside, axis=0), _LEAST_SAY)
    return normalised(total)


def _work_named(section: OwnSection | None, passage: Passage, text: str) -> tuple[Guess, ...]:
    """The chapter of a kind of work (inspection, servicing, towing, storage: "Aircraft general") that the
    passage's heading names, or else its section's title; whatever system the work is done on."""
    for title in (*_subjects(passage)[-1:], section.title if section else ""):
        for each in guesses_from(log_chances(title), text)[:1] if section and title else ():
            if chapter_group(each.chapter) == _KINDS_OF_WORK:
                return (each,)
    return ()


def _merged(
    own: Sequence[Guess], together: Sequence[Guess], section: Sequence[Guess]
) -> list[tuple[Guess, str]]:
    """Each chapter once, with the best of its confidences and the rule that gave it; best first."""
    kept = [replace(each, confidence=min(each.confidence, _BESIDE)) for each in section]
    found: dict[str, tuple[Guess, str]] = {}
    for guesses, rule in ((own, FROM_TEXT), (together, FROM_SECTION), (kept, FROM_SECTION)):
        for each in guesses:
            if each.confidence >= POSSIBLE and (
                each.chapter not in found or each.confidence > found[each.chapter][0].confidence
            ):
                told_by = found[each.chapter][1] if each.chapter in found else rule
                found[each.chapter] = (each, told_by)
    first = [each.chapter for each in together[:1]]
    return sorted(
        found.values(),
        key=lambda pair: (pair[0].chapter not in first, -pair[0].confidence, pair[0].chapter),
    )


def _tag(guess: Guess, rule: str, passage: Passage) -> Tag[ChapterNumber]:
    evidence = Evidence(
        Basis.INFERRED,
        rule,
        "; ".join(guess.words),
        passage.pdf_page,
        origin=passage.origin,
        confidence=guess.confidence,
    )
    return Tag(ChapterNumber(guess.chapter), evidence)
