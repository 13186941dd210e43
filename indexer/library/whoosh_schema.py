"""How a passage lies in the Whoosh index: fields, and the form of a posting.

heading, text      our tokens with positions; scored
publication, chapter, section, group, type, standing
                   exact values, written with a "=" before them so that the empty value has a term too
                   (chapter: "=" for a passage without a number; group: the chapter it is grouped under)
passage            its id, a column: read by document number only
heading_length, text_length
                   number of tokens, a column; Whoosh's own totals count the deleted
listing            1 for a page of contents and the like, a column
"""

from collections.abc import Iterator, Mapping

from whoosh import columns, fields, formats

from indexer.library.analysis import word_positions
from indexer.library.fulltext import NOT_NUMBERED, IndexedPassage
from indexer.library.listings import is_listing
from indexer.library.whoosh_codec import count_positions, pack_positions, unpack_positions

FORMAT = 4  # raise it when a field, a posting or a token changes: an older index is then rebuilt

Positions = Mapping[str, list[int]]


class PackedPositions(formats.Format):
    """Positions, for ArrayCodec to lay in its blocks."""

    def word_values(self, value: Positions, analyzer=None, **_) -> Iterator[tuple[str, int, float, bytes]]:
        for word, places in value.items():
            yield word, len(places), float(len(places)), pack_positions(places)

    def decode_positions(self, packed: bytes) -> list[int]:
        return unpack_positions(packed)

    def decode_frequency(self, packed: bytes) -> int:
        return count_positions(packed)

    def decode_weight(self, packed: bytes) -> float:
        return float(count_positions(packed))


class Words(fields.FieldType):
    """A field that is given its words with their positions, already analysed."""

    def __init__(self):
        super().__init__(format=PackedPositions(), analyzer=None, scorable=True)

    def index(self, value: Positions, **_) -> Iterator[tuple[bytes, int, float, bytes]]:
        for word, count, weight, packed in self.format.word_values(value):
            yield word.encode(), count, weight, packed


def schema() -> fields.Schema:
    return fields.Schema(
        heading=Words(),
        text=Words(),
        heading_length=fields.COLUMN(columns.NumericColumn("I")),
        text_length=fields.COLUMN(columns.NumericColumn("I")),
        listing=fields.COLUMN(columns.NumericColumn("I")),
        passage=fields.COLUMN(columns.VarBytesColumn()),
        publication=fields.ID(),
        chapter=fields.ID(),
        section=fields.ID(),
        group=fields.ID(),
        type=fields.ID(),
        standing=fields.ID(),
    )


def exact(value: str) -> str:
    """The term of an exact value."""
    return f"={value}"


def value_of(term: str) -> str:
    return term[1:]


def document(passage: IndexedPassage) -> dict[str, object]:
    """What Whoosh's add_document takes for one passage."""
    chapters = passage.chapters or (NOT_NUMBERED,)
    found: dict[str, object] = {
        "passage": passage.passage_id.encode(),
        "publication": [exact(passage.publication_id)],
        "chapter": [exact(chapter) for chapter in chapters],
        "group": [exact(chapters[0])],
        "type": [exact(passage.type)],
        "standing": [exact(passage.standing)],
        "listing": int(is_listing(passage.heading, passage.text)),
    }
    if passage.sections:
        found["section"] = [exact(section) for section in passage.sections]
    for name, text in (("heading", passage.heading), ("text", passage.text)):
        positions = word_positions(text)
        if positions:
            found[name] = positions
            found[f"{name}_length"] = sum(map(len, positions.values()))
    return found
