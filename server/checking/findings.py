"""What a source check finds of each citation. Values only."""

from dataclasses import dataclass

from indexer.library.register_records import CurrencyFinding
from indexer.tagging.tags import Citation
from indexer.trade.applies import ApplicabilityAnswer
from indexer.trade.evidence import Answer
from server.checking.read_by_ocr import OcrFound


@dataclass(frozen=True, slots=True)
class Resolved:
    """The publication a citation means, and the place in it.

    publication  id; name: what a sentence calls it; revision as printed, "" = not printed
    pdf_pages    1-based; () = the whole publication
    passages     ids of the passages meant, in page order
    """

    publication: str
    name: str
    revision: str
    pdf_pages: tuple[int, ...] = ()
    passages: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Candidate:
    """A publication the citation may mean, and why it was not simply taken."""

    publication: str
    name: str
    revision: str
    why: str


@dataclass(frozen=True, slots=True)
class StandingFinding:
    """The standing of the passages meant. With several, the least that any of them has.

    value       a StandingValue, or "part approval" for papers that approve an article and no work
    usual       the usual standing of the type: shown as "usually", never as a finding
    basis       how it is known, "" = nothing says
    pdf_page    of the quote, None without one
    conditions  what must also be true, in words for a person
    mandatory   by what: "AD 2031-07-11", "Airworthiness Limitations section"; "" = nothing held here
    source      of the quote, where that is another publication: the directive; "" = the cited one itself
    read_by_ocr  True when a passage meant was read by OCR
    entered     who of the shop entered it and why, in words; "" = nobody did. Then nothing is quoted
    """

    value: str
    usual: str = ""
    scope: str = ""
    basis: str = ""
    quote: str = ""
    pdf_page: int | None = None
    conditions: tuple[str, ...] = ()
    mandatory: str = ""
    source: str = ""
    read_by_ocr: bool = False
    entered: str = ""

    @property
    def shown(self) -> bool:
        """Whether anything shows it: words quoted, or an entry of the shop."""
        return bool(self.quote or self.entered)


CITED_ITSELF = "the directive cited"  # a level beside those of ClaimKind


@dataclass(frozen=True, slots=True)
class DirectiveFinding:
    """A directive held here that speaks of the cited document.

    level     a ClaimKind value: required, incorporated, credit, alternative, mentioned; or CITED_ITSELF
    status    "in force", "superseded by AD ...", "proposed" ...
    note      what follows for this citation, in words ("names revision B, not revision C")
    reaches   YES = in force on the day, requires or incorporates this very revision and place;
              NO = it does not; CANNOT_TELL
    says      of one that names another revision: "Requires revision B ..., not this one"; else ""
    credits   of a credit paragraph: whether work by this very revision on the day counts; None = it is none
    """

    number: str
    publication: str
    level: str
    status: str
    quote: str
    pdf_page: int | None
    note: str = ""
    reaches: Answer = Answer.NO
    credits: Answer | None = None
    says: str = ""


@dataclass(frozen=True, slots=True)
class Enough:
    """Whether the source is enough for one class of work, and why. Never YES without quoted proof."""

    answer: Answer
    why: str


@dataclass(frozen=True, slots=True)
class SourceFinding:
    """All that is found of one citation.

    resolved    None = not held here, or it cannot be told which is meant: see candidates
    enough      by class of work: "minor" and "major" always; "directive", "inspection" when asked for;
                "directive" also where the entry says that a directive was complied with
    ask         whom to ask, () = nobody needed
    missing     what the reference lacks, in words ("revision", "chapter or page")
    notes       both positions of a disputed point, conditions of a circular, what overrides a page ...
    wording     suggested words for the record, "" = cannot be worded
    directives_note  what must be said where no directive was found
    read        how the place was read
    """

    citation: Citation
    resolved: Resolved | None
    candidates: tuple[Candidate, ...]
    current: CurrencyFinding
    applies: ApplicabilityAnswer
    standing: StandingFinding
    directives: tuple[DirectiveFinding, ...]
    enough: dict[str, Enough]
    ask: tuple[str, ...]
    missing: tuple[str, ...]
    notes: tuple[str, ...]
    wording: str
    directives_note: str = ""
    read: OcrFound = OcrFound()
