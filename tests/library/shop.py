"""A small invented shop: two bulletins' revisions, directives, a manual and its temporary revision.

Makers, numbers and aircraft are fiction. `everything()` is used wherever a test needs relations of every
kind.
"""

import datetime

from making import Made, Text, evidence, tag

from indexer.tagging.tags import Claim, ClaimKind, DirectiveFacts, StandingValue
from indexer.trade.chapters import ChapterNumber
from indexer.trade.publication_types import PublicationType as Type

MAKER = "Corvane Aircraft Company"
EFFECTIVE = datetime.date(2031, 5, 12)
OTHER_MAKER = "Dellmore Aviation, Inc."
DATE = datetime.date


def claim(
    kind: ClaimKind, document: str, quote: str = "", type: Type | None = Type.SERVICE_BULLETIN, **rest
) -> Claim:
    return Claim(kind, document, evidence(quote or f"words about {document}"), type, **rest)


def directive(
    number: str,
    *claims: Claim,
    is_rule: bool = True,
    text: str = "",
    effective: datetime.date | None = EFFECTIVE,
    facts: dict | None = None,
    **rest,
) -> Made:
    """A directive about aircraft of MAKER; `facts` are more of what it says of itself."""
    said = {"proposal": not is_rule} | (facts or {})
    read = DirectiveFacts(
        number=tag(number),
        amendment=None,
        effective=tag(effective),
        subjects=(),
        applicability=tag(f"{MAKER} Model C-220 airplanes"),
        is_rule=is_rule,
        **said,
    )
    type = Type.AIRWORTHINESS_DIRECTIVE if is_rule else Type.PROPOSED_DIRECTIVE
    words = [Text(text or f"This AD applies to {MAKER} airplanes.", value=StandingValue.APPROVED)]
    file = f"ad-{number}{'' if is_rule else '-proposed'}.pdf"
    return Made(file, type, number, texts=words, claims=claims, directive=read, **rest)


def withdrawal(number: str, gone: str, **rest) -> Made:
    """A paper that takes a directive out of force and puts nothing in its place."""
    words = claim(ClaimKind.SUPERSEDES, gone, f"removes AD {gone}", type=Type.AIRWORTHINESS_DIRECTIVE)
    facts = {"proposal": False, "withdraws": (tag(gone),)}
    made = directive(number, words, is_rule=False, facts=facts, **rest)
    made.type, made.file = Type.AIRWORTHINESS_DIRECTIVE, f"ad-{number}-withdraws.pdf"
    return made


def about(number: str, **said) -> Made:
    """A paper that bears the directive's number and is no rule."""
    words = claim(ClaimKind.MENTIONS, number, "ACTION: Final rule;", type=Type.AIRWORTHINESS_DIRECTIVE)
    made = directive(number, words, is_rule=False, facts={"proposal": False, **said})
    made.type, made.file = Type.AIRWORTHINESS_DIRECTIVE, f"about-{number}.pdf"
    return made


def bulletin(number: str, revision: str | None, date: datetime.date | None, **rest) -> Made:
    given = {"maker": MAKER, "title": f"Subject of {number}", "texts": bulletin_texts(), **rest}
    file = f"sb-{number}-{revision or 'none'}{'-second' if 'content' in rest else ''}.pdf"
    return Made(file, Type.SERVICE_BULLETIN, f"SB {number}", revision, date, **given)


def bulletin_texts() -> list[Text]:
    return [
        Text("Effectivity words.", ("1. PLANNING INFORMATION", "A. Effectivity")),
        Text("Look at the fitting.", ("PART 2 - INSPECTION", "A. Access")),
        Text("Measure the fitting.", ("PART 2 - INSPECTION", "B. Measurement")),
        Text("Replace the fitting.", ("PART 3 - REPLACEMENT", "A. Removal")),
        Text("Install the fitting.", ("PART 3 - REPLACEMENT", "B. Installation")),
    ]


def manual(revision: str, date: datetime.date | None, number: str = "D4410-1", **rest) -> Made:
    """Six pages: pages 201 and 202 stand in two subjects each, page 1 in the front matter alone."""
    numbers = [None, "32-41-00", "32-41-00", "32-42-00", "32-42-00", None]
    texts = [
        Text(f"Words of page {page}.", (), page, ChapterNumber(*written.split("-")) if written else None)
        for page, written in enumerate(numbers, 1)
    ]
    printed = {1: "1", 2: "201", 3: "202", 4: "201", 5: "202", 6: ""}
    given = {
        "maker": MAKER,
        "title": "Maintenance Manual",
        "texts": texts,
        "pages": 6,
        "printed": printed,
        **rest,
    }
    return Made(f"mm-{number}-{revision}.pdf", Type.MAINTENANCE_MANUAL, number, revision, date, **given)


def temporary_revision(number: str, issued: datetime.date | None, *pages: tuple[str, str], **rest) -> Made:
    change = claim(ClaimKind.CHANGES_PAGE, "D4410-1", type=Type.MAINTENANCE_MANUAL, pages=pages, **rest)
    texts = [Text("New words.", (), 1, ChapterNumber("32", "41", "00"))]
    return Made(
        f"tr-{number}.pdf", Type.TEMPORARY_REVISION, number, None, issued, MAKER, None, (), texts, (change,),
        printed={1: "201"},
    )  # fmt: skip


_BRAKES = {"revision": "3", "date": DATE(2030, 8, 3)}
_ALTERNATOR = {"revision": "original", "date": DATE(2028, 2, 1)}
_LATCH = {"revision": "A", "date": DATE(2031, 4, 4)}
_DOOR = {"revision": "A", "date": DATE(2031, 3, 3), "paragraphs": ("Part 9",)}


def everything() -> list[Made]:
    requires = ClaimKind.REQUIRES
    return [
        directive(
            "2031-04-07",
            claim(
                requires,
                "32-0012",
                "do Part 3 of Service Bulletin 32-0012",
                paragraphs=("Part 3",),
                **_BRAKES,
            ),
            claim(ClaimKind.INCORPORATES, "32-0012", **_BRAKES),
            claim(
                ClaimKind.CREDITS, "32-0012", revision="2", date=DATE(2029, 1, 9), before=DATE(2031, 5, 12)
            ),
            claim(ClaimKind.SUPERSEDES, "2029-11-02", type=Type.AIRWORTHINESS_DIRECTIVE),
            claim(ClaimKind.MENTIONS, "24-0107"),
            claim(ClaimKind.MENTIONS, "99-9999"),
        ),
        directive("2029-11-02", claim(requires, "24-0107", **_ALTERNATOR)),
        directive("2033-02-01", claim(requires, "24-0107", **_ALTERNATOR), is_rule=False),
        directive("2032-08-03", claim(requires, "52-0009", **_DOOR)),
        directive("82-27-14", claim(requires, "52-0010", **_LATCH), effective=None),
        directive("82-27-14 R1", claim(requires, "52-0010", **_LATCH), effective=None),
        directive("2034-01-05", claim(requires, "52-0010", **_LATCH)),
        withdrawal("2035-03-02", "2034-01-05"),
        directive("2035-06-01", claim(requires, "52-0010", **_LATCH)),
        about("2035-06-01", put_off=True),
        bulletin("32-0012", "2", DATE(2029, 1, 9)),
        bulletin("32-0012", "3", DATE(2030, 8, 3)),
        bulletin("32-0012", "5", DATE(2032, 6, 30)),
        bulletin("24-0107", "original", DATE(2028, 2, 1)),
        bulletin("24-0107", "1", None),
        bulletin("52-0009", "A", DATE(2031, 3, 3)),
        bulletin("52-0010", "A", DATE(2031, 4, 4), claims=(claim(ClaimKind.SUPERSEDES, "52-0009"),)),
        bulletin("32-0012", "3", DATE(2030, 8, 3), maker=OTHER_MAKER, content=b"%PDF another maker's"),
        manual("6", DATE(2030, 3, 1)),
        manual("7", DATE(2032, 3, 1)),
        temporary_revision("TR 32-1", DATE(2031, 1, 15), ("32-41-00", "201"), ("", "1")),
        temporary_revision("TR 32-2", DATE(2031, 2, 15), ("32-43-00", "201")),
        Made("unknown.pdf", claims=(claim(ClaimKind.MENTIONS, "D4410-1", type=Type.MAINTENANCE_MANUAL),)),
    ]
