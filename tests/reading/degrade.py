"""Scans as they come: pages of any PDF drawn as pictures, worn, and put into a PDF that holds nothing else.

Every step follows from its settings and from the page's own pixels, so that the same page is worn in the same
way at every run.
"""

import io
import zlib
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

import numpy as np
import pypdfium2
from PIL import Image, ImageFilter

Picture = np.ndarray  # height x width, 8 bits, 0 = black, 255 = white
POINTS_PER_INCH = 72


@dataclass(frozen=True, slots=True)
class Wear:
    """What was done to a page on its way. Steps are taken in the order of the fields.

    ink        how much of the black is left: 1.0 all, 0.5 gray letters
    paper      gray of the paper at its darkest edge: 255 white all over
    blur       radius in pixels at 300 dpi
    dpi        resolution of the scan, scaled from 300
    noise      standard deviation of the grain, in gray values
    skew       degrees clockwise that the sheet lay askew
    turned     degrees clockwise that the sheet lay turned: 0, 90, 180, 270
    jpeg       quality, 1 to 95; 0 = not packed as JPEG
    threshold  gray value that parts black from white, for a scan in two colours; 0 = shades of gray
    """

    name: str
    ink: float = 1.0
    paper: int = 255
    blur: float = 0.0
    dpi: int = 300
    noise: float = 0.0
    skew: float = 0.0
    turned: int = 0
    jpeg: int = 0
    threshold: int = 0


CLEAN = Wear("clean")
OFFICE = Wear("office copier", blur=0.8, noise=8, skew=0.4, jpeg=60)
BITONAL = Wear("two colours", blur=1.1, noise=14, threshold=150)
FAX = Wear("fax, 200 dpi", blur=0.7, noise=20, dpi=200, threshold=140)
FADED = Wear("faded", ink=0.42, paper=205, blur=0.9, noise=9, jpeg=45)
GRAINY = Wear("grainy", ink=0.8, blur=1.2, noise=34)
SLANTED = Wear("slanted", blur=0.8, noise=8, skew=-2.6, jpeg=60)
STEEP = Wear("steeply slanted", blur=0.8, noise=8, skew=6.5, jpeg=60)
TURNED = Wear("turned", blur=0.8, noise=8, turned=90, jpeg=60)
TURNED_SLANTED = Wear("turned and slanted", blur=0.8, noise=8, turned=270, skew=1.7, jpeg=60)
UPSIDE_DOWN = Wear("upside down", blur=0.8, noise=8, turned=180, skew=-0.8, jpeg=60)
WEARS = (
    *(CLEAN, OFFICE, BITONAL, FAX, FADED, GRAINY),
    *(SLANTED, STEEP, TURNED, TURNED_SLANTED, UPSIDE_DOWN),
)


def drawn(path: Path, pdf_page: int, dpi: int = 300) -> Picture:
    """One page (1-based) of a PDF as a picture."""
    document = pypdfium2.PdfDocument(path)
    try:
        image = document[pdf_page - 1].render(scale=dpi / POINTS_PER_INCH, grayscale=True).to_pil()
        return np.array(image.convert("L"))
    finally:
        document.close()


def worn(picture: Picture, wear: Wear) -> Picture:
    """A page drawn at 300 dpi, as the scanner gives it. The noise follows from the picture itself."""
    chance = np.random.default_rng(zlib.crc32(picture.tobytes()) ^ zlib.crc32(wear.name.encode()))
    values = 255 - (255 - picture.astype(np.float32)) * wear.ink
    if wear.paper != 255:
        across = np.linspace(255, wear.paper, picture.shape[1], dtype=np.float32)
        values = values * across[None, :] / 255
    image = Image.fromarray(np.clip(values, 0, 255).astype(np.uint8))
    if wear.blur:
        image = image.filter(ImageFilter.GaussianBlur(wear.blur))
    if wear.dpi != 300:
        size = tuple(round(side * wear.dpi / 300) for side in image.size)
        image = image.resize(size, Image.Resampling.BOX)
    if wear.skew:
        edge = int(np.asarray(image)[:, -1].max())
        image = image.rotate(-wear.skew, Image.Resampling.BICUBIC, fillcolor=edge)
    values = np.asarray(image).astype(np.float32)
    if wear.noise:
        values = values + chance.normal(0, wear.noise, values.shape)
    if wear.threshold:
        values = np.where(values < wear.threshold, 0, 255)
    page = np.rot90(np.clip(values, 0, 255).astype(np.uint8), -wear.turned // 90)
    if not wear.jpeg:
        return np.ascontiguousarray(page)
    packed = io.BytesIO()
    Image.fromarray(np.ascontiguousarray(page)).save(packed, "JPEG", quality=wear.jpeg)
    return np.array(Image.open(packed))


def scanned_pdf(path: Path, pictures: Sequence[Picture], dpi: int = 300) -> Path:
    """A PDF whose pages are these pictures and nothing else, packed without loss."""
    document = pypdfium2.PdfDocument.new()
    try:
        for picture in pictures:
            height, width = picture.shape
            bitmap = pypdfium2.PdfBitmap.from_pil(Image.fromarray(picture))
            image = pypdfium2.PdfImage.new(document)
            image.set_bitmap(bitmap)
            across, down = width * POINTS_PER_INCH / dpi, height * POINTS_PER_INCH / dpi
            image.set_matrix(pypdfium2.PdfMatrix().scale(across, down))
            page = document.new_page(across, down)
            page.insert_obj(image)
            page.gen_content()
        document.save(path)
    finally:
        document.close()
    return path


def worn_pdf(source: Path, target: Path, wear: Wear) -> Path:
    """Every page of a PDF as a worn scan."""
    document = pypdfium2.PdfDocument(source)
    count = len(document)
    document.close()
    pictures = [worn(drawn(source, number), wear) for number in range(1, count + 1)]
    return scanned_pdf(target, pictures, wear.dpi)


def worn_point(x: float, y: float, width: float, height: float, wear: Wear) -> tuple[float, float]:
    """Where a point of the upright page (points, from its top left) lies on the worn page as displayed."""
    middle = complex(width / 2, height / 2)
    clockwise = np.exp(1j * np.radians(wear.skew))  # because y runs downward
    moved = (complex(x, y) - middle) * clockwise
    moved *= 1j ** (wear.turned // 90)
    if wear.turned in (90, 270):
        middle = complex(height / 2, width / 2)
    at = moved + middle
    return float(at.real), float(at.imag)
