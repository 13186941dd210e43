"""Draws every layout of layouts.md into drawn/ and writes its truth: python tests/layouts/draw.py

The same PDFs and the same truth.json every time. No reading code is used here.
"""

import json
from collections.abc import Callable
from pathlib import Path

import column_pages
import odd_pages
import running_pages
import step_pages
import table_pages
from sheet import Book

HERE = Path(__file__).parent
LAYOUTS: tuple[Callable[[Book], None], ...] = (
    running_pages.foot_centre,
    running_pages.foot_outer_mirrored,
    running_pages.head_box,
    running_pages.effectivity_foot,
    running_pages.own_order,
    running_pages.page_at_head_corner,
    running_pages.side_tab,
    running_pages.typewriter,
    running_pages.data_module,
    step_pages.warning_box,
    step_pages.caution_centred,
    step_pages.warning_cell,
    step_pages.deep_steps,
    step_pages.page_break_warning,
    step_pages.revision_bars,
    column_pages.two_column_box,
    column_pages.narrow_gutter,
    column_pages.effective_pages,
    column_pages.index_three_columns,
    column_pages.directive,
    column_pages.bulletin,
    table_pages.parts_leaders,
    table_pages.tiny_parts,
    table_pages.wiring_list,
    table_pages.merged_header,
    table_pages.step_form,
    table_pages.contents_leaders,
    odd_pages.figure_callouts,
    odd_pages.foldout,
    odd_pages.rotated,
    odd_pages.watermark,
    odd_pages.large_checklist,
    odd_pages.letter_spaced,
    odd_pages.out_of_order,
)


def books() -> list[Book]:
    """Every layout as a book, in the order of layouts.md."""
    made = []
    for number, layout in enumerate(LAYOUTS, start=1):
        book = Book(f"{number:02}-{layout.__name__.replace('_', '-')}")
        layout(book)
        made.append(book)
    return made


def main() -> None:
    folder = HERE / "drawn"
    folder.mkdir(exist_ok=True)
    drawn = books()
    for book in drawn:
        book.write(folder)
    truth = [book.truth() for book in drawn]
    text = json.dumps(truth, indent=1, ensure_ascii=False)
    (HERE / "truth.json").write_text(text + "\n", encoding="utf-8", newline="\n")


if __name__ == "__main__":
    main()
