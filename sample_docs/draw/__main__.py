"""Redraw the sample library and its truth files: `python -m sample_docs.draw` from the project's root."""

from pathlib import Path

import reportlab

from sample_docs.draw.library import draw_all
from sample_docs.draw.truth import write_truth


def main() -> None:
    sample_docs = Path(__file__).resolve().parent.parent
    drawn = draw_all(sample_docs / "pdf")
    write_truth(sample_docs, drawn)
    version = f"reportlab {reportlab.__version__}\n"
    (sample_docs / "draw" / "drawn_with.txt").write_text(version, encoding="utf-8")
    print(f"{len(drawn)} files, {sum(map(len, drawn.values()))} pages")


if __name__ == "__main__":
    main()
