"""The tags of one PDF without a library: read and tagged in an isolated worker, nothing kept."""

import tempfile
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from indexer.errors import NotAPdf
from indexer.ingest import find_files, read_and_tag
from indexer.reading.page import Document
from indexer.settings import Settings
from indexer.tagging.tags import TaggedPassage, TaggedPublication
from indexer.workers import Workers
from server.ocr_words import read_fields
from server.tag_fields import long_tags, plain


@dataclass(frozen=True, slots=True)
class _One:
    path: Path


def tags_of(path: Path, settings: Settings) -> list[dict[str, Any]]:
    """Every passage with its tags, evidence and text, with the ids it would have in a library.

    Raises the FileRefused that fits.
    """
    if path.is_dir():
        raise NotAPdf(f"{path} (a folder)")
    _, gone = find_files([path], Path(tempfile.gettempdir()))
    if gone:
        raise gone[0].problem
    with (
        tempfile.TemporaryDirectory(prefix="hangarleaf-") as folder,
        Workers(settings, Path(folder)) as workers,
    ):
        (done,) = workers.each(read_and_tag, [_One(path.absolute())])
    if done.problem:
        raise done.problem
    document, publications = done.result
    return [
        _passage(document, publication, tagged)
        for publication in publications
        for tagged in publication.passages
    ]


def _passage(document: Document, publication: TaggedPublication, tagged: TaggedPassage) -> dict[str, Any]:
    passage, identity = tagged.passage, publication.identity
    publication_id = f"{document.sha256[:16]}-{publication.first_page}"
    page = document.pages[passage.pdf_page - 1]
    return {
        "passage": f"{publication_id}-{passage.ordinal}",
        "publication": {
            "id": publication_id,
            "number": plain(identity.number.value) if identity.number else None,
            "type": plain(identity.type.value) if identity.type else None,
            "title": plain(identity.title.value) if identity.title else None,
            "revision": plain(identity.revision.value) if identity.revision else None,
            "file": document.file,
            "entered": [],  # no shop has said anything of a file outside a library
        },
        "pdf_page": passage.pdf_page,
        "printed_page": page.printed_page,
        **long_tags(tagged.numbers, tagged.page_block, tagged.standing),
        "heading": " > ".join(passage.heading_path),
        "kind": passage.kind.value,
        **read_fields(passage),
        "text": passage.text,
    }
