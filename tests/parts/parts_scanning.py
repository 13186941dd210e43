"""A drawn parts list printed and scanned: each page as a picture, a little askew, soft and speckled."""

from io import BytesIO
from pathlib import Path

import numpy as np
import pypdfium2
from PIL import Image, ImageFilter
from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

DPI = 300


def scanned(drawn: Path, pages: list[int], folder: Path, *, askew: float = 0.5, speckle: float = 9.0) -> Path:
    """A PDF of the pages given (1-based) as pictures without text, in that order.

    askew    degrees clockwise by which every page lies crooked, to and fro
    speckle  standard deviation of the noise, of 255 levels of grey
    """
    path = folder / f"{drawn.stem}-scanned.pdf"
    canvas = Canvas(str(path), invariant=1)
    random = np.random.default_rng(len(pages))
    document = pypdfium2.PdfDocument(drawn)
    for count, pdf_page in enumerate(pages):
        page = document[pdf_page - 1]
        picture = page.render(scale=DPI / 72, grayscale=True).to_pil().convert("L")
        turn = askew if count % 2 == 0 else -askew
        picture = picture.rotate(-turn, resample=Image.Resampling.BICUBIC, fillcolor=255)
        picture = picture.filter(ImageFilter.GaussianBlur(0.9))
        grey = np.asarray(picture, dtype=np.float32) * 0.86 + 20
        grey += random.normal(0, speckle, grey.shape)
        # Specks of dust, as a drum scanner leaves them.
        for _ in range(40):
            x, y = (int(random.integers(0, size - 4)) for size in (picture.width, picture.height))
            grey[y : y + 2, x : x + 2] = 40
        picture = Image.fromarray(np.clip(grey, 0, 255).astype(np.uint8))
        kept = BytesIO()
        picture.save(kept, "JPEG", quality=80)
        kept.seek(0)
        width, height = page.get_size()
        canvas.setPageSize((width, height))
        canvas.drawImage(ImageReader(kept), 0, 0, width, height)
        canvas.showPage()
    document.close()
    canvas.save()
    return path
