"""Sentences that speak of an approval and grant none: denied, hoped for, asked for, or another document's."""

from hypothesis import strategies as st

_THING = st.sampled_from(
    ["this repair", "this manual", "the technical content of this bulletin", "this page", "the data"]
)
_APPROVED = st.sampled_from(
    ["FAA approved", "FAA-approved", "approved by the FAA", "approved by the Administrator"]
)
_DENIED = st.builds(
    lambda thing, verb, approved: f"{thing.capitalize()} {verb} {approved}.",
    _THING,
    st.sampled_from(["is not", "are not", "was never", "has not been", "is no longer", "cannot be", "isn't"]),
    _APPROVED,
)
_HOPED = st.builds(
    lambda thing, hope, approved: f"{thing.capitalize()} {hope} {approved}.",
    _THING,
    st.sampled_from(
        ["will be", "is expected to be", "should be", "is to be", "may be", "must be", "is pending until"]
    ),
    _APPROVED,
)
_ASKED = st.sampled_from(
    ["Submit the drawing to the FAA for approval.", "Obtain FAA approval before you begin.",
     "Use an FAA-approved equivalent.", "Get approval of the FAA for other damage.",
     "FAA approval is required.",
     "Ask the FAA whether the repair is approved."],
)  # fmt: skip
_MENTIONED = st.builds(
    lambda other, approved: f"{other} is {approved}.",
    st.sampled_from(["Service Bulletin 32-0012", "AD 2031-04-07", "Drawing 4410", "The engine manual",
                     "STC SA999ZZ",
                     "That publication", "The vendor's data"]),
    _APPROVED,
)  # fmt: skip
NEVER_APPROVED = st.lists(st.one_of(_DENIED, _HOPED, _ASKED, _MENTIONED), min_size=1, max_size=6)
