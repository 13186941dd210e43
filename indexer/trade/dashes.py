"""Dashes and blanks of print brought to one form, character by character, so that offsets stay true."""

_DASHES = "\u00ad\u2010\u2011\u2012\u2013\u2014\u2015\u2043\u2212\ufe58\ufe63\uff0d"
_BLANKS = "\t\u00a0\u2000\u2001\u2002\u2003\u2004\u2005\u2006\u2007\u2008\u2009\u200a\u202f\u205f\u3000"
_PLAIN = str.maketrans(_DASHES + _BLANKS, "-" * len(_DASHES) + " " * len(_BLANKS))


def plain_dashes(text: str) -> str:
    """The text with every dash as "-" and every blank as " ": same length, line ends kept.

    Federal Register text prints "2019\N{EN DASH}07\N{EN DASH}05"; offsets found in the result hold in `text`.
    """
    return text.translate(_PLAIN)
