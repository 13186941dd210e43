"""Whether a page's own text will do, and if not, why its picture is to be read by OCR."""

from collections.abc import Sequence
from itertools import chain

from indexer.reading.garbage import text_state
from indexer.reading.page import TextState
from indexer.reading.raw_page import Judged, PictureLook, RawPage
from indexer.reading.recognized import OcrReason
from indexer.reading.well_read import quality

_LETTERS_PER_BAND = 7  # half an inch of text of 10 points
_UNREAD_BANDS = 30  # pieces of text lines: about three lines of text across a page
_WHOLE_PAGE = 0.9  # of the page, that pictures cover: it is a scan or a background
_UNREAD_OVER_IT = 2  # "NOT APPROVED"; washes, photographs, drawings and forms have none
_LETTERS_OVER_IT = 35  # for each such piece: the letterhead of a page full of text has fewer
_LAYER_UNREAD = 20  # the same for a layer that came with a scan
_LAYER_LEAVES_OUT = 0.1  # of the text
_BARE_WORDS = 0.5
_LEAST_LETTERS = 80  # to call words bare
_WELL_READ = 0.8  # see well_read.py: good layers have 0.88 to 1.0, readings of blurred pages 0.2 to 0.75


def judged(raw: RawPage) -> Judged:
    """Whether the words of a page as the file holds it will do."""
    state, problem = text_state(raw)
    return Judged(state, problem, _reason(raw, state))


def texts_of(raw: RawPage) -> list[str]:
    """The page's words as plain text, in the order of the file, one direction after the other."""
    return [word.text for word in chain.from_iterable(raw.words.values())]


def _reason(raw: RawPage, state: TextState) -> OcrReason | None:
    if state is TextState.BLANK:
        return None
    if state is TextState.NO_TEXT:
        return OcrReason.OUTSIDE if raw.outside else OcrReason.NO_TEXT
    if state is TextState.GARBLED:
        return OcrReason.GARBLED
    if raw.look is None and not raw.hidden:
        return None
    texts = texts_of(raw)
    if raw.look is not None and _shows_more(raw, raw.look, sum(map(len, texts))):
        return OcrReason.OUTSIDE if raw.outside > len(texts) else OcrReason.MISMATCH
    if not raw.hidden:
        return None
    if raw.look is not None and _lies_bare(raw.look, texts):
        return OcrReason.MISMATCH
    return OcrReason.POOR_LAYER if _is_poor(raw.look, texts) else None


def _shows_more(raw: RawPage, look: PictureLook, letters: int) -> bool:
    """Whether the page shows more text without than with words: a stamp or a running head over a scan.

    Over a picture of the whole page little is enough: a stamp may stand beside a word that denies it.
    """
    if not raw.hidden and raw.picture_part >= _WHOLE_PAGE:
        return look.unread >= max(_UNREAD_OVER_IT, letters / _LETTERS_OVER_IT)
    return look.unread >= max(_UNREAD_BANDS, letters / _LETTERS_PER_BAND)


def _lies_bare(look: PictureLook, texts: Sequence[str]) -> bool:
    """Whether most of a hidden layer lies on blank paper: it belongs to another page."""
    return look.bare > _BARE_WORDS and sum(map(len, texts)) >= _LEAST_LETTERS


def _is_poor(look: PictureLook | None, texts: Sequence[str]) -> bool:
    """Whether a hidden layer was read badly, or leaves text of the picture out."""
    measured = quality(texts)
    if measured is not None and measured < _WELL_READ:
        return True
    bands = sum(map(len, texts)) / _LETTERS_PER_BAND
    return look is not None and look.unread >= max(_LAYER_UNREAD, _LAYER_LEAVES_OUT * bands)
