"""Words for what was read by OCR: said of every hit, line, page and finding that rests on it. Pure."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Any, Protocol

from indexer.tagging.ocr_doubts import critical_doubts
from indexer.trade.evidence import Origin

READ_BY_OCR = "Read by OCR"
HIDDEN_LAYER = "Read by OCR, from a hidden text layer"
READ_THE_PAGE = "Cannot tell: read the page."
MAY_MISREAD = "OCR may misread figures: compare with the page."
_EDGES = ".,;:!?\"'`‘’“”"  # punctuation beside a word; a sign or a bracket may be part of what was misread
_LABELS = {Origin.DIGITAL: "", Origin.OCR: READ_BY_OCR, Origin.HIDDEN_OCR: HIDDEN_LAYER}
WHY_NOT_PLACED = "What was read is not searched yet; hangarleaf ocr --status says why and what to do."
_MOST_NAMED = 8  # doubtful words; the rest are counted


class Read(Protocol):
    """A passage, as far as how it was read goes."""

    @property
    def origin(self) -> Origin: ...
    @property
    def doubtful(self) -> tuple[str, ...]: ...
    @property
    def text(self) -> str: ...


@dataclass(frozen=True, slots=True)
class HowRead:
    """A passage that OCR read, as far as how it was read goes."""

    origin: Origin
    doubtful: tuple[str, ...] = ()
    text: str = ""


@dataclass(frozen=True, slots=True)
class ReadWords:
    """What to say of text read by OCR. `doubt` = what it was not certain of; "" = nothing that counts."""

    label: str
    doubt: str = ""


def read_words(passages: Iterable[Read]) -> ReadWords | None:
    """How passages were read; None for born-digital text alone."""
    read = list(passages)
    label = ocr_label(each.origin for each in read)
    return ReadWords(label, doubt_words(doubts_of(read))) if label else None


def ocr_label(origins: Iterable[Origin]) -> str:
    """How text was read, in words; "" for born-digital text alone. Of several, our own OCR is named first."""
    found = set(origins)
    return next((_LABELS[each] for each in (Origin.OCR, Origin.HIDDEN_OCR) if each in found), "")


def doubt_words(doubts: Sequence[str]) -> str:
    """ "Cannot tell: read the page. OCR was not certain of: 175, 68-3204."; "" without doubts."""
    if not doubts:
        return ""
    named = list(dict.fromkeys(filter(None, (word.strip(_EDGES) or word for word in doubts))))
    more = f" and {len(named) - _MOST_NAMED:,} more" if len(named) > _MOST_NAMED else ""
    return f"{READ_THE_PAGE} OCR was not certain of: {', '.join(named[:_MOST_NAMED])}{more}."


def doubts_of(passages: Iterable[Read]) -> tuple[str, ...]:
    """What OCR was not certain of and somebody may act on, each once."""
    return tuple(dict.fromkeys(word for each in passages for word in critical_doubts(each)))


def read_fields(passage: Read) -> dict[str, Any]:
    """How a passage was read, as JSON answers say it of every hit and passage."""
    doubts = critical_doubts(passage)
    return {
        "origin": passage.origin.value,
        "read_by_ocr": passage.origin is not Origin.DIGITAL,
        "doubtful": list(doubts),
        "cannot_tell": doubt_words(doubts) or None,
    }


@dataclass(frozen=True, slots=True)
class Owed:
    """What OCR owes of the pages that an answer is about. Pages are counted once.

    unread        not read yet, or read and not searched yet
    failed        OCR tried and could not read them
    without_text  no text to search, and no OCR waits for them
    in_library    unread pages of the whole library, where the answer is about a part of it; None = it is not
    running, seconds_left   a run is at work, and how long it will take; None = not known
    remedy        what to do where nothing can read them; "" = an engine is installed, or nothing is owed
    not_placed    of `unread`, those that OCR read, while the file could not be put in place with them
    """

    unread: int = 0
    failed: int = 0
    without_text: int = 0
    in_library: int | None = None
    running: bool = False
    seconds_left: float | None = None
    remedy: str = ""
    not_placed: int = 0

    @property
    def words(self) -> str:
        """ "1,204 pages not yet read." and what else is to be said; "" when nothing is owed."""
        return " ".join(part for part in (self.count_words, self.failed_words, self.progress) if part)

    @property
    def count_words(self) -> str:
        if self.in_library is None or self.in_library == self.unread:
            return f"{unread_or_not_placed(self.unread, self.not_placed)}." if self.unread else ""
        if not self.in_library:
            return ""
        here = f"{self.unread:,}" if self.unread else "none"
        return f"{not_read(self.in_library)}, {here} of them in these publications."

    @property
    def failed_words(self) -> str:
        if not self.failed:
            return ""
        return f"{self.failed:,} page{'s' if self.failed > 1 else ''} could not be read by OCR."

    @property
    def progress(self) -> str:
        """Where the run at work stands, or what is to be done; "" when nothing is owed."""
        if not (self.unread or self.in_library):
            return ""
        if self.running:
            left = f": {duration(self.seconds_left)} left" if self.seconds_left is not None else ""
            return f"They are being read now{left}."
        return " ".join(part for part in (self.remedy, WHY_NOT_PLACED if self.not_placed else "") if part)

    def fields(self) -> dict[str, Any]:
        return {
            "pages_not_read": self.unread,
            "pages_not_read_in_library": self.unread if self.in_library is None else self.in_library,
            "pages_not_in_place": self.not_placed,
            "pages_could_not_be_read": self.failed,
            "running": self.running,
            "seconds_left": self.seconds_left,
            "words": self.words,
        }


def not_read(pages: int) -> str:
    """ "1,204 pages not yet read"."""
    return f"{pages:,} page{'' if pages == 1 else 's'} not yet read"


def unread_or_not_placed(unread: int, not_placed: int) -> str:
    """ "3 pages not yet read, 2 pages read but not in place"; `not_placed` are among the unread."""
    waiting = unread - not_placed
    placing = (
        f"{not_placed:,} page{'' if not_placed == 1 else 's'} read but not in place" if not_placed else ""
    )
    return ", ".join(part for part in (not_read(waiting) if waiting or not placing else "", placing) if part)


def unread_words(owed: Owed, failed: bool, why: str = "") -> str:
    """What a page says that is not read yet, or that OCR `failed` to read; `why` = what came of it."""
    if failed:
        lead = why or "OCR could not read this page, and search cannot find it."
        return f"{lead} Read the picture itself."
    lead = "This page is a scan that has not been read yet, and search cannot find it."
    if owed.running:
        return f"{lead} It will be read next."
    return f"{lead} {owed.remedy or 'It will be the first to be read when OCR runs.'}"


def duration(seconds: float) -> str:
    """About how long, in words: no more exact than an estimate is."""
    minutes = round(seconds / 60)
    if minutes < 1:
        return "less than a minute"
    if minutes < 90:
        return f"about {minutes} minute{'s' if minutes > 1 else ''}"
    hours = round(seconds / 3600)
    if hours < 48:
        return f"about {hours} hours"
    return f"about {round(seconds / 86400)} days"
