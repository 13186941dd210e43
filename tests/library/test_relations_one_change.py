"""What one change touches is worked out again, and the result is that of working out everything.

The oracle is the same catalogue with all that is derived thrown away, related from nothing.
"""

import contextlib
import random
import shutil
from dataclasses import replace

import pytest
from making import Made, Text, take
from shop import DATE, MAKER, OTHER_MAKER, bulletin, everything, manual

from indexer.library import related, shop_map
from indexer.library.catalogue import Catalogue
from indexer.library.filing import chapters_of
from indexer.library.generations import set_meta
from indexer.library.problems import EntryRefused, SecondPersonRefused
from indexer.library.records import EntryKind, EntryState
from indexer.library.relations import relate
from indexer.library.shop_entries import add_entry, entries, second_entry, undo_entry
from indexer.trade.chapters import ChapterNumber, Scheme
from indexer.trade.publication_types import PublicationType as Type

_DERIVED = (
    "reference", "supersession", "tie", "page_override", "directive_standing", "unresolved_claim", "filing",
    "entered_standing", "entry_state", "entry_passage",
)  # fmt: skip
MODELS = ("C-220",)
WHO = ("R. Quill", "M. Ohler", "T. Brandt")


def worked_out_anew(library, folder) -> str:
    """The dump of a copy of the catalogue after all that is derived was thrown away and worked out again."""
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir()
    with Catalogue.open(library) as catalogue:
        catalogue.database.connection().execute("VACUUM INTO ?", (str(folder / "catalogue.sqlite"),))
    with Catalogue.open(folder) as anew:
        with anew.database.writing() as connection:
            for table in _DERIVED:
                connection.execute(f"DELETE FROM {table}")
            related.forget(connection)
            set_meta(connection, "related_rules", 0)
        relate(anew)
        return anew.dump()


def own_manual(revision: str, date) -> Made:
    """Sections V and VI of a manual of its own order; a page prints a chapter; words refer to both."""
    sections = (("5", "SECTION V BRAKES"), ("5-12", "5-12. Adjustment"), ("6", "SECTION VI WHEELS"))
    texts = [
        Text(
            f"Words of {heading} in revision {revision}, and paragraph 5-12. Refer to section VI.",
            (heading,),
            page,
            ChapterNumber(own, scheme=Scheme.OWN),
        )
        for page, (own, heading) in enumerate(sections, 1)
    ]
    texts.append(Text("Grease the wheel bearing of either wheel, see 32-41-00.", (), 4, ChapterNumber("24")))
    return Made(
        f"km-{revision}.pdf", Type.SERVICE_MANUAL, "KM-12", revision, date, MAKER, "Handbook of the Kestrel",
        MODELS, texts, pages=4,
    )  # fmt: skip


def papers() -> list[Made]:
    """The invented shop, and papers that refer to one another in every way a key may lead."""
    cites = [
        Text("Refer to 32-41-00 and do SB 32-0012, Revision 3."),
        Text("Refer to the structural repair manual, and to 14 CFR 43.13(b).", ("2. WORK", "A. Repair")),
        Text("See D4410-1, page 201, and AD 2031-04-07.", ("3. MATERIALS",)),
        Text("Do it as the maintenance manual says. See AC 43.13-1B.", ("3. MATERIALS",)),
    ]
    repair = [
        Text("Words of a repair.", (), 1, ChapterNumber("53", "10", "00")),
        Text("See 32-41-00.", (), 1),
    ]
    rules = [Text("§ 43.13 Performance rules (general). Words.", ("§ 43.13 Performance rules",), 1)]
    circular = [Text("Acceptable methods. See part 43.", ("CHAPTER 1. WOOD",), 1)]
    return [
        *everything(),
        bulletin("29-0001", "A", DATE(2031, 3, 3), texts=cites, models=MODELS),
        bulletin("29-0002", "A", DATE(2031, 3, 3), texts=cites, maker=None),
        bulletin("29-0003", "A", DATE(2031, 3, 3), texts=cites, maker=OTHER_MAKER),
        manual("8", DATE(2033, 1, 1), models=MODELS),
        manual("1", DATE(2033, 1, 1), number="D5", maker=OTHER_MAKER),
        Made("srm.pdf", Type.STRUCTURAL_REPAIR_MANUAL, "D9-1", "1", None, MAKER, "Repair", MODELS, repair),
        Made("cfr-43.pdf", Type.REGULATION, "14 CFR part 43", title="Part 43", texts=rules),
        Made("ac.pdf", Type.ADVISORY_CIRCULAR, "AC 43.13-1B", title="Methods", texts=circular),
        own_manual("1", DATE(1951, 4, 1)),
        own_manual("2", DATE(1953, 4, 1)),
        replace(own_manual("3", None), file="wheels.pdf", number=None, revision=None, title="Wheels"),
    ]


class History:
    """A shop at work: each step is one thing that a person does."""

    def __init__(self, catalogue: Catalogue, folder, chance: random.Random):
        self.catalogue, self.folder, self.chance = catalogue, folder, chance
        self.papers = papers()
        self.steps = [self.take_or_remove] * 5 + [
            self.replace_at_its_place, self.read_again, self.read_again, self.enter, self.enter, self.enter,
            self.name, self.name, self.agree, self.undo, self.undo, self.map, self.map, self.unmap,
        ]  # fmt: skip

    def step(self) -> str:
        act = self.chance.choice(self.steps)
        act()
        return act.__name__

    def take_or_remove(self):
        made = self.chance.choice(self.papers)
        copy_id = made.document().sha256[:16]
        if any(copy.id == copy_id for copy in self.catalogue.copies()):
            self.catalogue.remove(copy_id)
        else:
            take(self.catalogue, self.folder, made)

    def replace_at_its_place(self):
        """Another content at the same path: the copy that lay there is off the shelf."""
        made = self.papers[-1] if self.chance.random() < 0.3 else self.chance.choice(self.papers)
        if made.content is None and any(copy.file == made.file for copy in self.catalogue.copies()):
            other = replace(made, content=f"%PDF {made.file} {self.chance.random()}".encode())
            take(self.catalogue, self.folder, other)

    def read_again(self):
        """By better rules: a passage more, and the last one otherwise."""
        spoken_of = {entry.copy_id for entry in entries(self.catalogue)}
        likely = [made for made in self.papers if made.document().sha256[:16] in spoken_of]
        made = self.chance.choice(likely if likely and self.chance.random() < 0.8 else self.papers)
        copy_id = made.document().sha256[:16]
        if any(copy.id == copy_id for copy in self.catalogue.copies()):
            texts = [*made.texts[:-1], Text("Otherwise, see page 202."), made.texts[-1]]
            better = replace(made, texts=self.chance.choice((texts, made.texts)))
            self.catalogue.read_again(copy_id, made.document(), better.publications())

    def enter(self):
        kind, value = self.chance.choice(
            [
                (EntryKind.CHAPTERS, "32"), (EntryKind.CHAPTERS, "24-10;28"), (EntryKind.CHAPTERS, ""),
                (EntryKind.STANDING, "approved"), (EntryKind.STANDING, "information"),
                (EntryKind.NOTE, "words"),
            ]
        )  # fmt: skip
        copy = self.chance.choice(self.catalogue.copies() or [None])
        if copy is None:
            return
        page = self.chance.randint(1, copy.pages)
        passages = [
            passage
            for publication in self.catalogue.publications_in(copy.id)
            for passage in self.catalogue.passages_of(publication.id)
            if passage.pdf_page == page
        ]
        quote = self.chance.choice(passages).text if passages and self.chance.random() < 0.5 else ""
        self._refusable(lambda: add_entry(
            self.catalogue, copy.id, page, self.chance.choice(WHO), "looked", kind, value, quote=quote
        ))  # fmt: skip

    def name(self):
        kind, value = self.chance.choice(
            [
                (EntryKind.NUMBER, "D4410-1"), (EntryKind.NUMBER, "SB 32-0012"), (EntryKind.NUMBER, "KM-12"),
                (EntryKind.TYPE, Type.MAINTENANCE_MANUAL.value), (EntryKind.REVISION, "9"),
                (EntryKind.TYPE, Type.SERVICE_BULLETIN.value), (EntryKind.DATE, "2034-01-01"),
                (EntryKind.TITLE, "Another title"),
            ]
        )  # fmt: skip
        copies = self.catalogue.copies()
        if copies:
            copy = self.chance.choice(copies)
            self._refusable(lambda: add_entry(self.catalogue, copy.id, 1, "R. Quill", "seen", kind, value))

    def agree(self):
        waiting = [each for each in entries(self.catalogue) if each.state is EntryState.WAITING]
        if waiting:
            entry = self.chance.choice(waiting)
            self._refusable(lambda: second_entry(self.catalogue, entry.id, self.chance.choice(WHO)))

    def undo(self):
        made = [each for each in entries(self.catalogue) if not each.undone_by]
        if made:
            undo_entry(self.catalogue, self.chance.choice(made).id, self.chance.choice(WHO), "not so")

    def map(self):
        named = self.chance.choice(("KM-12", "Handbook of the Kestrel", "D4410-1"))
        first, last = self.chance.choice((("V", ""), ("V", "VI"), ("5-12", "5-20")))
        chapters = self.chance.choice(("32", "27-10", "28;32"))
        shop_map.add_row(self.catalogue, named, first, last, chapters, self.chance.choice(WHO), "seen")

    def unmap(self):
        lines = shop_map.map_rows(self.catalogue)
        if lines:
            shop_map.remove_row(self.catalogue, self.chance.choice(lines).id, "R. Quill", "not so")

    def _refusable(self, act):
        """Do it, or keep nothing where such an entry cannot be made."""
        with contextlib.suppress(EntryRefused, SecondPersonRefused):
            act()


@pytest.mark.parametrize("number", range(12))
def test_after_any_history_the_catalogue_is_that_of_working_out_everything(number, tmp_path):
    chance = random.Random(number)
    library = tmp_path / "library"
    with Catalogue.open(library, create=True) as catalogue:
        history = History(catalogue, tmp_path / "in", chance)
        if number % 2:
            for made in history.papers:
                take(catalogue, tmp_path / "in", made)
        done = []
        for _ in range(14):
            done += [history.step() for _ in range(chance.choice((1, 1, 2, 4)))]
            relate(catalogue)
            assert catalogue.dump() == worked_out_anew(library, tmp_path / "anew"), done
            assert not relate(catalogue)
            for record in catalogue.publications(replaced=True):
                filed = [chapters_of(passage.numbers) for passage in catalogue.passages_of(record.id)]
                assert record.not_numbered == filed.count(()), done


def test_histories_reach_every_table(tmp_path):
    """Otherwise the test above would compare nothing with nothing."""
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        history = History(catalogue, tmp_path / "in", random.Random(2))
        for made in history.papers:
            take(catalogue, tmp_path / "in", made)
        seen: dict[str, int] = dict.fromkeys((*_DERIVED, "entered_identity", "reference_target"), 0)
        for _ in range(120):
            history.step()
            relate(catalogue)
            for table in seen:
                with catalogue.reading() as connection:
                    (rows,) = connection.execute(f"SELECT COUNT(*) FROM {table}").fetchone()
                seen[table] = max(seen[table], rows)
    assert all(seen.values()), seen


def test_a_target_read_again_keeps_what_leads_to_it(tmp_path):
    """Reading a manual again takes its passages out and puts them back: references to them stay."""
    with Catalogue.open(tmp_path / "library", create=True) as catalogue:
        for made in papers():
            take(catalogue, tmp_path / "in", made)
        relate(catalogue)
        before = catalogue.dump()
        made = manual("8", DATE(2033, 1, 1), models=MODELS)
        copy_id = made.document().sha256[:16]
        assert f'"{copy_id}-1"' in before.partition("== reference_target\n")[2].partition("==")[0]
        catalogue.read_again(copy_id, made.document(), made.publications())
        relate(catalogue)
        assert catalogue.dump() == before
