"""A PDF whose pages the file turns and cuts: by /Rotate, a crop box, a media box off the origin."""

from dataclasses import dataclass
from pathlib import Path

import pikepdf
from drawn_pages import LETTER, draw_pages

WHOLE = (0.0, 0.0, *LETTER)


@dataclass(frozen=True, slots=True)
class Box:
    """One page: /Rotate in degrees, and its boxes as left, bottom, right, top in points."""

    turned: int
    media: tuple[float, float, float, float] = WHOLE
    crop: tuple[float, float, float, float] | None = None


PAGES = tuple(
    Box(turned, media, crop)
    for turned in (0, 90, 180, 270)
    for media, crop in (
        (WHOLE, None),
        (WHOLE, (50.0, 100.0, 500.0, 700.0)),  # the crop box begins off the corner
        ((-72.0, -36.0, 612.0, 792.0), (-36.0, 36.0, 400.0, 640.5)),  # and the media box off the origin
        (WHOLE, (-50.0, 200.0, 700.0, 900.0)),  # larger than the paper: ISO 32000-1, 14.11.2, cuts it back
    )
)


def turn_pages(path: Path) -> Path:
    """The drawn letter page once for each of PAGES."""
    drawn = draw_pages(path.with_name("one.pdf"))
    with pikepdf.open(drawn) as source, pikepdf.new() as pdf:
        for each in PAGES:
            pdf.pages.append(source.pages[0])
            page = pdf.pages[-1]
            page.mediabox = list(each.media)
            page.obj.Rotate = each.turned
            if each.crop:
                page.cropbox = list(each.crop)
        pdf.save(path, deterministic_id=True)
    return path
