"""Whether the text of a page is words."""

from indexer.reading.characters import is_private
from indexer.reading.page import TextState
from indexer.reading.raw_page import RawPage

_LEAST_CHARACTERS = 40  # to judge a page by
_UNKNOWN_SHARE = 0.3


def text_state(raw: RawPage) -> tuple[TextState, str]:
    """The page's state, and for a garbled one the reason, for a person."""
    if not any(raw.words.values()):
        return (TextState.NO_TEXT if raw.picture_part or raw.has_drawing else TextState.BLANK), ""
    characters = "".join(word.text for words in raw.words.values() for word in words)
    unknown = sum(map(is_private, characters))
    if len(characters) >= _LEAST_CHARACTERS and unknown >= _UNKNOWN_SHARE * len(characters):
        share = f"{100 * unknown // len(characters)} %"
        return TextState.GARBLED, f"{share} of the page's characters have no meaning in the file's fonts"
    return TextState.TEXT, ""
