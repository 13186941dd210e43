"""Where one number means several things: sentences to show when it is asked for; how far a JASC code goes.

The FAA's preface to its table says that a JASC code agrees with the first three digits of ATA Spec 100 in
some cases only, that engines and stall warning were moved, and that the fourth digit is the FAA's own (JASC
Code Table and Definitions, 27 October 2008). So two digits are safe, three need care, and four never agree.
"""

from dataclasses import dataclass
from functools import cache

from indexer.trade.chapter_tables import jasc_rows, read_table
from indexer.trade.chapters import ChapterNumber, Scheme, parse_number

_NO_THIRD_DIGIT = frozenset({"12", "14", "51", "52", "53", "54", "55", "56", "57", "72", "85"})
_STALL_WARNING = "3418"


@dataclass(frozen=True, slots=True)
class Collision:
    """A number that means several things. `scheme` None: in whatever scheme it is asked for."""

    number: ChapterNumber
    scheme: Scheme | None
    sentence: str
    source: str


@cache
def collisions() -> tuple[Collision, ...]:
    """The table of collisions, as kept in tables/collisions.csv."""
    return tuple(_collision(row) for row in read_table("collisions.csv"))


def warnings_for(number: ChapterNumber) -> tuple[str, ...]:
    """Sentences to show a person who asks for this number; () for most, and for a manual's own order."""
    if number.scheme is Scheme.OWN:
        return ()
    said = [each.sentence for each in collisions() if _meets(each, number)]
    if number.scheme is Scheme.JASC and number.section:
        said.insert(0, _jasc_sentence(number))
    return tuple(dict.fromkeys(said))


def widened(number: ChapterNumber) -> tuple[ChapterNumber, ...]:
    """The ATA numbers that a number goes with, narrowest first: JASC 3245 -> 32-40, 32.

    The last is sure; one before it agrees by three digits, with care. Not so for structure, engine, servicing
    and hardware codes, for wiring codes (xx97) and for codes that the table does not have. () where no ATA
    chapter is sure. An ATA number goes with itself.
    """
    sure = number.ata()
    if sure is None or number.scheme is not Scheme.JASC:
        return (sure,) if sure else ()
    if str(number) == _STALL_WARNING:
        return ChapterNumber("27", "30"), sure
    third = (number.section or "0")[0]
    known = str(number) in jasc_rows() and number.chapter not in _NO_THIRD_DIGIT
    if not known or third == "0" or number.section == "97":
        return (sure,)
    return ChapterNumber(sure.chapter, f"{third}0"), sure


def _collision(row: dict[str, str]) -> Collision:
    scheme = Scheme(row["scheme"]) if row["scheme"] else None
    number = parse_number(row["number"], scheme)
    assert number is not None, f"tables/collisions.csv: {row['number']} is not a number"
    return Collision(number, scheme, row["sentence"], row["source"])


def _meets(collision: Collision, number: ChapterNumber) -> bool:
    """Whether the number asked for is the colliding one, a part of it, or the chapter it stands in."""
    if collision.scheme is None:
        return collision.number.chapter == number.chapter
    if collision.scheme is not number.scheme:
        return False
    return collision.number.covers(number) or number.covers(collision.number)


def _jasc_sentence(number: ChapterNumber) -> str:
    row, reach = jasc_rows().get(str(number)), widened(number)
    what = (
        f"{number} is a JASC code ({row.title.lower()})" if row else f"{number} is in no JASC table held here"
    )
    if not reach:
        return f"{what}: no ATA chapter agrees with it."
    narrow = f", and with care to {reach[0]}" if len(reach) > 1 else ""
    digits = f"Its four digits are not ATA {number.chapter}-{number.section}."
    return f"{what}: it is matched to ATA {reach[-1]}{narrow}. {digits}"
