"""Which assembly a row belongs to, and what its attaching parts attach.

Rules: the introduction of an illustrated parts catalog (dots, attaching parts at the item's indenture, closed
by "***" or "---*---"), verified; "ATTACHING PARTS FOR ASSEMBLY" under a dot: US Army TM 55-4920-429-13, read;
"END ATTACHING PARTS" and what OCR makes of the marks: common practice, no source.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.tagging.parts_rows import PartsRow, RowFlag
from indexer.tagging.parts_tree import MarkKind, TreeMark, read_mark, with_tree


@pytest.mark.parametrize(
    ("text", "mark"),
    [
        ("ATTACHING PARTS", MarkKind.ATTACHING),
        ("(ATTACHING PARTS)", MarkKind.ATTACHING),
        ("ATTACHING PART", MarkKind.ATTACHING),
        ("--- ATTACHING PARTS ---", MarkKind.ATTACHING),
        (". ATTACHING PARTS FOR ASSEMBLY", MarkKind.ATTACHING),
        ("Attaching Parts", MarkKind.ATTACHING),
        ("ATTACHlNG PART5", MarkKind.ATTACHING),
        ("A T T A C H I N G  P A R T S", MarkKind.ATTACHING),
        ("ATTACHING PARTS (CONT)", MarkKind.GOES_ON),
        ("ATTACHING PARTS - CONTINUED", MarkKind.GOES_ON),
        ("***", MarkKind.END),
        ("* * *", MarkKind.END),
        ("---*---", MarkKind.END),
        ("- - - * - - -", MarkKind.END),
        ("-----*-----", MarkKind.END),
        ("--- * ---", MarkKind.END),
        ("\u2014\u2014*\u2014\u2014", MarkKind.END),
        ("---x---", MarkKind.END),
        ("---%---", MarkKind.END),
        ("_ _ _ * _ _ _", MarkKind.END),
        ("* * * * END ATTACHING PARTS * * * *", MarkKind.END),
        ("END OF ATTACHING PARTS", MarkKind.END),
        ("*", None),  # a footnote's mark
        ("**", None),
        ("-----", None),  # a ruling
        ("- - - - - -", None),
        (". . . .", None),
        ("", None),
        ("SEE ATTACHING PARTS", None),
        ("BRACKET, ATTACHING", None),
        ("PARTS KIT", None),
        ("ATTACHING PARTS KIT QZ28-1", None),
    ],
)
def test_marks(text, mark):
    assert read_mark(text) is mark


def tie(*lines):
    """Rows of one figure from words with their dots; "ATT", "CONT" and "***" are marks. "?" = dots not read.

    A line "/" begins the next figure. Gives {words: row}, and the rows by ordinal.
    """
    rows, marks, figure = [], [], 0
    for line in lines:
        if line == "/":
            figure += 1
        elif mark := {"ATT": MarkKind.ATTACHING, "CONT": MarkKind.GOES_ON, "***": MarkKind.END}.get(line):
            marks.append(TreeMark(mark, len(rows)))
        else:
            words = line.lstrip(".?")
            dots = None if line.startswith("?") else len(line) - len(words)
            rows.append(PartsRow(len(rows), figure, "1", "QZ1", words, dots, "1", 1, (), line))
    return with_tree(rows, marks)


def above(rows):
    return {row.nomenclature: None if row.above is None else rows[row.above].nomenclature for row in rows}


def attaches(rows):
    """{words: what it attaches}, of attaching parts alone; None = not certain."""
    return {
        row.nomenclature: None if row.attaches is None else rows[row.attaches].nomenclature
        for row in rows
        if row.attaching
    }


def flagged(rows):
    return {row.nomenclature: set(row.flags) for row in rows if row.flags}


def test_dots_give_the_assembly_above():
    rows = tie("PUMP", ".BODY", "..SEAL", "..PIN", "...CLIP", ".COVER", "VALVE", ".BALL")
    assert above(rows) == {
        "PUMP": None,
        "BODY": "PUMP",
        "SEAL": "BODY",
        "PIN": "BODY",
        "CLIP": "PIN",
        "COVER": "PUMP",
        "VALVE": None,
        "BALL": "VALVE",
    }
    assert flagged(rows) == {}


def test_a_figure_begins_anew():
    rows = tie("PUMP", ".BODY", "/", ".SEAL", "..PIN")
    assert above(rows) == {"PUMP": None, "BODY": "PUMP", "SEAL": None, "PIN": "SEAL"}
    assert flagged(rows) == {}


def test_two_figures_whose_rows_alternate_stay_apart():
    rows = [
        PartsRow(0, 0, "1", "QZ1", "PUMP", 0, "1", 1, (), ""),
        PartsRow(1, 1, "1", "QZ1", "VALVE", 0, "1", 1, (), ""),
        PartsRow(2, 0, "2", "QZ1", "BODY", 1, "1", 2, (), ""),
        PartsRow(3, 1, "2", "QZ1", "BALL", 1, "1", 2, (), ""),
    ]
    assert [row.above for row in with_tree(rows)] == [None, None, 0, 1]


def test_a_dot_left_out_gives_no_assembly():
    rows = tie("PUMP", "..SEAL", "...CLIP", ".BODY", "..PIN")
    assert above(rows) == {"PUMP": None, "SEAL": None, "CLIP": "SEAL", "BODY": "PUMP", "PIN": "BODY"}
    assert flagged(rows) == {"SEAL": {RowFlag.INDENTURE}}


def test_dots_that_were_not_read_make_doubtful_what_may_depend_on_them():
    rows = tie("PUMP", ".BODY", "?SEAL", "..PIN", ".COVER", "..CLIP", "VALVE", ".BALL")
    assert above(rows) == {
        "PUMP": None,
        "BODY": "PUMP",
        "SEAL": None,
        "PIN": None,  # of BODY or of SEAL
        "COVER": None,  # of PUMP or of SEAL
        "CLIP": "COVER",
        "VALVE": None,
        "BALL": "VALVE",
    }
    assert flagged(rows) == {words: {RowFlag.INDENTURE} for words in ("SEAL", "PIN", "COVER")}


def test_attaching_parts_attach_the_item_before_them_and_details_come_after():
    rows = tie("PUMP", ".BODY", "ATT", ".BOLT", ".NUT", "***", "..SEAL", ".COVER")
    assert attaches(rows) == {"BOLT": "BODY", "NUT": "BODY"}
    assert above(rows) == {
        "PUMP": None,
        "BODY": "PUMP",
        "BOLT": "PUMP",
        "NUT": "PUMP",
        "SEAL": "BODY",
        "COVER": "PUMP",
    }
    assert flagged(rows) == {}


def test_attaching_parts_printed_after_the_details_of_their_item():
    rows = tie("PUMP", ".BODY", "..SEAL", "ATT", ".BOLT", "***", ".COVER")
    assert attaches(rows) == {"BOLT": "BODY"}
    assert above(rows)["COVER"] == "PUMP"


def test_attaching_parts_printed_a_dot_deeper_are_no_details():
    rows = tie("PUMP", "ATT", ".BOLT", "***", ".BODY")
    assert attaches(rows) == {"BOLT": "PUMP"}
    assert above(rows) == {"PUMP": None, "BOLT": None, "BODY": "PUMP"}


def test_an_assembly_among_attaching_parts_keeps_its_details():
    rows = tie("PUMP", "ATT", "CLAMP", ".SCREW", "BOLT", "***", ".BODY")
    assert attaches(rows) == {"CLAMP": "PUMP", "SCREW": None, "BOLT": "PUMP"}
    assert above(rows) == {"PUMP": None, "CLAMP": None, "SCREW": "CLAMP", "BOLT": None, "BODY": "PUMP"}


def test_attaching_parts_of_an_attaching_part():
    rows = tie("PUMP", "ATT", "CLAMP", "ATT", "SCREW", "***", "BOLT", "***", ".BODY")
    assert attaches(rows) == {"CLAMP": "PUMP", "SCREW": "CLAMP", "BOLT": "PUMP"}
    assert above(rows)["BODY"] == "PUMP"
    assert flagged(rows) == {}


def test_without_an_end_only_the_first_is_an_attaching_part_and_what_follows_is_flagged():
    rows = tie("PUMP", ".BODY", "ATT", ".BOLT", ".NUT", "..SEAL", "VALVE", ".BALL")
    assert attaches(rows) == {"BOLT": "BODY"}
    assert above(rows) == {
        "PUMP": None,
        "BODY": "PUMP",
        "BOLT": "PUMP",
        "NUT": "PUMP",
        "SEAL": None,  # of BODY, BOLT or NUT
        "VALVE": None,
        "BALL": "VALVE",
    }
    assert flagged(rows) == {words: {RowFlag.ATTACHING} for words in ("BOLT", "NUT", "SEAL")}


def test_without_an_end_and_without_dots_no_assembly_is_told_behind_it():
    rows = tie("PUMP", ".BODY", "ATT", "?BOLT", ".NUT", "..SEAL", "...PIN")
    assert attaches(rows) == {"BOLT": None}
    assert [above(rows)[words] for words in ("NUT", "SEAL", "PIN")] == [None, None, None]


def test_a_group_without_an_end_is_over_at_the_next_attached_item():
    rows = tie("PUMP", "ATT", "BOLT", "NUT", "VALVE", "ATT", "SCREW", "***", ".BALL")
    assert attaches(rows) == {"BOLT": "PUMP", "SCREW": "VALVE"}
    assert set(flagged(rows)) == {"BOLT", "NUT"}
    assert above(rows)["BALL"] == "VALVE"


def test_a_group_without_an_end_is_over_with_its_figure():
    rows = tie("PUMP", "ATT", "BOLT", "/", "VALVE", ".BALL")
    assert attaches(rows) == {"BOLT": "PUMP"}
    assert set(flagged(rows)) == {"BOLT"}


def test_an_end_without_a_beginning_leaves_details_behind_it_in_doubt():
    rows = tie("PUMP", ".BODY", ".BOLT", "***", "..SEAL", ".COVER", "..CLIP")
    assert attaches(rows) == {}
    assert above(rows)["SEAL"] is None  # of BODY or of BOLT
    assert above(rows)["CLIP"] == "COVER"
    assert set(flagged(rows)) == {"SEAL"}


def test_attaching_parts_whose_dots_were_not_read():
    rows = tie("PUMP", ".BODY", "ATT", "?BOLT", "***", "..SEAL")
    assert attaches(rows) == {"BOLT": None}
    assert above(rows)["SEAL"] == "BODY"  # the group is closed, so BOLT is not its assembly


def test_a_second_group_right_behind_the_first_names_no_item():
    rows = tie("PUMP", "ATT", "BOLT", "***", "ATT", "NUT", "***")
    assert attaches(rows) == {"BOLT": "PUMP", "NUT": None}


def test_attaching_parts_that_run_over_the_page():
    rows = tie("PUMP", "ATT", "BOLT", "CONT", "NUT", "***", ".BODY")
    assert attaches(rows) == {"BOLT": "PUMP", "NUT": "PUMP"}
    assert above(rows)["BODY"] == "PUMP"
    assert flagged(rows) == {}
    assert attaches(tie("PUMP", "CONT", "NUT", "***")) == {"NUT": "PUMP"}  # where the beginning was lost


def test_a_beginning_printed_twice_is_one():
    rows = tie("PUMP", "ATT", "ATT", "BOLT", "***", ".BODY")
    assert attaches(rows) == {"BOLT": "PUMP"}
    assert flagged(rows) == {}


def test_marks_at_the_edges_harm_nothing():
    assert tie() == ()
    assert attaches(tie("ATT", "BOLT", "***")) == {}  # no item before them
    assert attaches(tie("PUMP", "ATT", "***")) == {}
    assert attaches(tie("PUMP", "ATT")) == {}
    assert attaches(tie("PUMP", "ATT", "/", "VALVE")) == {}
    assert attaches(tie("PUMP", "***", "***", "VALVE")) == {}


LINES = st.lists(st.sampled_from(["A", ".B", "..C", "...D", "?E", "ATT", "CONT", "***", "/"]), max_size=14)


@settings(deadline=None)  # how long it takes is measured elsewhere
@given(LINES)
def test_what_is_tied_can_be_so(lines):
    rows = tie(*lines)
    assert [row.ordinal for row in rows] == list(range(len(rows)))
    for row in rows:
        for other in (row.above, row.attaches):
            assert other is None or (other < row.ordinal and rows[other].figure == row.figure)
        if row.above is not None:
            assert row.attaching or not rows[row.above].attaching
            assert rows[row.above].indenture == row.indenture - 1
            between = rows[row.above + 1 : row.ordinal]
            assert all(
                r.attaching or r.indenture is None or r.indenture >= row.indenture for r in between
            ) or (row.attaching)
            if RowFlag.ATTACHING in rows[row.above].flags and not row.attaching:
                first = max(r.ordinal for r in rows[: row.above + 1] if r.attaching)
                assert rows[first].indenture is not None
                assert rows[row.above].indenture > rows[first].indenture
        if row.attaches is not None:
            assert row.attaching
        if row.indenture is None:
            assert RowFlag.INDENTURE in row.flags
