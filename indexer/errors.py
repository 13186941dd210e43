"""Every error we raise. A type is for code, the slug for the manual, the sentence for a person.

HangarleafError
|- FileRefused                one file could not be taken; the rest go on
|  |- NotAPdf                 not-a-pdf
|  |- EmptyFile               empty-file
|  |- DamagedPdf              damaged-pdf
|  |- PasswordNeeded          password-needed
|  |- NoPages                 no-pages
|  |- FileVanished            file-vanished
|  |- FileNotReadable         file-not-readable
|  |- TooLarge                too-large
|  |- ReadingCrashed          reading-crashed
|  `- ReadingTooSlow          reading-too-slow
|- NothingToIngest            nothing-to-ingest
|- QueryProblem               the question cannot be answered as asked
|  |- UnclosedQuote           unclosed-quote
|  |- NothingToSearchFor      nothing-to-search-for
|  |- UnknownChapter          unknown-chapter
|  |- UnknownType             unknown-type
|  `- UnknownStanding         unknown-standing
|- WritingRefused             nothing was changed: this asker may not change the library
|  |- NotFromThisMachine      not-from-this-machine
|  |- ForeignOrigin           foreign-origin
|  |- NotJoined               not-joined
|  |- SignInNeeded            sign-in-needed
|  |- RightMissing            right-missing
|  |- OtherName               other-name
|  |- SignInRefused           sign-in-refused
|  |- TooManyTries            too-many-tries
|  `- TooMuchSent             too-much-sent
`- LibraryProblem             the library itself
   |- NoLibrary               no-library
   |- LibraryTooNew           library-too-new
   |- LibraryDamaged          library-damaged
   |- LibraryBusy             library-busy
   |- PublicationUnknown      publication-unknown
   `- PageUnknown             page-unknown
"""


class HangarleafError(Exception):
    """Base of all our errors. `what` says what happened and where; `remedy` says what to do."""

    slug = "hangarleaf-error"

    def __init__(self, what: str, remedy: str):
        super().__init__(f"{what} {remedy}".strip())
        self.what = what
        self.remedy = remedy

    def __reduce__(self):
        """Errors cross process borders whole."""
        return (_rebuild, (type(self), self.what, self.remedy))


def _rebuild(kind: type[HangarleafError], what: str, remedy: str) -> HangarleafError:
    error = kind.__new__(kind)
    HangarleafError.__init__(error, what, remedy)
    return error


class FileRefused(HangarleafError):
    """One file could not be taken into the library."""

    slug = "file-refused"


class NotAPdf(FileRefused):
    slug = "not-a-pdf"

    def __init__(self, file: str):
        super().__init__(
            f"{file}: this is not a PDF file.", "Check the file, or ask its publisher for a PDF."
        )


class EmptyFile(FileRefused):
    slug = "empty-file"

    def __init__(self, file: str):
        super().__init__(f"{file}: the file is empty (0 bytes).", "Copy or download it again.")


class DamagedPdf(FileRefused):
    slug = "damaged-pdf"

    def __init__(self, file: str, detail: str):
        super().__init__(
            f"{file}: the PDF is cut short or damaged ({detail}).",
            "Copy or download it again; if it still fails, ask its publisher for a good copy.",
        )


class PasswordNeeded(FileRefused):
    slug = "password-needed"

    def __init__(self, file: str):
        super().__init__(
            f"{file}: the PDF is locked and needs a password to open.",
            "Save a copy without the password, if your licence allows it, and ingest that.",
        )


class NoPages(FileRefused):
    slug = "no-pages"

    def __init__(self, file: str):
        super().__init__(f"{file}: the PDF has no pages.", "Ask its publisher for a complete copy.")


class FileVanished(FileRefused):
    slug = "file-vanished"

    def __init__(self, file: str):
        super().__init__(
            f"{file}: there is no such file, or it is gone.", "Check the path and the drive, then try again."
        )


class FileNotReadable(FileRefused):
    slug = "file-not-readable"

    def __init__(self, file: str, detail: str):
        super().__init__(
            f"{file}: the file cannot be read ({detail}).", "Check its permissions, then ingest again."
        )


class TooLarge(FileRefused):
    slug = "too-large"

    def __init__(self, file: str, found: str, limit: str, setting: str):
        super().__init__(
            f"{file}: {found} is over the limit of {limit}.",
            f"Split the file, or raise the setting {setting}.",
        )


class ReadingCrashed(FileRefused):
    slug = "reading-crashed"

    def __init__(self, file: str, detail: str):
        super().__init__(
            f"{file}: reading it stopped the worker ({detail}); the file is set aside.",
            "Print it to a new PDF and ingest that, or ask its publisher for a good copy.",
        )


class ReadingTooSlow(FileRefused):
    slug = "reading-too-slow"

    def __init__(self, file: str, limit_s: float):
        super().__init__(
            f"{file}: reading it took more than {limit_s:g} seconds; the file is set aside.",
            "Split it, or raise the setting HANGARLEAF_FILE_TIME_LIMIT_S, and ingest it again.",
        )


class NothingToIngest(HangarleafError):
    slug = "nothing-to-ingest"

    def __init__(self, place: str):
        super().__init__(
            f"{place}: no PDF files found here.", "Name a PDF file, or a folder that holds some."
        )


class QueryProblem(HangarleafError):
    """The question cannot be answered as asked."""

    slug = "query-problem"


class UnclosedQuote(QueryProblem):
    slug = "unclosed-quote"

    def __init__(self, query: str):
        super().__init__(
            f"The search «{query}» opens a quote and does not close it.",
            "Close the quote, or leave it out to search for the words anywhere.",
        )


class NothingToSearchFor(QueryProblem):
    slug = "nothing-to-search-for"

    def __init__(self, query: str):
        super().__init__(
            f"The search «{query}» holds only words too common to look for.",
            "Add a word that names the part, the system or the job.",
        )


class UnknownChapter(QueryProblem):
    slug = "unknown-chapter"

    def __init__(self, given: str):
        super().__init__(
            f"«{given}» is not a chapter number.", "Write a chapter as 32, or a chapter and section as 32-41."
        )


class UnknownType(QueryProblem):
    slug = "unknown-type"

    def __init__(self, given: str, known: str):
        super().__init__(f"«{given}» is not a publication type.", f"Choose one of: {known}.")


class UnknownStanding(QueryProblem):
    slug = "unknown-standing"

    def __init__(self, given: str, known: str):
        super().__init__(f"«{given}» is not a standing.", f"Choose one of: {known}.")


class WritingRefused(HangarleafError):
    """Nothing was changed: this asker may not change the library, or not in this way."""

    slug = "writing-refused"


class NotFromThisMachine(WritingRefused):
    slug = "not-from-this-machine"

    def __init__(self, client: str):
        super().__init__(
            f"The library can be changed only on the machine that serves it; this came from {client}.",
            "Open the page on that machine, at http://localhost with the port that hangarleaf serve printed; "
            "or name the persons who may change it from anywhere: hangarleaf person add NAME",
        )


class ForeignOrigin(WritingRefused):
    slug = "foreign-origin"

    def __init__(self, origin: str):
        super().__init__(
            f"This was sent by a page that is not ours ({origin}); nothing was changed.",
            "Open the page in Hangarleaf itself and send it from there.",
        )


class NotJoined(WritingRefused):
    """A device of the network that has not given the shop's code: it may not so much as read."""

    slug = "not-joined"

    def __init__(self) -> None:
        super().__init__(
            "This device has not joined the shop's library.", "Open the page /join and give the shop's code."
        )


class SignInNeeded(WritingRefused):
    slug = "sign-in-needed"

    def __init__(self) -> None:
        super().__init__(
            "Nobody is signed in here, and in this library only named persons change anything.",
            "Sign in at /sign-in, then do it again.",
        )


class RightMissing(WritingRefused):
    slug = "right-missing"

    def __init__(self, name: str, role: str, able: str):
        """`able` = the roles that may, in words."""
        super().__init__(f"{name} is signed in as {role}, who may not do this.", f"It takes {able}.")


class OtherName(WritingRefused):
    """What is entered stands under the name of who is signed in, and under no other."""

    slug = "other-name"

    def __init__(self, typed: str, name: str):
        super().__init__(
            f"This was to be entered by {typed}, and {name} is signed in; nothing was changed.",
            f"Enter it as {name}, or sign in as the other person.",
        )


class SignInRefused(WritingRefused):
    """One sentence for an unknown name, a wrong passcode and a locked name, so that nothing is told apart."""

    slug = "sign-in-refused"

    def __init__(self, tries: int, minutes: int):
        super().__init__(
            "This name and this passcode do not go together.",
            f"Try again. After {tries} wrong passcodes a name is locked for {minutes} minutes. "
            "A librarian can give a new passcode.",
        )


class TooManyTries(WritingRefused):
    slug = "too-many-tries"

    def __init__(self, minutes: int):
        super().__init__("There were too many wrong tries from this device.", f"Wait {minutes} minutes.")


class TooMuchSent(WritingRefused):
    slug = "too-much-sent"

    def __init__(self, limit_kb: int):
        super().__init__(
            f"More than {limit_kb} kB was sent at once; nothing was changed.", "Send it in smaller parts."
        )


class LibraryProblem(HangarleafError):
    """The library as a whole cannot be used as asked."""

    slug = "library-problem"


class NoLibrary(LibraryProblem):
    slug = "no-library"

    def __init__(self, folder: str):
        super().__init__(
            f"{folder}: there is no library here yet.", "Make one with: hangarleaf ingest FOLDER"
        )


class LibraryTooNew(LibraryProblem):
    slug = "library-too-new"

    def __init__(self, folder: str, found: int, known: int):
        super().__init__(
            f"{folder}: this library was made by a newer Hangarleaf (format {found}; known here: {known}).",
            "Update Hangarleaf. The library has not been changed.",
        )


class LibraryDamaged(LibraryProblem):
    slug = "library-damaged"

    def __init__(self, folder: str, detail: str):
        super().__init__(
            f"{folder}: the library's catalogue cannot be read ({detail}).",
            "Restore catalogue.sqlite from a backup, or ingest the publications into a new library.",
        )


class LibraryBusy(LibraryProblem):
    slug = "library-busy"

    def __init__(self, folder: str):
        super().__init__(
            f"{folder}: another ingest is at work in this library.", "Wait until it ends, then try again."
        )


class PublicationUnknown(LibraryProblem):
    slug = "publication-unknown"

    def __init__(self, given: str):
        super().__init__(
            f"No publication «{given}» in this library.", "List what is here with: hangarleaf status"
        )


class PageUnknown(LibraryProblem):
    slug = "page-unknown"

    def __init__(self, publication: str, pdf_page: int, last: int):
        super().__init__(f"{publication} has no PDF page {pdf_page}.", f"It has pages 1 to {last}.")
