"""Which doubtful words of a passage read by OCR lead to "cannot tell: read the page".

The sentences are our own; which words a mechanic acts on is common practice, no source. The usual confusions
(O for 0, I and l for 1, S for 5) are those of trade/misreadings.py.
"""

import pytest

from indexer.reading.page import Passage, PassageKind
from indexer.tagging.ocr_doubts import critical_doubts
from indexer.trade.evidence import Origin


def _passage(text, *doubtful):
    return Passage(0, 1, (), (), text, PassageKind.TEXT, Origin.OCR, doubtful)


@pytest.mark.parametrize(
    "text, doubtful, critical",
    [
        ("Torque the nuts to 175 in-lb.", "175", True),
        ("Torque the nuts to l75 in-lb.", "l75", True),
        ("Torque the nuts to lO in-lb.", "lO", True),  # no digit is left of the figure
        ("Torque the nuts to 175 in-lb.", "in-lb.", True),  # in-lb or ft-lb
        ("Torque the nuts to 175 in-lb.", "nuts", False),
        ("Apply air, not more than 2O psi, at the fluid inlet", "2O", True),
        ("Bore, inside diameter 1.507 Reject", "1.507", True),  # its unit stands in the table's head
        ("Replace lining P/N 68-3204 if worn", "68-3204", True),
        ("Replace lining P/N GBX if worn", "GBX", True),
        ("5 MS20470AD4-6 RIVET 12", "MS20470AD4-6", True),
        ("Applies to S/N AB and on", "AB", True),
        ("Component Maintenance Manual 32-42-08, Revision B", "B", True),
        ("Required by AD 2031-07-11, paragraph (g)", "2031-07-11,", True),
        ("FAA APPROVED", "APPROVED", True),
        ("This repair is not approved data", "not", True),
        ("For reference only", "only", True),
        ("Do not scratch the grooves", "grooves", False),
        ("Keep it within + 10 of the mean", "+", True),  # printed ±
        ("over +\n10 at any time", "+", True),
        ("(4) Remove the packings", "(4)", False),  # the mark of a step
        ("See Figure 3001 for the parts", "3001", False),
        ("Keep the linings away from oil", "oil", False),
        ("the bolts | of the wheel", "|", False),
    ],
)
def test_which_doubts_count(text, doubtful, critical):
    assert critical_doubts(_passage(text, doubtful)) == ((doubtful,) if critical else ())


def test_each_once_in_the_order_of_the_text():
    text = "Torque to 40 in-lb.\nThen torque to 60 in-lb, not to 40 ft-lb."
    assert critical_doubts(_passage(text, "60", "40", "torque", "40")) == ("40", "60")


def test_a_number_joined_over_a_line_end_is_not_lost():
    assert critical_doubts(_passage("part MS20470AD4-6 of the list", "MS20470AD4-")) == ("MS20470AD4-",)


def test_digital_text_has_no_doubts():
    assert critical_doubts(_passage("Torque the nuts to 175 in-lb.")) == ()
