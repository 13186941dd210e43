"""Notes beside a part: superseded, alternate, see figure, order, before or after a bulletin.

The abbreviations are from memory (the trade notes mark them so); "INTCHG" as well. Which way a note points is
kept as printed: where the words leave it open ("SUPSD QZ28-2210-1", "REPL QZ28-2210-1"), there is no note.
"""

import re
from dataclasses import dataclass
from enum import Enum

from indexer.tagging.parts_rows import PartNote, PartNoteKind
from indexer.trade.dashes import plain_dashes


@dataclass(frozen=True, slots=True)
class FoundNote:
    """A note, and text[start:end] where its words stand, brackets that hold no more than them included."""

    note: PartNote
    start: int
    end: int


class _Needs(Enum):
    """What must follow the words of a note."""

    NOTHING = "a number may follow"
    NUMBER = "a part number, or an item of the same figure"
    MARKED_NUMBER = "a part number that holds a letter or a dash"  # ALT 10000 is an altitude


_BY = r"[\s.-]*(?:(?:BY|WITH)(?![A-Z])|W/)"
_PART = r"(?:P/N|PN(?=[\s.:])|PART\s+(?:NO|NUMBER)\b)"
_FIGURE = r"(?:[0-9]+[A-Z]?(?:-[0-9]+[A-Z]?)*)"
_DETAILS = r"(?:BKDN|BRKDN|BREAKDOWN|DETAILS?|DETS?|DETAIL\s+PARTS|FURTHER\s+BREAKDOWN)"
_SHEET = r"(?:[\s,]*(?:SHEET|SHT|SH)\.?\s*[0-9]+)?(?:[\s,]*ITEM\s*[0-9]+[A-Z]?)?"
_SEE = r"(?:SEE|REFER\s+TO|REF(?=\s+FIG))"
_PLACE = r"(?P<number>[0-9]{2}(?:-[0-9]{2}[A-Z]?){1,4})"
_MORE = rf"(?P<more>(?:\s*(?:&|AND|TO|THRU)\s*{_FIGURE}(?![A-Z0-9/.]))*)"
_FIGURE_NAMED = rf"(?:FIG(?:URE)?S?\b[\s.:]*(?P<figure>{_FIGURE}){_MORE}|{_PLACE})"
_NHA = r"(?:NHA|N\.H\.A\.|NEXT\s+HIGHER\s+ASS(?:EMBL)?Y)"
_BULLETIN = (
    r"(?:[AM]?SBS?|SERVICE\s+BULLETINS?|MODS?|MODIFICATIONS?|SLS?|SERVICE\s+LETTERS?"
    r"|REF\.?\s+CODES?)(?![A-Z])"
)

# Kind, the words that lead to the number, what must follow them. Where two match, the one that begins first
# and reaches further stands.
_OPT, _ALT = r"(?:OPT|OPTL|OPTNL|OPTIONAL)", r"(?:ALTN?|ALTERNATE|ALTERNATIVE)"
_LEADS = [
    (kind, re.compile(rf"(?<![A-Z0-9/-])(?:{words})", re.IGNORECASE), needs)
    for kind, words, needs in [
        (PartNoteKind.SUPERSEDED_BY, rf"(?:SUPSDD?|SUPSED|SUPERSEDED|SUPERSD){_BY}", _Needs.NOTHING),
        (PartNoteKind.SUPERSEDES, r"(?:SUPSDS|SUPERSEDES)(?![A-Z])", _Needs.NUMBER),
        (PartNoteKind.REPLACED_BY, rf"(?:REPLD|REPL'D|RPLD|REPLACED|REPL){_BY}", _Needs.NOTHING),
        (PartNoteKind.REPLACES, r"(?:REPLS|RPLS|REPLACES|REPLACEMENT\s+FOR)(?![A-Z])", _Needs.NUMBER),
        (
            PartNoteKind.OPTIONAL,
            rf"{_OPT}\.?\s+(?:(?:TO|FOR|WITH)(?![A-Z])|W/)",
            _Needs.NUMBER,
        ),
        (PartNoteKind.OPTIONAL, rf"{_OPT}\.?\s*(?={_PART})", _Needs.NUMBER),
        (PartNoteKind.OPTIONAL, rf"{_OPT}(?![A-Z])", _Needs.MARKED_NUMBER),
        (PartNoteKind.ALTERNATE, rf"{_ALT}\.?\s+(?:FOR|TO)(?![A-Z])", _Needs.NUMBER),
        (PartNoteKind.ALTERNATE, rf"{_ALT}\.?\s*(?={_PART})", _Needs.NUMBER),
        (PartNoteKind.ALTERNATE, rf"{_ALT}(?![A-Z])", _Needs.MARKED_NUMBER),
        (
            PartNoteKind.ALTERNATE,
            r"(?:INTCHG(?:BL)?|INTERCHG|INTERCHANGEABLE)\.?\s+(?:W/|(?:WITH|W)(?![A-Z]))",
            _Needs.NUMBER,
        ),
        (PartNoteKind.ORDER, r"(?:ORDER|ORD)(?![A-Z])\.?(?:\s+KIT)?", _Needs.NUMBER),
        (PartNoteKind.NEXT_HIGHER_ASSEMBLY, rf"{_NHA}(?![A-Z])(?:\s+IS)?", _Needs.NUMBER),
    ]
]
# Notes that are whole as they stand; a group names the figure or the bulletin.
_WHOLE = [
    (kind, re.compile(rf"(?<![A-Z0-9/-])(?:{words})", re.IGNORECASE))
    for kind, words in [
        (
            PartNoteKind.NEXT_HIGHER_ASSEMBLY,
            rf"(?:FOR\s+)?{_NHA}[\s,:]*(?:{_SEE}\s+)?{_FIGURE_NAMED}{_SHEET}",
        ),
        (PartNoteKind.NEXT_HIGHER_ASSEMBLY, rf"{_SEE}\s+{_FIGURE_NAMED}{_SHEET}\s+FOR\s+{_NHA}(?![A-Z])"),
        (PartNoteKind.SEE_FIGURE, rf"FOR\s+{_DETAILS}[\s,:]*{_SEE}\s+{_FIGURE_NAMED}{_SHEET}"),
        (
            PartNoteKind.SEE_FIGURE,
            rf"{_SEE}\s+{_FIGURE_NAMED}{_SHEET}(?:\s+FOR\s+(?:{_DETAILS}(?![A-Z])|[^()]*(?=\))))?",
        ),
        (PartNoteKind.ORDER, rf"(?:ORDER|ORD)\s+(?:THE\s+)?{_NHA}(?![A-Z])"),
        (
            PartNoteKind.NOT_PROCURABLE,
            r"(?:NOT|NON)[\s-]*(?:SEPARATELY\s+)?PROCURABLE(?:\s+SEPARATELY)?(?![A-Z])",
        ),
        (PartNoteKind.OPTIONAL, r"(?<=\()(?:OPT|OPTIONAL)(?:\s+PART)?(?=\))"),
        (PartNoteKind.OPTIONAL, r"OPT(?=\s*$)"),
    ]
]
# Capitals only; NPS after a size is a pipe thread.
_NOT_PROCURABLE = re.compile(r"(?<![A-Z0-9/-])(?<![0-9\"]\s)NPS?(?![A-Z0-9/-])")
_CONFIGURATION = re.compile(
    r"(?<![A-Z0-9/-])(?<!PRE/)(?<!PRE\sAND\s)(?<!PRE\s&\s)(?<!PRE\sOR\s)"
    rf"(?:(?P<before>PRE|BEFORE|PRIOR\s+TO)|(?P<after>POST|AFTER))[\s-]*{_BULLETIN}",
    re.IGNORECASE,
)

# What a note says of itself: "REPLD BY QZ1-2 AFTER SB 28-1" does not put this row's part after the bulletin.
_ITS_BULLETIN = re.compile(rf"\s+(?:PER|AFTER|POST|BEFORE|PRE|WITH|BY|IN)\s+{_BULLETIN}", re.IGNORECASE)
_ITS_CONDITION = re.compile(
    r"\s+(?:PER|WHEN|IF|UNTIL|UPON|AFTER|BEFORE|WHERE|AT|ON)\b[^()]*(?=\))", re.IGNORECASE
)
_ITS_SERIALS = re.compile(
    r"[ \t]+(?:(?:ON|FROM|FOR|AT)\s+)?(?:S/N|SN|SERIALS?|SER\.?\s*NO|A/C|ACFT|AIRCRAFT)(?![A-Z])"
    r"[^(),;\n]*[0-9](?:[^(),;\n]*(?:ON|UP|SUBS?(?:EQUENT)?)\b)?",
    re.IGNORECASE,
)

# What is said of another part than the row's, of none, or in both directions at once: no note.
_DIRECTED = {
    PartNoteKind.SUPERSEDED_BY,
    PartNoteKind.SUPERSEDES,
    PartNoteKind.REPLACED_BY,
    PartNoteKind.REPLACES,
}
_OF_ANOTHER = re.compile(
    r"(?:(?<![A-Z0-9./-])(?=(?:[A-Z0-9-]*[0-9]){3})[A-Z0-9]+(?:-[A-Z0-9]+)+"  # "QZ1-100-1 SUPSD BY QZ1-100-2"
    r"|\b(?:WHICH|THAT|NOT|NEVER|UNLESS|WILL|MAY|CAN|TO)"
    r"|\b(?:SUPSDS|SUPERSEDES|REPLACES|REPLS|BY)\s*(?:AND|OR|&|/))"
    r"(?:\s+(?:IS|WAS|ARE|BE|BEEN|HAS))*\s*$",
    re.IGNORECASE,
)
_THIS_ONE = re.compile(r"\s+THIS\b", re.IGNORECASE)  # "QZ1-100-1 REPLACED BY THIS PART"
_LEFT_OPEN = re.compile(
    r"\b(?:SUPSD?S?|SUPERSED\w*|REPL[DS]?|RPL[DS]?|REPLAC(?:ES?|ED)|WAS|NOW|FORMERLY|USE|USED\s+TO\s+BE)\b"
    r".*?(?<![A-Z0-9.-])(?=(?:[A-Z0-9/-]*[0-9]){3})[A-Z0-9]+(?:[-/][A-Z0-9]+)+",
    re.IGNORECASE | re.DOTALL,
)

_NUMBER = r"[A-Z0-9](?:[A-Z0-9]|[/.](?=[A-Z0-9])|-\s{0,3}(?=[A-Z0-9]))*"
_PART_NUMBER = re.compile(
    rf"[\s.:]*(?:{_PART}[\s.:#]*)?(?P<number>(?:(?:AND?|MS|NASM?|AS)\s(?=[0-9]))?{_NUMBER})(?![A-Z0-9])",
    re.IGNORECASE,
)
_ITEM = re.compile(
    r"[\s.:]*ITEMS?\s*[0-9]+[A-Z]?(?![A-Z0-9])(?:\s*(?:,|&|\bAND\b|\bOR\b)\s*[0-9]+[A-Z]?(?![A-Z0-9]))*",
    re.IGNORECASE,
)
_BULLETIN_NEXT = re.compile(rf"\s*{_BULLETIN}|\s*SB[0-9]", re.IGNORECASE)
_BULLETIN_NUMBER = re.compile(
    rf"[\s.:#]*(?:NO\.?\s*|NR\.?\s*)?(?P<number>{_NUMBER})(?![A-Z0-9])(?:[\s,]*REV(?:ISION)?\.?\s*[A-Z0-9]+)?",
    re.IGNORECASE,
)
_AND_ANOTHER = re.compile(r"\s*(?:,|&|\bAND\b|\bOR\b)\s*(?=[A-Z0-9])", re.IGNORECASE)
_UNIT = re.compile(
    r"\s*(?:[\"']|(?:DIA|IN|INCH(?:ES)?|MM|CM|FT|FEET|LBS?|V|VDC|VAC|AMPS?|OHMS?|DEG|PSI)\b)", re.IGNORECASE
)
# No part number: a bulletin, a decimal number, a count.
_NO_PART = re.compile(r"(?:A?SB|MOD|FIG|REV)[0-9.-]|[0-9.]*\.[0-9]+$|[0-9]{1,3}$", re.IGNORECASE)


def find_notes(text: str) -> list[FoundNote]:
    """Notes in the words of a row, in printed order.

    text  the nomenclature or another cell; lines of a wrapped cell may be joined by a blank or by "\\n"
    Notes of one phrase ("REPLD BY QZ28-1 AND QZ28-2") share its place; no others overlap.
    """
    plain = plain_dashes(text)
    phrases = [*_led(plain), *_whole(plain), *_configurations(plain)]
    found: list[FoundNote] = []
    past = 0
    for kind, start, end, numbers in sorted(phrases, key=lambda phrase: (phrase[1], -phrase[2])):
        if start < past:
            continue
        past = end
        start, end = _with_brackets(plain, start, end)
        words = _one_line(text[start:end]).strip("()").strip()
        found += [FoundNote(PartNote(kind, words, number), start, end) for number in numbers or ("",)]
    return found


_Phrase = tuple[PartNoteKind, int, int, tuple[str, ...]]  # kind, start, end, numbers named


def _led(text: str) -> list[_Phrase]:
    phrases: list[_Phrase] = []
    for kind, lead, needs in _LEADS:
        for words in lead.finditer(text):
            if kind in _DIRECTED and _is_said_of_another(text, words.start(), words.end()):
                continue
            numbers, end = _part_numbers(text, words.end())
            item = _ITEM.match(text, words.end())
            if numbers:
                end = _end_of_condition(text, end)
                if needs is not _Needs.MARKED_NUMBER or re.search("[A-Za-z-]", numbers[0]):
                    phrases.append((kind, words.start(), end, numbers))
            elif item and needs is not _Needs.MARKED_NUMBER:
                phrases.append((kind, words.start(), item.end(), ()))
            elif needs is _Needs.NOTHING and not _BULLETIN_NEXT.match(text, words.end()):
                phrases.append((kind, words.start(), words.end(), ()))
    return phrases


def _is_said_of_another(text: str, start: int, end: int) -> bool:
    return bool(_OF_ANOTHER.search(text[:start]) or _THIS_ONE.match(text, end))


def names_another_unclearly(words: str) -> bool:
    """Whether words without their notes still say that one number takes the place of another, in a way that
    leaves the direction open: "REPL QZ1-2", "WAS QZ1-2", "QZ1-1 REPLACED BY THIS PART"."""
    return bool(_LEFT_OPEN.search(words) or re.search(r"\bBY\s+THIS\b", words, re.IGNORECASE))


def _end_of_condition(text: str, end: int) -> int:
    """The end of what stands behind a note's numbers and belongs to it: bulletin, serials, brackets' rest."""
    if condition := _ITS_CONDITION.match(text, end):
        return condition.end()
    if serials := _ITS_SERIALS.match(text, end):
        return serials.end()
    if bulletin := _ITS_BULLETIN.match(text, end):
        return _numbers(text, bulletin.end(), _BULLETIN_NUMBER)[1]
    return end


def _whole(text: str) -> list[_Phrase]:
    phrases: list[_Phrase] = []
    for kind, words in _WHOLE:
        for match in words.finditer(text):
            groups = match.groupdict()
            first = groups.get("figure") or groups.get("number")
            more = re.findall(r"[0-9][0-9A-Z-]*", groups.get("more") or "", re.IGNORECASE)
            phrases.append((kind, match.start(), match.end(), (first, *more) if first else ()))
    phrases += [
        (PartNoteKind.NOT_PROCURABLE, match.start(), match.end(), ())
        for match in _NOT_PROCURABLE.finditer(text)
    ]
    return phrases


def _configurations(text: str) -> list[_Phrase]:
    phrases = []
    for words in _CONFIGURATION.finditer(text):
        kind = PartNoteKind.PRE_BULLETIN if words["before"] else PartNoteKind.POST_BULLETIN
        numbers, end = _numbers(text, words.end(), _BULLETIN_NUMBER)
        phrases.append((kind, words.start(), end, numbers))
    return phrases


def _part_numbers(text: str, at: int) -> tuple[tuple[str, ...], int]:
    """The part numbers that stand at this place, and their end; none where a size or a bulletin stands."""
    numbers, end = _numbers(text, at, _PART_NUMBER)
    if numbers and (_UNIT.match(text, end) or _NO_PART.match(numbers[-1])):
        return (), at
    return numbers, end


def _numbers(text: str, at: int, form: re.Pattern[str]) -> tuple[tuple[str, ...], int]:
    """Numbers in a row ("A-1, A-2 AND A-3"): all hold a digit, all but the first a letter or dash."""
    numbers: list[str] = []
    end = at
    while match := form.match(text, at):
        number = re.sub(r"-\s+", "-", _one_line(match["number"]))
        if not re.search("[0-9]", number) or (numbers and not re.search("[A-Za-z-]", number)):
            break
        numbers += _two(number)
        end = match.end()
        another = _AND_ANOTHER.match(text, end)
        if another is None:
            break
        at = another.end()
    return tuple(numbers), end


def _two(number: str) -> list[str]:
    """Two numbers joined by a slash, where each is whole by itself; M83248/1-012 is one."""
    both = number.split("/")
    whole = all(re.fullmatch("[A-Z]{1,4}[0-9]+[A-Z0-9]*-[A-Z0-9-]+", one, re.IGNORECASE) for one in both)
    return both if len(both) == 2 and whole else [number]


def _with_brackets(text: str, start: int, end: int) -> tuple[int, int]:
    before, after = text[:start].rstrip(), text[end:].lstrip()
    if before.endswith("(") and after.startswith(")"):
        return len(before) - 1, len(text) - len(after) + 1
    return start, end


def _one_line(words: str) -> str:
    return " ".join(words.split())
