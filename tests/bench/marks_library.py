"""The library of relating_library.py with what marks are made of, for marks.py and source_check.py.

Manuals print models on their title page, serials in the foot of some pages and above some passages, the date
of every page, and a list of effective pages. Bulletins and directives print the serials they are for. One
manual of its own order has 5,000 passages. A fleet of 300 aircraft with engine and propeller; 300 checks of
revisions, of which some have run out. Everything is fiction.
"""

import datetime
import random
from collections.abc import Iterator
from dataclasses import replace

import relating_library as plain
from making import Made, Text, evidence, tag

from indexer.library import fleet, register
from indexer.library.catalogue import Catalogue
from indexer.library.fleet_records import Aircraft, Fitted, FittedKind
from indexer.tagging.effective_pages import LISTED
from indexer.tagging.tags import ApplicabilityScope, ListedPage, PageMark, StatedApplicability
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.publication_types import PublicationType as Type

FLEET, CHECKS = 300, 300
LARGE, LARGE_NUMBER = 5_000, "KM-900"
CHECKED_ON = datetime.date(2026, 6, 1)
_MANUALS = (Type.MAINTENANCE_MANUAL, Type.PARTS_CATALOG, Type.STRUCTURAL_REPAIR_MANUAL, Type.SERVICE_MANUAL)


def publications(scale: float = 1.0) -> Iterator[Made]:
    yield from (marked(each) for each in plain.publications(scale))
    yield marked(large())


def marked(made: Made) -> Made:
    """The same publication with what it prints about models, serials and the state of its pages."""
    chance = random.Random(f"marks {made.file}")
    if made.type in _MANUALS:
        marks, listed = _pages(made, chance)
        return replace(made, applicability=_of_manual(made, chance), page_marks=marks, listed_pages=listed)
    if made.type is Type.SERVICE_BULLETIN:
        words = f"Model {made.models[0]} airplanes, serial numbers {_range(chance)}"
        return replace(made, applicability=(_stated(words),))
    if made.directive:
        words = f"This AD applies to {made.directive.applicability.value}, serial numbers {_range(chance)}."
        return replace(made, applicability=(_stated(words),))
    return made


def large() -> Made:
    """A manual of sections 1 to 125 with paragraphs, and no chapters."""
    chance = random.Random("large")
    texts, printed = [], {}
    for number in range(LARGE):
        page, section, paragraph = number // plain.PER_PAGE + 1, number // 40 + 1, number % 40 + 1
        own = ChapterNumber(f"{section}-{paragraph}", scheme=Scheme.OWN)
        words = plain._words(chance, 36)
        texts.append(Text(words, (f"SECTION {section}", f"{section}-{paragraph}. Care"), page, own))
        printed[page] = f"{section}-{page}"
    return Made(
        "own-large.pdf", Type.SERVICE_MANUAL, LARGE_NUMBER, "1", datetime.date(1951, 4, 1),
        plain.maker_name(0), "Large handbook", ("K-0",), texts, pages=len(printed), printed=printed,
    )  # fmt: skip


def fill_shop(catalogue: Catalogue, scale: float = 1.0) -> None:
    """The fleet and the register of the shop."""
    makers = max(1, round(plain.MAKERS * scale))
    for number in range(FLEET):
        place = number % makers
        fleet.add(
            catalogue,
            registration(number),
            f"C-{place:02}{1 + number // makers % 2}",
            "R. Quill",
            str(1 + number * 7 % 400),
            plain.maker_name(place),
            fitted=(
                Fitted(FittedKind.ENGINE, f"V-{100 + place}", f"L-{number}", position="left"),
                Fitted(FittedKind.PROPELLER, f"P-{place}", f"P{number}", position="left"),
            ),
        )
    manuals = [each for each in catalogue.publications() if each.type in _MANUALS]
    for number, manual in enumerate(manuals[:CHECKS]):
        register.record_check(
            catalogue, manual.id, manual.revision, manual.date, "the maker's list of revisions", CHECKED_ON,
            "R. Quill", 90 if number % 3 == 0 else 3000,
        )  # fmt: skip


def registration(number: int) -> str:
    return f"N{100 + number}C"


def aircraft_of(catalogue: Catalogue, number: int = 0) -> Aircraft:
    return fleet.aircraft(catalogue, registration(number))


def _of_manual(made: Made, chance: random.Random) -> tuple[StatedApplicability, ...]:
    """Its models; serials in the foot of one page in five; words above one passage in twenty."""
    found = [_stated(f"Model {made.models[0]}")]
    for page in range(1, made.pages + 1):
        if chance.random() < 0.2:
            found.append(_stated(f"EFFECTIVITY: S/N {_range(chance)}", ApplicabilityScope.PAGE, page))
    for ordinal, text in enumerate(made.texts):
        if chance.random() < 0.05:
            words = f"Airplanes serial numbers {_range(chance)}"
            found.append(_stated(words, ApplicabilityScope.PASSAGE, text.page, ordinal))
    return tuple(found)


def _pages(made: Made, chance: random.Random) -> tuple[tuple[PageMark, ...], tuple[ListedPage, ...]]:
    """What its pages print, and the list of them, which is right but for one page in a hundred."""
    first = {text.page: text.number for text in reversed(made.texts)}
    marks, listed = [], []
    for page, printed in sorted(made.printed.items()):
        number = "" if first[page].scheme is Scheme.OWN else str(first[page])
        date = made.date
        marks.append(PageMark(page, number, printed, tag(date), tag(made.revision)))
        if chance.random() < 0.01:
            date += datetime.timedelta(days=30)
        line = replace(evidence(f"{number} {printed} {date}"), rule=LISTED)
        listed.append(ListedPage(number, printed, date, made.revision, line))
    return tuple(marks), tuple(listed)


def _stated(
    words: str,
    scope: ApplicabilityScope = ApplicabilityScope.PUBLICATION,
    page: int | None = None,
    passage: int | None = None,
) -> StatedApplicability:
    return StatedApplicability(scope, replace(tag(words), evidence=evidence(words, page or 1)), page, passage)


def _range(chance: random.Random) -> str:
    first = chance.randint(1, 300)
    return f"{first:04} through {first + chance.randint(20, 150):04}"
