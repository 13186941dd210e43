"""Pages that wait to be read by OCR, the order they come in, and what is owed. Values only."""

from dataclasses import dataclass

from indexer.reading.recognized import OcrReason

# Among the catalogue's own numbers: they count every change of pages that OCR failed on, and every page or
# word that was wanted.
FAILURES = "ocr_failures"
WANTED = "ocr_wanted"
MOST_TRIES = 3  # runs in which a page may fail before it is listed as one that could not be read


@dataclass(frozen=True, slots=True)
class PageToRead:
    """One page whose own text will not do."""

    copy_id: str
    pdf_page: int  # 1-based
    file: str  # file name, without the folder
    reason: OcrReason


@dataclass(frozen=True, slots=True)
class FailedPage:
    """A page that OCR could not read, or not as words.

    problem  what happened and what to do, for a person
    tries    runs in which it failed; from MOST_TRIES on it is no longer tried by itself. 0 = it was read, and
             what came out is not words or cannot be used: another run would read the same
    """

    copy_id: str
    pdf_page: int  # 1-based
    file: str
    problem: str
    tries: int

    @property
    def tried_again(self) -> bool:
        return 0 < self.tries < MOST_TRIES


@dataclass(frozen=True, slots=True)
class Shelved:
    """What the order of reading needs to know of one publication: pages first_page to last_page of its copy.

    known   False = neither its type nor its number nor its title is known
    names   its number, title and file name, as printed
    models  as printed
    """

    copy_id: str
    first_page: int  # 1-based
    last_page: int
    known: bool
    names: str
    models: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Wanted:
    """What the shop looks for.

    opened  (copy id, pdf_page) of pages that were opened before they were read, the latest first
    missed  words that searches hardly found, and how often they were asked
    models  of the fleet and of what is fitted to it
    """

    opened: tuple[tuple[str, int], ...] = ()
    missed: tuple[tuple[str, int], ...] = ()
    models: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Debt:
    """What OCR still owes: "1,204 pages not yet read".

    pages_unread   their own text will not do, and what OCR read is not searched yet
    pages_failed   OCR could not read them, or not as words; they are no longer tried by themselves
    publications   that hold unread pages
    seconds_left   until all are read, at the speed of the run at work; None = not known, or none is at work
    running        a run is at work, in this process or in another
    not_placed     of pages_unread, those that OCR read and that are not in place; 0 while a run is at work,
                   which puts them in place itself
    """

    pages_unread: int
    pages_failed: int
    publications: int
    seconds_left: float | None = None
    running: bool = False
    not_placed: int = 0


@dataclass(frozen=True, slots=True)
class PublicationDebt:
    """The unread and failed pages of one publication."""

    publication_id: str
    pages_unread: int
    pages_failed: int


@dataclass(frozen=True, slots=True)
class RunState:
    """Where the newest run of OCR stands, told across processes by a small file.

    started, at    ISO 8601, UTC: when it began, when this was written
    ended          how it ended, in words for a person; "" = it was at work at `at`
    page           what is read now, in words ("brake-manual.pdf, PDF page 12"); "" = nothing
    done, failed   pages of this run
    left           pages that still wait
    seconds_left   at the present speed; None before three pages are read
    not_placed     of each file that could not be put in place, why and what to do
    """

    process: int
    started: str
    at: str
    engine: str
    ended: str = ""
    page: str = ""
    done: int = 0
    failed: int = 0
    left: int = 0
    seconds_left: float | None = None
    not_placed: tuple[str, ...] = ()
