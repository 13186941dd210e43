"""What wear did to the picture of a page, taken back: grain, shadows, yellowed paper, faded ink. Pure.

An engine parts ink from paper at one gray value for the whole page. Where the light falls off towards an edge
no such value fits and half the page is lost; on a grainy page every speck is taken for a piece of a letter.
"""

import numpy as np
from PIL import Image, ImageFilter

from indexer.reading.ocr_engine import Picture

_CELL = 8  # pixels: the paper is looked at in cells of this size, which takes the grain out
_REACH = 11  # cells: more than a letter is wide, so that some cell in reach shows bare paper
_DARKEST_PAPER = 0.55  # of the page's usual paper; what is darker is a picture or black print and stays so
_EVEN = 12  # gray values by which paper may differ over a page and still be called even
_BLACK_ENOUGH = 100  # gray value: ink as dark as this needs no help
_INK = 20.0  # gray value that faded ink is brought to
_WHITE = 255.0
_LEAST_SIDE = _CELL * _REACH
_GRAINY = 8.0  # gray values of grain from pixel to pixel; photographs of paper and worn copies have more
_SMOOTHING = 1.3  # pixels; takes the grain out and leaves the letters


def restored(picture: Picture) -> Picture:
    """The picture without grain and in even light; as it is where it needs no help."""
    return in_even_light(without_grain(picture))


def without_grain(picture: Picture) -> Picture:
    """The picture smoothed when it is grainy, else as it is."""
    if min(picture.shape) < _LEAST_SIDE or _grain(picture) < _GRAINY:
        return picture
    return np.asarray(Image.fromarray(picture).filter(ImageFilter.GaussianBlur(_SMOOTHING)))


def in_even_light(picture: Picture) -> Picture:
    """The picture with white paper and black ink; as it is where it needs no help."""
    if min(picture.shape) < _LEAST_SIDE:
        return picture
    paper = _paper(picture)
    if paper.min() > _WHITE - _EVEN and _ink(picture) < _BLACK_ENOUGH:
        return picture
    height, width = picture.shape
    full = Image.fromarray(paper).resize((width, height), Image.Resampling.BILINEAR)
    even = picture * (_WHITE / np.maximum(np.asarray(full, dtype=np.float32), 1.0))
    np.clip(even, 0, _WHITE, out=even)
    ink = _ink(even.astype(np.uint8))
    if ink > _INK:
        even = _WHITE - (_WHITE - even) * ((_WHITE - _INK) / (_WHITE - ink))
        np.clip(even, 0, _WHITE, out=even)
    return even.astype(np.uint8)


def best_threshold(picture: Picture) -> float:
    """The gray value that parts the picture's dark from its bright pixels best (Otsu 1979)."""
    counts = np.bincount(picture.ravel(), minlength=256).astype(float)
    below, total = np.cumsum(counts), counts.sum()
    sums = np.cumsum(counts * np.arange(256))
    with np.errstate(divide="ignore", invalid="ignore"):
        spread = (sums[-1] * below / total - sums) ** 2 / (below * (total - below))
    return float(np.nan_to_num(spread, posinf=0.0).argmax()) + 1


def _paper(picture: Picture) -> np.ndarray:
    """Gray of the bare paper, cell by cell."""
    cells = Image.fromarray(picture).reduce(_CELL)
    brightest = cells.filter(ImageFilter.MaxFilter(_REACH)).filter(ImageFilter.GaussianBlur(_REACH / 2))
    paper = np.asarray(brightest)
    return np.maximum(paper, np.uint8(_DARKEST_PAPER * np.median(paper)))


def _ink(picture: Picture) -> float:
    """The usual gray of what is dark on the page."""
    dark = picture[picture < best_threshold(picture)]
    return float(np.median(dark)) if dark.size else 0.0


def _grain(picture: Picture) -> float:
    """Standard deviation of the grain, in gray values, from how pixels differ from both their neighbours.

    Half the differences are smaller than 0.6745 standard deviations: letters, being few, do not count.
    """
    rows = picture[::4].astype(np.int16)
    bends = np.abs(2 * rows[:, 1:-1] - rows[:, :-2] - rows[:, 2:])
    return float(np.median(bends)) / 6**0.5 / 0.6745
