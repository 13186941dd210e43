"""Disputed points always print both positions, each with its source.

Outside check: 14 CFR 65.95(a)(1), 145.201(c)(2), part 43 Appendix B(b); the guidance and letters named in
each position, as reported where it says so.
"""

import pytest

from indexer.trade.disputed import Disputed, disputed_for_major_work, disputed_point
from indexer.trade.publication_types import PublicationType as Type


@pytest.mark.parametrize("point", list(Disputed))
def test_both_positions_are_printed_with_source_and_whom_to_ask(point):
    held = disputed_point(point)
    printed = "\n".join(held.sentences)
    for each in (*held.positions, *held.also):
        assert each.says in printed and f"({each.source})" in printed
    assert held.positions[0].says != held.positions[1].says
    assert held.question.endswith("?") and held.question in printed
    assert "sk the " in held.ask and held.ask in printed


@pytest.mark.parametrize("point", list(Disputed))
def test_no_finding_is_a_bare_no_and_none_says_yes(point):
    finding = disputed_point(point).finding
    assert not finding.lower().startswith(("no", "yes", "not "))


@pytest.mark.parametrize(
    "kind", [Type.MAINTENANCE_MANUAL, Type.SERVICE_BULLETIN, Type.COMPONENT_MAINTENANCE_MANUAL]
)
def test_maker_s_data_for_major_work_is_disputed(kind):
    (held,) = disputed_for_major_work(kind)
    assert held.point is Disputed.MANUAL_FOR_MAJOR_WORK
    assert "8900.1" in held.positions[1].source
    assert held.finding.startswith("Shown as acceptable")


def test_a_repair_manual_carries_the_dispute_about_its_stamp_too():
    assert [each.point for each in disputed_for_major_work(Type.STRUCTURAL_REPAIR_MANUAL)] == [
        Disputed.REPAIR_MANUAL_STAMP,
        Disputed.MANUAL_FOR_MAJOR_WORK,
    ]


@pytest.mark.parametrize("kind", [None, Type.ADVISORY_CIRCULAR, Type.RELEASE_CERTIFICATE, Type.PARTS_CATALOG])
def test_what_is_no_maker_s_data_is_not_disputed(kind):
    assert disputed_for_major_work(kind) == ()
