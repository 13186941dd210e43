"""What mechanics say and what manuals print, both ways (tables/thesaurus.csv, from memory).

A line of the table gives one word of the hangar, the manual's words for it, and a note. Read backwards it
gives the words of the hangar for a word of the manual. Nothing here follows two lines one after the other:
`jug` and `pot` are both a cylinder assembly, and neither stands for the other.
"""

import re
from collections import defaultdict
from dataclasses import dataclass
from functools import cache

from indexer.trade.chapter_tables import read_table

# Words that mean a part or a job only when nothing before them says which: "level" is a job, "oil level" is
# none. Common practice, no source.
EVERYDAY = frozenset(
    """annual bearing belts blend bottle breaker case clamp container cylinder defect deflection
    discrepancy fabric fork frame functional gear generator grease hardware harness heater hose hub indicator
    inflation inspection installation interior jack level lifting lubricant plate plugs points pot quadrant
    reed regulator relay replace reservoir rework sector selector servicing skin spider starter swap tab
    torque tow transmitter travel""".split()
)
# What people do to a part: after one of these an everyday word names the part itself. Common practice, no
# source.
ACTIONS = frozenset(
    """adjust bleed change check clean disassemble fit fix gap inspect install lubricate measure overhaul
    rebuild reinstall remove repair replace rotate service swap test tighten troubleshoot""".split()
)
_NUMBER = r"[0-9]{2}(?:-[0-9]{2})?"
_CHAPTERS = re.compile(rf"\b(?:ch|ATA) (?P<first>{_NUMBER})(?P<more>(?:/{_NUMBER})*)")
_MORE_CHAPTERS = re.compile(rf"\b(?:or|and) (?P<number>{_NUMBER})\b")
_JASC = re.compile(r"\bJASC (?P<code>[0-9]{4})\b")
_ASIDE = re.compile(r"\s*\([^)]*\)")


@dataclass(frozen=True, slots=True)
class ThesaurusRow:
    """One line of the table.

    term          as people say it
    manual_terms  as manuals print it; several mean that makers differ
    note          a remark, with the chapters it is found under where one is sure
    """

    term: str
    manual_terms: tuple[str, ...]
    note: str
    source: str

    @property
    def chapters(self) -> tuple[str, ...]:
        """ATA numbers the note names: "32" for "ch 32", "27" and "55" for "ch 27/55", "32-40".

        Not those in brackets, which tell of another thing with the same name.
        """
        found = []
        note = _ASIDE.sub("", self.note)
        for match in _CHAPTERS.finditer(note):
            found += [match["first"], *(more for more in match["more"].split("/") if more)]
            if following := _MORE_CHAPTERS.match(note, match.end() + 1):
                found.append(following["number"])
        return tuple(dict.fromkeys(found))

    @property
    def jasc_codes(self) -> tuple[str, ...]:
        """Four-digit codes the note names."""
        return tuple(match["code"] for match in _JASC.finditer(self.note))


@dataclass(frozen=True, slots=True)
class Entry:
    """A term, and what else to look for.

    others    with the most usual first; never the term itself
    chapters  ATA numbers under which the term is found; () = not known, or anywhere
    backward  True for a manual's word and what mechanics say for it
    """

    term: str
    others: tuple[str, ...]
    chapters: tuple[str, ...]
    backward: bool


@cache
def thesaurus_rows() -> tuple[ThesaurusRow, ...]:
    """Every line of the table, in its order."""
    return tuple(
        ThesaurusRow(row["term"], split_terms(row["manual_terms"]), row["note"], row["source"])
        for row in read_table("thesaurus.csv")
    )


def split_terms(text: str) -> tuple[str, ...]:
    """ "shock strut; shock absorber" taken apart; what stands in brackets is no part of a term."""
    terms = (" ".join(_ASIDE.sub("", part).split()) for part in text.split(";"))
    return tuple(dict.fromkeys(term for term in terms if term))


@cache
def thesaurus() -> tuple[Entry, ...]:
    """The table both ways: each line as it stands, then each manual's word with all lines that lead to it.

    An everyday word of a manual ("relay", "inspection") leads back to nothing: too much is meant by it. A
    term that manuals print as it is said has an entry without others: it is known as one term.
    """
    forward = tuple(
        Entry(
            row.term,
            tuple(term for term in row.manual_terms if term.casefold() != row.term.casefold()),
            row.chapters,
            backward=False,
        )
        for row in thesaurus_rows()
    )
    spoken: dict[str, list[ThesaurusRow]] = defaultdict(list)
    for row in thesaurus_rows():
        for term in row.manual_terms:
            if term.casefold() not in EVERYDAY and term.casefold() != row.term.casefold():
                spoken[term].append(row)
    backward = tuple(
        Entry(
            term,
            tuple(row.term for row in rows),
            tuple(dict.fromkeys(chapter for row in rows for chapter in row.chapters)),
            backward=True,
        )
        for term, rows in spoken.items()
    )
    return forward + backward
