-- Format 4: pages to be read by OCR and what OCR read, parts lists.

ALTER TABLE page ADD COLUMN ocr_reason TEXT; -- why its picture is to be read; NULL = its own text will do
ALTER TABLE page ADD COLUMN skew REAL NOT NULL DEFAULT 0; -- degrees clockwise that its lines slant
UPDATE page SET ocr_reason = 'it has no text' WHERE state = 'no text';
UPDATE page SET ocr_reason = 'its text is not words' WHERE state = 'garbled text';
CREATE INDEX page_to_read ON page (copy_id, pdf_page) WHERE ocr_reason IS NOT NULL;

ALTER TABLE passage ADD COLUMN doubtful_json TEXT NOT NULL DEFAULT '[]'; -- words that OCR read below the floor

-- What OCR read on a page whose own text will not do. Kept when the copy is read again: it is dear to make.
CREATE TABLE recognized_page (
    copy_id TEXT NOT NULL REFERENCES copy ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL,
    at TEXT NOT NULL,
    engine TEXT NOT NULL,
    confidence REAL NOT NULL, -- mean over the characters, 0 to 1
    seconds REAL NOT NULL,
    problem TEXT NOT NULL, -- why it could not be read; '' = it was read
    tries INTEGER NOT NULL, -- runs in which it could not be read
    used INTEGER NOT NULL, -- 1 = the passages of the copy were cut with it
    record BLOB, -- RecognizedPage as zlib-packed JSON; NULL where it could not be read
    PRIMARY KEY (copy_id, pdf_page)
);

-- What was looked for and hardly found, and pages that were opened before they were read: they are read first.
CREATE TABLE missed_search (
    words TEXT PRIMARY KEY, -- folded
    times INTEGER NOT NULL,
    last_at TEXT NOT NULL
) WITHOUT ROWID;
CREATE TABLE wanted_page (
    copy_id TEXT NOT NULL REFERENCES copy ON DELETE CASCADE,
    pdf_page INTEGER NOT NULL,
    last_at TEXT NOT NULL,
    PRIMARY KEY (copy_id, pdf_page)
) WITHOUT ROWID;

-- Parts lists: figures and rows in printed order, and the numerical index.
CREATE TABLE part_figure (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    figure TEXT NOT NULL, -- as printed
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;
CREATE TABLE part_row (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    figure INTEGER NOT NULL, -- ordinal of its figure
    item TEXT NOT NULL, -- without the dash; '' = not read
    loose_key TEXT NOT NULL, -- part_numbers.loose_key of its part number; '' = not read
    part_number TEXT NOT NULL, -- as printed
    origin TEXT NOT NULL, -- of the text: what OCR read is never more than alike
    pdf_page INTEGER NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;
-- All that tells one number from another, so that the thousands of rows of a common bolt are not read one by one.
CREATE INDEX part_row_number ON part_row (loose_key, part_number, origin, figure, item);
CREATE INDEX part_row_item ON part_row (publication_id, figure, item);
-- Part numbers that a row names beside its own: superseded, alternate, to be ordered.
CREATE TABLE part_named (
    loose_key TEXT NOT NULL,
    publication_id TEXT NOT NULL,
    ordinal INTEGER NOT NULL,
    PRIMARY KEY (loose_key, publication_id, ordinal),
    FOREIGN KEY (publication_id, ordinal) REFERENCES part_row ON DELETE CASCADE
) WITHOUT ROWID;
CREATE INDEX part_named_row ON part_named (publication_id, ordinal);
-- Words of the nomenclature, folded.
CREATE TABLE part_word (
    word TEXT NOT NULL,
    publication_id TEXT NOT NULL,
    ordinal INTEGER NOT NULL,
    PRIMARY KEY (word, publication_id, ordinal),
    FOREIGN KEY (publication_id, ordinal) REFERENCES part_row ON DELETE CASCADE
) WITHOUT ROWID;
CREATE INDEX part_word_row ON part_word (publication_id, ordinal);
CREATE TABLE indexed_number (
    publication_id TEXT NOT NULL REFERENCES publication ON DELETE CASCADE,
    ordinal INTEGER NOT NULL,
    loose_key TEXT NOT NULL,
    record_json TEXT NOT NULL,
    PRIMARY KEY (publication_id, ordinal)
) WITHOUT ROWID;
CREATE INDEX indexed_number_key ON indexed_number (loose_key);
