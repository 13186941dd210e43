"""Points on which the trade disagrees: both positions in our own words, each with its source.

Where a finding touches one of these, no bare "no" is printed: both positions are, and whom to ask. Sources
marked "as reported" were read in a secondary account; "from memory" means not read again.
"""

from dataclasses import dataclass
from enum import StrEnum

from indexer.trade.publication_types import PublicationType as Type


class Disputed(StrEnum):
    MANUAL_FOR_MAJOR_WORK = "manual for major work"
    REPAIR_MANUAL_STAMP = "stamp of a repair manual"
    BULLETIN_IN_A_MANUAL = "bulletin named in a manual"
    CURRENT_PROGRAM = "current program"
    WORK_ORDER_DATA = "data for a work order"


@dataclass(frozen=True, slots=True)
class Position:
    says: str
    source: str


@dataclass(frozen=True, slots=True)
class DisputedPoint:
    """question, both positions, what else bears on it, what the finding is here and who decides."""

    point: Disputed
    question: str
    positions: tuple[Position, Position]
    finding: str
    ask: str
    also: tuple[Position, ...] = ()

    @property
    def sentences(self) -> tuple[str, ...]:
        """The point for the screen: the question, both positions with sources, what follows here."""
        both = (
            f"{lead}: {each.says} ({each.source})"
            for lead, each in zip(("One position", "The other"), self.positions, strict=True)
        )
        more = (f"Also: {each.says} ({each.source})" for each in self.also)
        return (self.question, *both, *more, f"{self.finding} {self.ask}")


_SIGNER = "Ask the holder of the inspection authorization who signs, or the repair station's procedures."
_LETTER = "FAA letter, 23 February 2010, as reported"
_POINTS = (
    DisputedPoint(
        Disputed.MANUAL_FOR_MAJOR_WORK,
        "Is the manufacturer's maintenance data enough for a major repair?",
        (
            Position(
                "a maintenance manual is acceptable data, and a major repair needs approved technical data.",
                "usual teaching; 14 CFR 65.95(a)(1), 145.201(c)(2)",
            ),
            Position(
                "technical data in a manufacturer's manual or service instructions came from data that was "
                "already approved with the type design, and need not be approved again for a major repair "
                "that follows it.",
                f"FAA Order 8900.1 volume 4 chapter 9 section 1; {_LETTER}",
            ),
        ),
        "Shown as acceptable data; whether it is enough is not decided here.",
        _SIGNER,
        (
            Position(
                "it covers repairs that the manual describes, not another repair, another material or an "
                "alteration.",
                _LETTER,
            ),
            Position(
                "methods of work need only be acceptable; it is the engineering data that must be approved.",
                "AC 120-77, 7 October 2002",
            ),
            Position(
                "for a time a notice let manufacturers' repair data serve as approved data for types "
                "certificated before 1 January 1980.",
                "FAA notice, 21 June 2006, valid one year",
            ),
        ),
    ),
    DisputedPoint(
        Disputed.REPAIR_MANUAL_STAMP,
        'What does "FAA approved" on a structural repair manual add?',
        (
            Position(
                "the words make the pages they stand for approved data; pages without them are not.",
                "usual teaching; common practice, no source",
            ),
            Position(
                "the stamp has no special meaning: the data was approved with the type design anyway.",
                _LETTER,
            ),
        ),
        "Shown as approved only where the words are found and reach the page; else it cannot be told.",
        _SIGNER,
    ),
    DisputedPoint(
        Disputed.BULLETIN_IN_A_MANUAL,
        "Does a bulletin become mandatory because the manual names it?",
        (
            Position(
                "a manufacturer may bring a bulletin into its manual by naming it there.",
                "NTSB order of 2006, as reported",
            ),
            Position(
                "a manufacturer cannot make rules; only the authority can, in a rule or a directive.",
                "FAA legal interpretation, 11 August 2006, as reported",
            ),
        ),
        "Shown as not mandatory by itself.",
        "Look for a directive, and for the operator's own approved program; ask the signer.",
    ),
    DisputedPoint(
        Disputed.CURRENT_PROGRAM,
        'Which revision is a "current" inspection program?',
        (
            Position("the latest that the manufacturer has issued.", "the word's plain meaning"),
            Position(
                "the program as it stood when the owner adopted it; later changes bind only through a "
                "directive or another rule.",
                "FAA legal interpretation, 5 December 2008, as reported; 14 CFR 91.409(f)(3)",
            ),
        ),
        "The finding names the rule that it speaks of.",
        "Ask the owner which program was adopted and when.",
    ),
    DisputedPoint(
        Disputed.WORK_ORDER_DATA,
        "What data may a repair station's work order for a major repair rest on?",
        (
            Position("a manual or specification acceptable to the FAA.", "14 CFR part 43 Appendix B(b)"),
            Position("approved technical data.", "14 CFR 145.201(c)(2)"),
        ),
        "The stricter of the two governs: approved data is needed.",
        "Ask the repair station's chief inspector.",
    ),
)
_MANUALS = frozenset(
    {
        Type.MAINTENANCE_MANUAL, Type.SERVICE_MANUAL, Type.INSTRUCTIONS_FOR_CONTINUED_AIRWORTHINESS,
        Type.COMPONENT_MAINTENANCE_MANUAL, Type.ENGINE_MANUAL, Type.PROPELLER_MANUAL, Type.SERVICE_BULLETIN,
        Type.SERVICE_LETTER, Type.TEMPORARY_REVISION, Type.STANDARD_PRACTICES_MANUAL,
        Type.WIRING_DIAGRAM_MANUAL,
    }
)  # fmt: skip


def disputed_point(point: Disputed) -> DisputedPoint:
    """One point with both its positions."""
    return next(each for each in _POINTS if each.point is point)


def disputed_for_major_work(kind: Type | None) -> tuple[DisputedPoint, ...]:
    """What must stand beside a finding that a publication of this type is not shown to be enough for major
    work; () where nothing is disputed (a circular, a record, a type that is not known)."""
    if kind is Type.STRUCTURAL_REPAIR_MANUAL:
        return tuple(
            disputed_point(each) for each in (Disputed.REPAIR_MANUAL_STAMP, Disputed.MANUAL_FOR_MAJOR_WORK)
        )
    return (disputed_point(Disputed.MANUAL_FOR_MAJOR_WORK),) if kind in _MANUALS else ()
