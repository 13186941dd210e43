"""A page cut into square tiles at a few scales: any part of it is sharp at any size. Pure geometry."""

import math
from dataclasses import dataclass

from indexer.errors import LibraryProblem

TILE_PIXELS = 512  # a side; tiles at the right and lower edge are as small as what is left
TILE_DPIS = (75, 150, 300, 600)  # by zoom, 0 first: a finer line than 1/600 inch is not printed
_POINTS_PER_INCH = 72


class TileUnknown(LibraryProblem):
    """A tile that the page does not have."""

    slug = "tile-unknown"

    def __init__(self, file: str, pdf_page: int, tile: "Tile"):
        super().__init__(
            f"{file}, PDF page {pdf_page}: there is no tile in column {tile.column}, row {tile.row} at zoom "
            f"{tile.zoom}.",
            f"Zoom goes from 0 to {len(TILE_DPIS) - 1}; columns and rows begin at 0, at the top left.",
        )


@dataclass(frozen=True, slots=True)
class Tile:
    """One tile of a page; column and row from the page's top left as displayed, 0-based."""

    zoom: int
    column: int
    row: int

    @property
    def name(self) -> str:
        return f"tile-{self.zoom}-{self.column}-{self.row}"


@dataclass(frozen=True, slots=True)
class Crop:
    """What a tile shows, in pixels of the whole page drawn `page_width` by `page_height` large."""

    left: int
    top: int
    width: int
    height: int
    page_width: int
    page_height: int


def crop_of(width: float, height: float, tile: Tile) -> Crop | None:
    """What a tile shows of a page; None where there is no such tile.

    width, height   of the page as displayed, in points
    """
    if not 0 <= tile.zoom < len(TILE_DPIS):
        return None
    across, down = page_pixels(width, height, tile.zoom)
    left, top = tile.column * TILE_PIXELS, tile.row * TILE_PIXELS
    if not (0 <= left < across and 0 <= top < down):
        return None
    return Crop(left, top, min(TILE_PIXELS, across - left), min(TILE_PIXELS, down - top), across, down)


def page_pixels(width: float, height: float, zoom: int) -> tuple[int, int]:
    """The size in pixels of the whole page at a zoom; at least one pixel either way."""
    dpi = TILE_DPIS[zoom]
    across, down = (math.ceil(side * dpi / _POINTS_PER_INCH) for side in (width, height))
    return max(1, across), max(1, down)
