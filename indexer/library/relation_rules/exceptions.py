"""Which parts of a document a directive takes out of what it requires: "except paragraph 3.C", "Part 1 is not
required".

Read from the directive's words, whatever document they are about: an exception read too often costs a look at
the directive. "Paragraph (h) of this AD" is a paragraph of the directive and no part of a document.
Wordings: common practice, no source.
"""

import re

# What stands after these is taken out.
_EXCEPT = re.compile(
    r"\bexcept\w*|\bother than\b|\bexclud\w+|\bexclusive of\b|\binstead of\b|\brather than\b|\bin lieu of\b"
    r"|\bdisregard\w*|\bomit\w*|\bskip\w*|\bwithout (?:doing|accomplishing)\b",
    re.IGNORECASE,
)
# A sentence with these takes out whatever part it names.
_NOT_REQUIRED = re.compile(
    r"\b(?:is|are) (?:not|no longer) (?:required|necessary|applicable|mandated|incorporated|part of|to be)\b"
    r"|\b(?:does|do|need|must) not (?:require|do|accomplish|apply|use|perform|follow|include|mandate|be)\b"
    r"|\bnot (?:required|mandatory)\b|\bexempt\w*"
    r"|^\s*(?:\(\w+\)\s*)*(?:where|although)\b.*\bthis (?:AD|rule)\b",
    re.IGNORECASE,
)
_PART = re.compile(
    r"(?:\b[Pp]aragraphs?|\b[Ss]teps?|\b[Ss]ections?|\b[Tt]asks?)\s+\d+(?:\.[A-Z0-9]+)*\.?(?:\s?\(\w+\))*"
    r"(?:(?:,? and|,? or|,| through| thru| to) \d+(?:\.[A-Z0-9]+)*(?:\.?\s?\(\w+\))*)*"
    r"|\b(?:PARTS?|[Pp]arts?|[Aa]ppendix|[Aa]ppendices|[Tt]ables?|[Ff]igures?)\s+(?:\d{1,2}|[A-Z]|[IVX]{1,4})\b"
    r"(?:\.[A-Z0-9]+)*(?:(?:,? and|,? or|,| through| thru| to) (?:Part )?(?:\d{1,2}|[A-Z])\b)*"
    r"(?! to paragraph| of this AD)"
)
# Something of a document is taken out, and which part it is does not say: "except that the last test ...".
_WITHOUT_PART = re.compile(
    r"\bexcept that\b(?![^.]*\bof this AD\b).*"
    r"|\bexcept (?:for )?(?:the )?(?:last|first|final|steps?|tests?)\b.*"
    r"|\b[^,]*\b(?:in|of) (?:the|that|this) (?:alert )?(?:service )?(?:bulletin|information|letter)\b[^,]*"
    r"\b(?:is|are) not (?:required|necessary|mandated)\b.*",
    re.IGNORECASE,
)
_LAW = re.compile(
    r"(?:CFR|U\.S\.C\.|FAR)\s+(?:[Pp]arts?|[Ss]ections?)\s+[\d.]+"
    r"|\b[Pp]arts?\s+(?:21|39|43|51|91)\b"
)
_SENTENCE_END = re.compile(r"[.;:]\s+(?=[A-Z(])|;\s+")


def exceptions(directive_text: str) -> tuple[str, ...]:
    """The parts that a directive's sentences take out, as printed, in order; () when none is named.

    Where a sentence takes something out of a document and names no part, its own words in quotation marks:
    nobody can find those in the document.
    """
    text = _LAW.sub("law", re.sub(r"\s+", " ", directive_text))
    found: dict[str, None] = {}
    for sentence in _SENTENCE_END.split(text):
        start = 0
        if not _NOT_REQUIRED.search(sentence):
            word = _EXCEPT.search(sentence)
            if word is None:
                continue
            start = word.end()
        parts = [part[0].rstrip(" .,") for part in _PART.finditer(sentence, start)]
        if not parts and (vague := _WITHOUT_PART.search(sentence)):
            parts = [f'"{vague[0][:80].strip()}"']
        found.update(dict.fromkeys(parts))
    return tuple(found)
