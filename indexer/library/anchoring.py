"""Where an entry of the shop stands: its place found again by pages, section, quote and box. Pure.

Passages are cut anew whenever reading gets better, and a newer revision prints old words on other pages. An
entry is put where its words stand for sure, at one place; where that cannot be said, the reason is given and
somebody looks again.
"""

import re
from bisect import bisect_right
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher
from functools import cached_property
from itertools import accumulate

from indexer.library.folding import folded
from indexer.trade.evidence import Box, PageBox
from indexer.trade.own_numbers import in_range

LIKE = (
    0.9  # share of the quote's words that must stand in a row, or nearly, where the words were read otherwise
)
STRETCH = 1.25  # how much longer than the quote the place may be that they stand in
FEWEST_WORDS = 4  # that say anything of a place in another revision
_BOX_SHARE = 0.5  # of an entry's box that a passage must cover to be the one below it


@dataclass(frozen=True)
class Spot:
    """A passage as anchoring sees it."""

    id: str
    pages: tuple[int, ...]  # pdf pages it lies on, 1-based; the one it begins on first
    text: str
    boxes: tuple[PageBox, ...] = ()
    own: str = ""  # section or paragraph of the manual's own order, as printed
    heading_path: tuple[str, ...] = ()
    further: tuple[str, ...] = ()  # paragraphs that begin inside it, beside `own`

    def stands_in(self, first: str, last: str) -> bool:
        """Whether its own section, or a paragraph it holds, lies in a range of the manual's own order."""
        return any(in_range(each, first, last) for each in (self.own, *self.further) if each)

    @cached_property
    def words(self) -> str:
        return words_of(self.text)

    @cached_property
    def kinds(self) -> frozenset[str]:
        """Its words, each once."""
        return frozenset(self.words.split())


@dataclass(frozen=True, slots=True)
class Anchor:
    """The place that an entry was made at: as in ShopEntry."""

    pdf_page: int
    last_page: int
    section: str = ""
    quote: str = ""
    box: Box | None = None


@dataclass(frozen=True, slots=True)
class Found:
    """passages  where the entry stands for sure, in reading order
    whole     those of them that hold nothing but what the entry was made for
    reason    why somebody should look again, in words for a person; "" = it was found for sure
    """

    passages: tuple[str, ...]
    whole: frozenset[str]
    reason: str = ""


class Printed:
    """Passages in reading order, joined to one text so that a quote is found over their bounds too."""

    def __init__(self, spots: Iterable[Spot]):
        self.spots = tuple(spots)

    @cached_property
    def text(self) -> str:
        return f" {''.join(spot.words[1:] for spot in self.spots)}"

    @cached_property
    def starts(self) -> list[int]:
        """Where in `text` each passage begins, at the blank before its first word."""
        lengths = (len(spot.words) - 1 for spot in self.spots)
        return [0, *accumulate(lengths)][:-1]

    @cached_property
    def holders(self) -> dict[str, set[int]]:
        """Word -> the passages that hold it, by their place."""
        found: dict[str, set[int]] = {}
        for place, each in enumerate(self.spots):
            for word in each.kinds:
                found.setdefault(word, set()).add(place)
        return found


def words_of(text: str) -> str:
    """Words for comparison, each between single blanks, one at each end too: " install the brake "."""
    words = re.findall(r"[^\W_]+", folded(text)[0])
    return f" {' '.join(words)} " if words else " "


def in_copy(anchor: Anchor, printed: Printed) -> Found:
    """The place in the copy it was made in, however that is cut into passages now."""
    spots = printed.spots
    if anchor.section:
        there = [spot for spot in spots if spot.stands_in(anchor.section, anchor.section)]
        missing = f"No passage of section {anchor.section} is found."
    else:
        pages = range(anchor.pdf_page, anchor.last_page + 1)
        touched = any if anchor.quote else _begins
        there = [spot for spot in spots if touched(page in pages for page in spot.pages)]
        missing = f"No passage begins on {_pages(anchor)}."
    if not anchor.quote:
        return Found(
            tuple(spot.id for spot in there), frozenset(spot.id for spot in there), "" if there else missing
        )
    found = by_words(anchor.quote, Printed(there), anchor)
    if found.passages or anchor.box is None:
        return found
    below = [spot for spot in there if _lies_below(anchor, spot)]
    return _all_of(below) if len(below) == 1 else found


def in_revision(anchor: Anchor, was: Sequence[Spot], old: Printed, new: Printed) -> Found:
    """The place in another revision of the work: one place with the same words, or section and title.

    was   the passages it stands for in the copy it was made in; () when that is not held
    old   all passages of that publication; none likewise
    """
    if anchor.quote:
        return by_words(anchor.quote, new, fewest=FEWEST_WORDS)
    if anchor.section:
        return _same_section(anchor.section, old, new)
    each = [by_words(spot.text, new, fewest=FEWEST_WORDS) for spot in was]
    lost = sum(bool(found.reason) for found in each)
    passages = tuple(dict.fromkeys(passage for found in each for passage in found.passages))
    whole = frozenset(passage for found in each for passage in found.whole)
    if lost or not each:
        reason = (
            f"{lost} of {len(each)} passages are not found at one place." if each else _NOTHING_TO_COMPARE
        )
        return Found(passages, whole, reason)
    return Found(passages, whole)


_NOTHING_TO_COMPARE = "The pages it was made for are not in the library, so they cannot be compared."


def by_words(quote: str, printed: Printed, anchor: Anchor | None = None, fewest: int = 1) -> Found:
    """The one place whose words are the quote's, or nearly; the anchor's box decides between several."""
    words = words_of(quote)
    if len(words.split()) < fewest:
        return Found((), frozenset(), f"«{quote}» is too short to be found for sure.")
    places = _exact(words, printed) or _alike(words.split(), printed)
    if len(places) > 1 and anchor and anchor.box:
        places = [place for place in places if any(_lies_below(anchor, spot) for spot in place.spots)]
    if len(places) == 1:
        (place,) = places
        return Found(tuple(spot.id for spot in place.spots), place.whole)
    how = "stands at several places" if places else "is not found"
    return Found((), frozenset(), f"«{_short(quote)}» {how}.")


@dataclass(frozen=True)
class _Place:
    spots: tuple[Spot, ...]
    whole: frozenset[str]


def _exact(words: str, printed: Printed) -> list[_Place]:
    """Every place where the words stand in a row."""
    text = printed.text
    places: dict[tuple[str, ...], _Place] = {}
    at = text.find(words) if words.strip() else -1
    while at >= 0:
        place = _place_at(at, at + len(words) - 1, printed)
        places.setdefault(tuple(spot.id for spot in place.spots), place)
        at = text.find(words, at + 1)
    return list(places.values())


def _place_at(begin: int, end: int, printed: Printed) -> _Place:
    """The passages that hold a fair part of text[begin:end]: half of it or of themselves; and always the one
    that holds the most of it, so that a scrap wholly inside is never taken for the place alone. Measured in
    letters and blanks."""
    spots, starts = printed.spots, printed.starts
    first, last = bisect_right(starts, begin) - 1, bisect_right(starts, end - 1) - 1
    shares: list[tuple[int, bool, Spot]] = []
    whole = set()
    for place in range(first, last + 1):
        length = len(spots[place].words) - 1
        shared = min(end, starts[place] + length) - max(begin, starts[place])
        if shared >= length > 0:
            whole.add(spots[place].id)
        fair = 2 * shared >= min(length, end - begin) > 0
        shares.append((shared, fair, spots[place]))
    most = max(shared for shared, _, _ in shares)
    one = next(spot for shared, _, spot in shares if shared == most)
    held = [spot for _, fair, spot in shares if fair or spot is one]
    return _Place(tuple(held), frozenset(whole & {spot.id for spot in held}))


def _alike(wanted: list[str], printed: Printed) -> list[_Place]:
    """Passages in which nearly all of the words stand in order and close together."""
    kinds = sorted(set(wanted), key=lambda word: (len(printed.holders.get(word, ())), word))
    may_miss = int((1 - LIKE) * len(wanted) + 1e-6)  # so one of the rarest must be there
    near = set().union(*(printed.holders.get(word, set()) for word in kinds[: may_miss + 1]))
    least = len(kinds) - may_miss
    there = (
        spot for place in sorted(near) if len((spot := printed.spots[place]).kinds & set(kinds)) >= least
    )
    return [_Place((spot,), frozenset()) for spot in there if _is_like(wanted, spot.words.split())]


def _is_like(wanted: list[str], there: list[str]) -> bool:
    blocks = SequenceMatcher(None, there, wanted, autojunk=False).get_matching_blocks()[:-1]
    if not blocks or sum(block.size for block in blocks) < LIKE * len(wanted):
        return False
    return blocks[-1].a + blocks[-1].size - blocks[0].a <= STRETCH * len(wanted)


def _same_section(section: str, old: Printed, new: Printed) -> Found:
    """A section is the same when its number and the heading it stands under are."""
    before = [spot for spot in old.spots if spot.stands_in(section, section)]
    after = [spot for spot in new.spots if spot.stands_in(section, section)]
    if not before:
        return Found((), frozenset(), _NOTHING_TO_COMPARE)
    if not after:
        return Found((), frozenset(), f"No passage of section {section} is found.")
    was, now = _heading(before), _heading(after)
    if not was or was != now:
        return Found((), frozenset(), f"Section {section} does not stand under the same heading.")
    return _all_of(after)


def _heading(spots: Sequence[Spot]) -> list[str]:
    """What the headings of all of them begin with, folded."""
    paths = [[words_of(heading) for heading in spot.heading_path] for spot in spots]
    common = []
    for level in zip(*paths, strict=False):
        if len(set(level)) > 1:
            break
        common.append(level[0])
    return common


def _all_of(spots: Iterable[Spot]) -> Found:
    ids = tuple(spot.id for spot in spots)
    return Found(ids, frozenset(ids))


def _begins(on_pages: Iterable[bool]) -> bool:
    return next(iter(on_pages), False)


def _lies_below(anchor: Anchor, spot: Spot) -> bool:
    box = anchor.box
    if box is None:
        return False
    area = box.width * box.height
    shared = sum(_shared(box, each.box) for each in spot.boxes if each.pdf_page == anchor.pdf_page)
    return area > 0 and shared >= _BOX_SHARE * area


def _shared(one: Box, other: Box) -> float:
    """Square points that two boxes have in common."""
    width = min(one.x1, other.x1) - max(one.x0, other.x0)
    height = min(one.bottom, other.bottom) - max(one.top, other.top)
    return max(width, 0.0) * max(height, 0.0)


def _pages(anchor: Anchor) -> str:
    if anchor.last_page == anchor.pdf_page:
        return f"PDF page {anchor.pdf_page}"
    return f"PDF pages {anchor.pdf_page} to {anchor.last_page}"


def _short(quote: str, length: int = 60) -> str:
    return quote if len(quote) <= length else f"{quote[:length].rstrip()} ..."
