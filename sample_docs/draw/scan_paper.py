"""Make the pictures of the scanned manual anew: `python -m sample_docs.draw.scan_paper` from the root.

Slight skew, uneven light, grain and specks, all seeded. The pictures are kept, because another version of the
picture libraries may give other bytes.
"""

import io
from random import Random

import numpy as np
import pypdfium2
from PIL import Image, ImageFilter

from sample_docs.draw.book import draw_book
from sample_docs.draw.furniture import picture
from sample_docs.draw.scanned_manual import paper

DPI = 140
SKEWS = (0.7, -1.1)  # degrees


def main() -> None:
    sheets = io.BytesIO()
    draw_book(sheets, paper())
    pdf = pypdfium2.PdfDocument(sheets.getvalue())
    for position, page in enumerate(pdf):
        drawn = page.render(scale=DPI / 72, grayscale=True).to_pil()
        target = picture(position + 1)
        target.parent.mkdir(exist_ok=True)
        _scanned(drawn, SKEWS[position], seed=position).save(target, quality=42, optimize=True)


def _scanned(sheet: Image.Image, skew: float, seed: int) -> Image.Image:
    """The sheet as an old copier would give it."""
    turned = sheet.rotate(skew, resample=Image.Resampling.BICUBIC, fillcolor=255)
    soft = turned.filter(ImageFilter.GaussianBlur(0.6))
    grey = np.asarray(soft, dtype=np.float32)
    noise = np.random.default_rng(seed)
    light = np.linspace(-14, 4, grey.shape[1], dtype=np.float32)[None, :]
    grey = grey * 0.86 + 22 + light + noise.normal(0, 5, grey.shape)
    specks = Random(seed)
    for _ in range(140):
        y, x = specks.randrange(grey.shape[0] - 2), specks.randrange(grey.shape[1] - 2)
        grey[y : y + 2, x : x + 2] = specks.randrange(40, 130)
    return Image.fromarray(np.clip(grey, 0, 255).astype(np.uint8))


if __name__ == "__main__":
    main()
