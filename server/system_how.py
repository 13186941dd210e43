"""How it is known that a passage is on a system, from the evidence of its number. Pure."""

from indexer.tagging.inference import LIKELY
from indexer.trade.evidence import Basis, Evidence
from server.system_records import How

_SHOP_MAP = "shop map"  # rule of numbers that the shop's map gave

HOW_WORDS = {
    How.PRINTED: "Printed",
    How.SHOP_ENTRY: "Entered by the shop",
    How.MAPPED: "Mapped by the shop",
    How.LIKELY: "Likely",
    How.POSSIBLE: "Possible",
    How.REFERRED: "Refers to it",
    How.TIED: "Tied to a listed paper",
}
HOW_COUNTED = {  # after a number of passages
    How.PRINTED: "printed",
    How.SHOP_ENTRY: "entered by the shop",
    How.MAPPED: "mapped by the shop",
    How.LIKELY: "likely",
    How.POSSIBLE: "possible",
    How.REFERRED: "only referring to it",
    How.TIED: "tied to a listed paper",
}


def how_known(evidence: Evidence) -> How:
    """From the evidence of a number that a passage is filed under."""
    if evidence.basis is Basis.SHOP_ENTRY:
        return How.MAPPED if evidence.rule == _SHOP_MAP else How.SHOP_ENTRY
    if evidence.basis is Basis.INFERRED:
        sure = evidence.confidence is not None and evidence.confidence >= LIKELY
        return How.LIKELY if sure else How.POSSIBLE
    return How.POSSIBLE if evidence.basis is Basis.TYPE_RULE else How.PRINTED
