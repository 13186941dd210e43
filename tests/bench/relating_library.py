"""An invented library of 2,000 publications and some 100,000 passages, made without PDFs, for relating.py.

Forty makers with two models each: maintenance manuals, parts lists, structural repair manuals, bulletins that
change one another, directives that require them, temporary revisions, and older manuals of their own order.
About half of the passages refer to something: pages and figures of their own manual, chapters, bulletins.
Every maker, number and aircraft is fiction.
"""

import datetime
import random
import sys
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).parent.parent.parent
sys.path[:0] = [str(ROOT), str(ROOT / "tests" / "library")]

from making import Made, Text, evidence, tag  # noqa: E402

from indexer.tagging.tags import Claim, ClaimKind, DirectiveFacts, StandingValue  # noqa: E402
from indexer.trade.chapters import ChapterNumber, Scheme  # noqa: E402
from indexer.trade.publication_types import PublicationType as Type  # noqa: E402

MAKERS = 40
MANUAL, PARTS, REPAIR, OWN, PAPER = 700, 200, 150, 400, 6  # passages of one publication
BULLETINS, DIRECTIVES = 17, 4  # for each model
CHAPTERS = ("21", "24", "27", "28", "29", "32", "34", "52", "53", "71")
PER_PAGE = 3
_WORDS = """remove install check the brake valve strut cable pulley bolt nut fitting seal hydraulic line
    fuel pump filter bracket door hinge panel rib spar skin bearing wheel tire lever rod actuator switch relay
    lamp""".split()


def maker_name(place: int) -> str:
    return f"Corvane{chr(65 + place % 26)}{place} Aircraft Company"


def publications(scale: float = 1.0) -> Iterator[Made]:
    """`scale` 1.0 = all 40 makers."""
    for place in range(max(1, round(MAKERS * scale))):
        for model in (f"C-{place:02}1", f"C-{place:02}2"):
            yield from _of_model(place, model)
        if place % 2 == 0:
            yield own_order(place)


def _of_model(place: int, model: str) -> Iterator[Made]:
    yield manual(place, model)
    for kind, name, passages in (
        (Type.PARTS_CATALOG, "IPC", PARTS),
        (Type.STRUCTURAL_REPAIR_MANUAL, "SRM", REPAIR),
    ):
        texts, printed = _chaptered(random.Random(f"{name} {model}"), place, model, passages)
        yield Made(
            f"{name.lower()}-{model}.pdf", kind, f"{name}-{model}", "3", datetime.date(2030, 1, 1),
            maker_name(place), f"{name} of the {model}", (model,), texts, pages=len(printed), printed=printed,
        )  # fmt: skip
    for number in range(BULLETINS):
        yield bulletin(place, model, number)
    for number in range(DIRECTIVES):
        yield directive(place, model, number)
    yield temporary_revision(place, model)


def manual(place: int, model: str, revision: str = "4", passages: int = MANUAL) -> Made:
    texts, printed = _chaptered(random.Random(f"{model} {revision}"), place, model, passages)
    return Made(
        f"mm-{model}-{revision}.pdf", Type.MAINTENANCE_MANUAL, f"MM-{model}", revision,
        datetime.date(2030, 1, int(revision)), maker_name(place), f"Maintenance Manual {model}", (model,),
        texts, pages=len(printed), printed=printed,
    )  # fmt: skip


def own_order(place: int) -> Made:
    """A manual of sections I to X, with paragraphs 1-1 and on, that print no chapter."""
    chance = random.Random(f"own {place}")
    texts, printed = [], {}
    for number in range(OWN):
        page, section, paragraph = number // PER_PAGE + 1, number // 40 + 1, number % 40 + 1
        own = ChapterNumber(f"{section}-{paragraph}", scheme=Scheme.OWN)
        other = f"paragraph {section}-{chance.randint(1, 40)}"
        words = f"{_words(chance, 30)} Refer to {other}." if number % 3 else _words(chance, 36)
        texts.append(Text(words, (f"SECTION {section}", f"{section}-{paragraph}. Care"), page, own))
        printed[page] = f"{section}-{page}"
    return Made(
        f"own-{place}.pdf", Type.SERVICE_MANUAL, own_number(place), "1", datetime.date(1951, 4, 1),
        maker_name(place), f"Handbook {place}", (f"K-{place}",), texts, pages=len(printed), printed=printed,
    )  # fmt: skip


def own_number(place: int) -> str:
    return f"KM-{place:03}"


def bulletin(place: int, model: str, number: int) -> Made:
    chance = random.Random(f"sb {model} {number}")
    name = bulletin_number(model, number)
    subject = f"{chance.choice(CHAPTERS)}-{10 * chance.randint(1, 4)}-00"
    texts = [Text("Effectivity: all airplanes.", ("1. PLANNING INFORMATION", "A. Effectivity"))]
    for step in range(PAPER - 1):
        page = f"page 20{chance.randint(1, 6)}"
        words = f"{_words(chance, 25)} Refer to {subject} of the maintenance manual, {page}."
        texts.append(Text(words, (f"{step + 2}. ACCOMPLISHMENT", "A. Work"), 1 + step // PER_PAGE))
    before = bulletin_number(model, number - 1)
    claims = () if number % 5 else (_claim(ClaimKind.SUPERSEDES, before),)
    return Made(
        f"sb-{name}.pdf", Type.SERVICE_BULLETIN, name, "A", datetime.date(2031, 1, 1 + number % 28),
        maker_name(place), f"Bulletin {name}", (model,), texts, claims, pages=2,
    )  # fmt: skip


def bulletin_number(model: str, number: int) -> str:
    return f"SB {model.replace('-', '')}-32-{number:04}"


def directive(place: int, model: str, number: int) -> Made:
    bulletin_name = bulletin_number(model, 1 + 3 * number)
    name = f"2031-{1 + number:02}-{place * 2 + int(model[-1]):02}"
    words = f"This AD applies to {maker_name(place)} Model {model} airplanes. Do {bulletin_name}, Revision A."
    texts = [Text(words, value=StandingValue.APPROVED)]
    texts += [Text(f"({letter}) {_words(random.Random(name), 40)}") for letter in "abcde"]
    facts = DirectiveFacts(
        number=tag(name), amendment=None, effective=tag(datetime.date(2031, 5, 12)), subjects=(),
        applicability=tag(f"{maker_name(place)} Model {model} airplanes"), is_rule=True,
    )  # fmt: skip
    claims = (
        _claim(ClaimKind.REQUIRES, bulletin_name, revision="A"),
        _claim(ClaimKind.MENTIONS, bulletin_number(model, 2)),
    )
    return Made(
        f"ad-{name}.pdf", Type.AIRWORTHINESS_DIRECTIVE, name, texts=texts, claims=claims, directive=facts
    )


def temporary_revision(place: int, model: str) -> Made:
    name = f"MM-{model}"
    pages = (("32-10-00", "201"), ("28-20-00", "202"))
    change = Claim(
        ClaimKind.CHANGES_PAGE, name, evidence(f"words about {name}"), Type.MAINTENANCE_MANUAL, pages=pages
    )
    texts = [Text("New words.", (), 1, ChapterNumber("32", "10", "00"))]
    return Made(
        f"tr-{model}.pdf", Type.TEMPORARY_REVISION, f"TR {model} 32-1", None, datetime.date(2031, 2, 1),
        maker_name(place), None, (model,), texts, (change,), printed={1: "201"},
    )  # fmt: skip


def _claim(kind: ClaimKind, document: str, **rest) -> Claim:
    return Claim(kind, document, evidence(f"words about {document}"), Type.SERVICE_BULLETIN, **rest)


def _chaptered(
    chance: random.Random, place: int, model: str, passages: int
) -> tuple[list[Text], dict[int, str]]:
    """Passages in order of ten chapters with four sections each, and the printed page of each page."""
    texts, printed = [], {}
    each = max(1, passages // (len(CHAPTERS) * 4))
    for number in range(passages):
        subject = min(number // each, len(CHAPTERS) * 4 - 1)
        chapter = ChapterNumber(CHAPTERS[subject // 4], f"{10 * (subject % 4 + 1)}", "00")
        page = number // PER_PAGE + 1
        printed[page] = str(201 + (number % each) // PER_PAGE)
        refers = chance.choice(
            ("", "", f"See figure 20{chance.randint(1, 5)}.", f"Refer to page 20{chance.randint(1, 5)}.",
             f"Refer to {chance.choice(CHAPTERS)}-{10 * chance.randint(1, 4)}-00.",
             f"Do {bulletin_number(model, chance.randrange(BULLETINS))} first.")
        )  # fmt: skip
        words = f"{_words(chance, 30)} {refers}"
        texts.append(
            Text(words, (f"{chapter} {_words(chance, 2)}", f"{number % each + 1}. Removal"), page, chapter)
        )
    return texts, printed


def _words(chance: random.Random, count: int) -> str:
    return " ".join(chance.choices(_WORDS, k=count)).capitalize() + "."
