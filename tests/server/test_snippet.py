"""The piece of text shown with a hit: never a mark on the wrong words."""

from hypothesis import given
from hypothesis import strategies as st

from server.snippet import Snippet, snippet

WORDS = "Remove the brake assembly from the axle. Examine the lining for wear and for oil on its faces. " * 8


def test_a_short_passage_is_shown_whole():
    shown = snippet("Bleed the\nbrakes.", [(10, 16)])
    assert shown == Snippet("Bleed the brakes.", ((10, 16),))
    assert list(shown.parts()) == [("Bleed the ", False), ("brakes", True), (".", False)]


def test_a_long_passage_is_cut_around_its_marks():
    at = WORDS.rindex("lining")
    shown = snippet(WORDS, [(at, at + 6)])
    assert shown.text.startswith("… ")
    assert [words for words, marked in shown.parts() if marked] == ["lining"]
    assert len(shown.text) < 300


def test_the_window_holds_the_most_marks():
    text = "alpha " + "filler " * 80 + "beta beta beta " + "filler " * 80
    marks = [(0, 5)] + [(start, start + 4) for start in range(len(text)) if text.startswith("beta", start)]
    assert [words for words, marked in snippet(text, marks).parts() if marked] == ["beta"] * 3


def test_without_marks_the_beginning_is_shown():
    shown = snippet(WORDS, [])
    assert shown.text.startswith("Remove the brake") and shown.text.endswith(" …")
    assert shown.marks == ()


@given(
    st.text(alphabet="ab \n", max_size=900),
    st.lists(st.tuples(st.integers(-3, 950), st.integers(0, 40)), max_size=12),
    st.integers(20, 300),
)
def test_a_mark_in_the_snippet_is_a_mark_of_the_passage(text, raw, length):
    marks = [(start, start + width) for start, width in raw]
    shown = snippet(text, marks, length)
    flat = text.replace("\n", " ")
    assert "".join(words for words, _ in shown.parts()) == shown.text
    assert shown.text.removeprefix("… ").removesuffix(" …").strip(" …") in flat
    inside = {at for start, end in marks for at in range(max(start, 0), min(end, len(text)))}
    begin = flat.find(shown.text.removeprefix("… ").removesuffix(" …")) if flat else 0
    if begin >= 0 and len(shown.text) == len(flat):
        assert {at for start, end in shown.marks for at in range(start, end)} == inside
    previous = 0
    for start, end in shown.marks:
        assert previous <= start < end <= len(shown.text)
        previous = end
