"""Every tag comes back from the catalogue as it went in: round trips of values of every type kept."""

import datetime
from collections.abc import Mapping

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from indexer.library.codec import from_json, to_json
from indexer.tagging.tags import BulletinFacts, Claim, DirectiveFacts, Identity, Standing
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.evidence import Basis, Box, Evidence, Origin, PageBox, Tag
from indexer.trade.publication_types import PublicationType

_NUMBERS = st.floats(-2000, 2000, allow_nan=False, width=32)
_BOXES = st.tuples(_NUMBERS, _NUMBERS, _NUMBERS, _NUMBERS).map(
    lambda n: Box(min(n[0], n[2]), min(n[1], n[3]), max(n[0], n[2]), max(n[1], n[3]))
)
_DIGITS = st.integers(0, 99).map("{:02}".format)
_CHAPTERS = st.one_of(
    st.builds(ChapterNumber, _DIGITS, _DIGITS | st.none(), st.none(), st.sampled_from(Scheme)),
    st.builds(ChapterNumber, _DIGITS, _DIGITS, _DIGITS, st.just(Scheme.ATA)),
)
st.register_type_strategy(Box, _BOXES)
st.register_type_strategy(ChapterNumber, _CHAPTERS)
_EVIDENCE = st.builds(
    Evidence,
    st.sampled_from(Basis),
    st.text(),
    st.text(),
    st.none() | st.integers(1, 20000),
    st.none() | _BOXES,
    st.text(),
    st.sampled_from(Origin),
    st.none() | st.floats(0, 1),
)
st.register_type_strategy(Evidence, _EVIDENCE)


def tags(values):
    """Tags of a value, with up to two other readings that have readings of their own."""
    plain = st.builds(Tag, values, _EVIDENCE, st.just(()))
    nested = st.builds(Tag, values, _EVIDENCE, st.lists(plain, max_size=2).map(tuple))
    return st.builds(Tag, values, _EVIDENCE, st.lists(nested, max_size=2).map(tuple))


_TEXTS, _DATES = tags(st.text()), tags(st.dates())
KINDS = {
    Evidence: _EVIDENCE,
    Standing: st.from_type(Standing),
    Claim: st.from_type(Claim),
    Tag[ChapterNumber]: tags(_CHAPTERS),
    tuple[Tag[ChapterNumber], ...]: st.lists(tags(_CHAPTERS), max_size=3).map(tuple),
    Identity: st.builds(
        Identity,
        tags(st.sampled_from(PublicationType)) | st.none(),
        _TEXTS | st.none(),
        _TEXTS | st.none(),
        _TEXTS | st.none(),
        st.lists(_TEXTS, max_size=2).map(tuple),
        _TEXTS | st.none(),
        _DATES | st.none(),
    ),
    DirectiveFacts: st.builds(
        DirectiveFacts,
        _TEXTS | st.none(),
        _TEXTS | st.none(),
        _DATES | st.none(),
        st.lists(tags(_CHAPTERS), max_size=2).map(tuple),
        _TEXTS | st.none(),
        st.booleans(),
        on_receipt=_TEXTS | st.none(),
        issued=_DATES | st.none(),
        emergency=st.booleans(),
        put_off=st.booleans(),
        replaces=st.lists(_TEXTS, max_size=2).map(tuple),
        withdraws=st.lists(_TEXTS, max_size=2).map(tuple),
    ),
    BulletinFacts: st.builds(BulletinFacts, *[_TEXTS | st.none()] * 3),
    tuple[PageBox, ...]: st.lists(st.from_type(PageBox), max_size=4).map(tuple),
    Mapping[str, str]: st.dictionaries(st.text(), st.text()),
    Box | None: _BOXES | st.none(),
}


@pytest.mark.parametrize("kind", KINDS, ids=str)
def test_a_value_comes_back_as_it_went_in(kind):
    @settings(max_examples=60, deadline=None)
    @given(KINDS[kind])
    def check(value):
        text = to_json(value)
        back = from_json(kind, text)
        assert back == value
        assert type(back) is type(value)
        assert to_json(back) == text

    check()


def test_what_is_left_out_is_a_default():
    assert to_json(Evidence(Basis.TYPE_RULE, "rule")) == '{"basis":"type rule","rule":"rule"}'


@pytest.mark.parametrize(
    "kind, text",
    [
        (Evidence, '{"basis":"hearsay","rule":"r"}'),
        (Evidence, '{"basis":"printed","rule":"r","shelf":1}'),
        (Evidence, '{"basis":"printed"}'),
        (datetime.date, '"yesterday"'),
        (Tag[str], '{"value":5,"evidence":{"basis":"printed","rule":"r"}}'),
    ],
)
def test_text_that_is_not_of_the_kind_is_refused(kind, text):
    with pytest.raises((ValueError, TypeError, KeyError)):
        from_json(kind, text)


def test_a_value_without_a_json_form_is_refused():
    with pytest.raises(TypeError):
        to_json({1, 2})
    with pytest.raises(ValueError):
        to_json(Evidence(Basis.INFERRED, "rule", confidence=float("nan")))
