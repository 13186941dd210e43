"""The sheets of a packet bound into one PDF with bookmarks, and what the file says of itself. In a worker."""

from collections.abc import Sequence
from contextlib import ExitStack
from dataclasses import dataclass
from pathlib import Path

import pikepdf

from indexer.settings import Settings
from server.packet_stamp import PDF_VERSION, carry_layers


@dataclass(frozen=True, slots=True)
class Bound:
    """Some pages of one file made by us: pages `first` to `last` (0-based, both included) of `file`."""

    file: str
    first: int
    last: int


@dataclass(frozen=True, slots=True)
class Bookmark:
    """sheet   1-based in the packet; within = the one above it, "" = none is"""

    words: str
    sheet: int
    deeper: tuple["Bookmark", ...] = ()


@dataclass(frozen=True, slots=True)
class About:
    """What the file says of itself."""

    title: str
    subject: str
    keywords: str
    made_at: str  # ISO 8601


def bind(
    folder: Path,
    settings: Settings,
    sheets: Sequence[Bound],
    bookmarks: Sequence[Bookmark],
    about: About,
    out: str,
) -> int:
    """Bind the sheets in order into `folder / out`; gives how many there are."""
    with ExitStack() as stack, pikepdf.new() as made:
        opened: dict[str, pikepdf.Pdf] = {}
        for each in sheets:
            if each.file not in opened:
                opened[each.file] = stack.enter_context(pikepdf.open(folder / each.file))
                carry_layers(opened[each.file], made)
            made.pages.extend(opened[each.file].pages[each.first : each.last + 1])
        with made.open_outline() as outline:
            outline.root.extend(_item(each) for each in bookmarks)
        made.Root.PageMode = pikepdf.Name.UseOutlines
        made.docinfo["/Title"] = about.title
        made.docinfo["/Subject"] = about.subject
        made.docinfo["/Keywords"] = about.keywords
        made.docinfo["/Creator"] = "Hangarleaf"
        with made.open_metadata(set_pikepdf_as_editor=False) as metadata:
            metadata["dc:title"] = about.title
            metadata["dc:description"] = about.subject
            metadata["pdf:Keywords"] = about.keywords
            metadata["xmp:CreatorTool"] = "Hangarleaf"
            metadata["xmp:CreateDate"] = about.made_at
        made.save(folder / out, min_version=PDF_VERSION, object_stream_mode=pikepdf.ObjectStreamMode.generate)
        return len(made.pages)


def _item(bookmark: Bookmark) -> pikepdf.OutlineItem:
    made = pikepdf.OutlineItem(bookmark.words, bookmark.sheet - 1)
    made.children.extend(_item(each) for each in bookmark.deeper)
    return made
