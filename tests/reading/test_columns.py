"""Reading order: columns one after another, what spans them in between, and tables not taken for columns."""

from paper import Paper, prose

from indexer.reading.document import read_document
from indexer.settings import Settings

SETTINGS = Settings()


def _body(paper):
    return read_document(paper.save(), SETTINGS).pages[0].body


def _texts(paper):
    return [line.text for line in _body(paper)]


def _columns(lefts, words, per_line, paper, top=150, across=False):
    """Draw columns of prose and give their lines, column by column."""
    columns = [prose(words, per_line, start=31 * number) for number in range(len(lefts))]
    if across:  # the file writes row after row, as some programs do
        for row in range(max(map(len, columns))):
            for left, lines in zip(lefts, columns, strict=True):
                if row < len(lines):
                    paper.text(left, top + 14 * row, lines[row], size=9)
    else:
        for left, lines in zip(lefts, columns, strict=True):
            for row, line in enumerate(lines):
                paper.text(left, top + 14 * row, line, size=9)
    return [line for lines in columns for line in lines]


def test_two_columns_written_one_after_the_other(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    expected = _columns([54, 320], 150, 10, paper)
    assert _texts(paper) == expected


def test_two_columns_written_row_by_row(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    expected = _columns([54, 320], 150, 10, paper, across=True)
    assert _texts(paper) == expected


def test_three_columns(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    expected = _columns([45, 222, 399], 90, 6, paper)
    lines = _body(paper)
    assert [line.text for line in lines] == expected
    assert {line.column for line in lines} == {0, 1, 2}


def test_a_heading_over_both_columns_comes_first(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    paper.text(150, 100, "Belts and pulleys of the right engine", size=18, bold=True)
    expected = _columns([54, 320], 150, 10, paper)
    assert _texts(paper) == ["Belts and pulleys of the right engine", *expected]


def test_a_heading_between_two_pairs_of_columns(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    upper = _columns([54, 320], 80, 10, paper, top=100)
    paper.text(120, 250, "Part two: what to do when the belt has come off its pulley", size=14, bold=True)
    lower = _columns([54, 320], 80, 10, paper, top=300)
    expected = [*upper, "Part two: what to do when the belt has come off its pulley", *lower]
    assert _texts(paper) == expected


def test_a_table_with_its_title_across_both_columns(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    upper = _columns([54, 320], 80, 10, paper, top=100)
    paper.text(250, 240, "Table 3. Pressures", size=10)
    paper.grid([54, 200, 400, 540], [260, 280, 300])
    for row, top in enumerate((263, 283)):
        for column, x in enumerate((60, 206, 406)):
            paper.text(x, top, f"cell{row}{column}", size=9)
    lower = _columns([54, 320], 80, 10, paper, top=330)
    table = ["Table 3. Pressures", "cell00 cell01 cell02", "cell10 cell11 cell12"]
    assert _texts(paper) == [*upper, *table, *lower]


def test_columns_above_and_below_a_picture(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    upper = _columns([54, 320], 60, 10, paper, top=100)
    paper.canvas.rect(54, 350, 500, 220)
    lower = _columns([54, 320], 60, 10, paper, top=470)
    assert _texts(paper) == [*upper, *lower]


def test_a_side_column_of_smaller_text(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    main = prose(200, 11)
    side = prose(60, 4, start=17)
    for row, line in enumerate(main):
        paper.text(54, 100 + 14 * row, line, size=11)
    for row, line in enumerate(side):
        paper.text(450, 107 + 10 * row, line, size=8)
    assert _texts(paper) == [*main, *side]


def test_step_numbers_are_no_column(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    steps = [
        "Remove the cowling and put it on a padded bench away from the wing.",
        "Disconnect the battery and tag the cable so that nobody connects it.",
        "Loosen the adjusting bolt and turn the alternator toward the engine.",
        "Take the belt off the pulley and look at both of its sides in light.",
        "Put the new belt on and tighten it with the bar against the boss.",
        "Lockwire the bolt and write the number of the belt in the records.",
    ]
    for number, step in enumerate(steps, start=1):
        paper.text(72, 100 + 20 * number, f"({number})")
        paper.text(110, 100 + 20 * number, step)
    assert _texts(paper) == [f"({number}) {step}" for number, step in enumerate(steps, start=1)]


def test_a_table_without_rulings_is_read_row_by_row(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    rows = [
        ("Main wheel tire", "6.50-8", "58 to 62 psi"),
        ("Nose wheel tire", "5.00-5", "38 to 42 psi"),
        ("Main strut", "full fuel", "3.10 inches"),
        ("Nose strut", "full fuel", "2.60 inches"),
        ("Brake reservoir", "below filler", "1.0 inch"),
        ("Oil sump", "each engine", "9 quarts"),
    ]
    for number, row in enumerate(rows):
        for x, cell in zip((72, 250, 400), row, strict=True):
            paper.text(x, 100 + 16 * number, cell)
    assert _texts(paper) == [" ".join(row) for row in rows]


def test_one_list_set_in_three_is_read_list_by_list(tmp_path):
    """A list of effective pages: each third is the same table again."""
    paper = Paper(tmp_path / "a.pdf")
    expected = []
    for third, x in enumerate((60, 240, 420)):
        for row in range(20):
            line = (f"{24 + third}-31-00", str(401 + row), "Jun 02/2028")
            for left, text in zip((x, x + 60, x + 95), line, strict=True):
                paper.text(left, 120 + 15 * row, text, size=9)
            expected.append(" ".join(line))
    assert _texts(paper) == expected


def _trouble_table(paper, top):
    rows = [
        (["Alternator has", "no output"], ["Field wire open or", "loose at the nut"], ["Repair the wire"]),
        (["Bus voltage", "is low"], ["Belt slips"], ["Adjust the belt (24-31-00,", "Page 501)"]),
        (["Bus voltage", "is high"], ["Regulator set wrong"], ["Adjust the regulator"]),
        (["Noise"], ["Bearing dry or worn,", "or belt cracked"], ["Replace the alternator", "or the belt"]),
    ]
    for row in rows:
        for x, cell in zip((72, 220, 380), row, strict=True):
            for number, line in enumerate(cell):
                paper.text(x, top + 12 * number, line, size=10)
        top += 12 * max(map(len, row)) + 8
    return [" ".join(line for cell in row for line in cell) for row in rows]


def test_a_table_of_trouble_cause_and_remedy_is_read_row_by_row_and_cell_by_cell(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    before, after = prose(40, 10), prose(40, 10, start=9)
    paper.lines(72, 70, before)
    expected = _trouble_table(paper, 150)
    paper.lines(72, 330, after)
    assert _texts(paper) == [*before, *expected, *after]


def test_columns_with_paragraphs_of_their_own_are_no_table(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    expected = []
    for left, start in ((54, 0), (320, 33)):
        top = 80
        for paragraph in range(6):
            for line in prose(20 + 7 * ((paragraph + start) % 4), 8, start=start + 5 * paragraph):
                paper.text(left, top, line, size=9)
                expected.append(line)
                top += 12
            top += 8
    assert _texts(paper) == expected


def test_a_form_with_two_pairs_in_a_row_is_read_across(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    pairs = [
        ("Aircraft make:", "Wren", "Registration:", "none"),
        ("Model:", "Nine", "Category:", "normal"),
        ("Landing gear:", "tricycle", "Seats:", "four"),
        ("Last inspection:", "annual", "Type:", "hundred hours"),
        ("Engine maker:", "Corrie", "Time:", "unknown"),
        ("Propeller:", "two blades", "Material:", "metal"),
        ("Operator:", "Heronsgate", "Use:", "survey"),
        ("Place:", "Northlake", "Weather:", "clear"),
    ]
    for number, row in enumerate(pairs):
        for x, text in zip((72, 180, 320, 430), row, strict=True):
            paper.text(x, 80 + 16 * number, text, size=10)
    assert _texts(paper) == [" ".join(row) for row in pairs]


def test_a_list_of_contents_is_read_row_by_row_even_when_written_by_column(tmp_path):
    """As some programs export tables: all numbers first, then all titles."""
    paper = Paper(tmp_path / "a.pdf")
    titles = [f"{prose(4, 4, start=5 * number)[0]} .... {number + 1}" for number in range(8)]
    for number in range(8):
        paper.text(72, 100 + 16 * number, f"Section {number + 1}")
    for number, title in enumerate(titles):
        paper.text(160, 100 + 16 * number, title)
    expected = [f"Section {number + 1} {title}" for number, title in enumerate(titles)]
    assert _texts(paper) == expected


def test_lines_written_out_of_order_are_put_in_order(tmp_path):
    paper = Paper(tmp_path / "a.pdf")
    lines = prose(80, 10)
    for row in reversed(range(len(lines))):
        paper.text(72, 100 + 14 * row, lines[row])
    assert _texts(paper) == lines
