-- What came and what was said about it: rows are added, never changed (the triggers below see to that).

CREATE TABLE schema_version (
  version INTEGER PRIMARY KEY,
  applied_at TEXT NOT NULL
) STRICT;

-- A note, byte for byte as it came. Its id is made from its bytes, its sender and `told_by`: what tells it from another
-- with the same words (its minute, its file or its day). The number only ties it to other tables of this file.
CREATE TABLE notes (
  number INTEGER PRIMARY KEY,
  id TEXT NOT NULL UNIQUE,
  sha256 TEXT NOT NULL,
  body BLOB NOT NULL,
  encoding TEXT NOT NULL,
  received TEXT NOT NULL,
  told_by TEXT NOT NULL,
  sender TEXT CHECK (sender <> ''),
  source TEXT NOT NULL,
  given_id TEXT NOT NULL
) STRICT;

-- Everything anybody did, in order: notes taken, notes read again, records mended, questions answered, things due
-- closed by hand, acts undone.
-- The entries of one command share a batch, the seq of its first entry. `fix` holds the whole mended record in its data;
-- `keep` too, and its message: it keeps a mended record alive that a later reading no longer finds.
CREATE TABLE entries (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  batch INTEGER NOT NULL,
  at TEXT NOT NULL,
  who TEXT CHECK (who <> ''),
  act TEXT NOT NULL CHECK (act IN ('take', 'reread', 'fix', 'reject', 'keep', 'answer', 'close', 'undo')),
  note_id TEXT REFERENCES notes (id),
  target TEXT,
  data TEXT NOT NULL DEFAULT '{}' CHECK (json_valid(data)),
  undoes INTEGER REFERENCES entries (seq)
) STRICT;
CREATE INDEX entries_note ON entries (note_id, act);
CREATE INDEX entries_target ON entries (target) WHERE target IS NOT NULL;
CREATE UNIQUE INDEX entries_undoes ON entries (undoes) WHERE undoes IS NOT NULL;
CREATE INDEX entries_batch ON entries (batch);
CREATE INDEX entries_kept ON entries (json_extract(data, '$.message')) WHERE act = 'keep';

-- What one reading of a note made of it. The latest one whose entry is not undone counts.
CREATE TABLE readings (
  id INTEGER PRIMARY KEY,
  note_id TEXT NOT NULL REFERENCES notes (id),
  entry INTEGER NOT NULL REFERENCES entries (seq),
  reader TEXT NOT NULL,
  leftovers TEXT NOT NULL CHECK (json_valid(leftovers)),
  UNIQUE (note_id, entry)
) STRICT;

-- The messages a note falls into (one, unless it is a pasted thread), as offsets into its text.
CREATE TABLE messages (
  reading INTEGER NOT NULL REFERENCES readings (id),
  ordinal INTEGER NOT NULL,
  key TEXT NOT NULL,
  first INTEGER NOT NULL,
  last INTEGER NOT NULL,
  received TEXT NOT NULL,
  sender TEXT CHECK (sender <> ''),
  PRIMARY KEY (reading, ordinal)
) STRICT, WITHOUT ROWID;
CREATE INDEX messages_key ON messages (key);

CREATE TABLE records (
  reading INTEGER NOT NULL,
  ordinal INTEGER NOT NULL,
  id TEXT NOT NULL,
  message INTEGER NOT NULL,
  kind TEXT NOT NULL,
  slots TEXT NOT NULL CHECK (json_valid(slots)),
  spans TEXT NOT NULL CHECK (json_valid(spans)),
  PRIMARY KEY (reading, ordinal),
  FOREIGN KEY (reading, message) REFERENCES messages (reading, ordinal)
) STRICT, WITHOUT ROWID;
CREATE INDEX records_id ON records (id);

CREATE TABLE questions (
  reading INTEGER NOT NULL,
  ordinal INTEGER NOT NULL,
  id TEXT NOT NULL,
  message INTEGER NOT NULL,
  record_id TEXT,
  ask TEXT NOT NULL,
  choices TEXT NOT NULL CHECK (json_valid(choices)),
  topic TEXT NOT NULL,
  word TEXT NOT NULL,
  PRIMARY KEY (reading, ordinal),
  FOREIGN KEY (reading, message) REFERENCES messages (reading, ordinal)
) STRICT, WITHOUT ROWID;
CREATE INDEX questions_id ON questions (id);

-- The state today: made from the tables above by the views below, and made again whenever they grow.

CREATE TABLE current_readings (
  note_id TEXT PRIMARY KEY REFERENCES notes (id),
  reading INTEGER NOT NULL REFERENCES readings (id)
) STRICT, WITHOUT ROWID;
CREATE INDEX current_readings_reading ON current_readings (reading);

CREATE TABLE current_records (
  id TEXT PRIMARY KEY,
  message_key TEXT NOT NULL,
  note_id TEXT NOT NULL REFERENCES notes (id),
  received TEXT NOT NULL,
  sender TEXT,
  kind TEXT NOT NULL,
  slots TEXT NOT NULL,
  fixed_by INTEGER REFERENCES entries (seq)
) STRICT, WITHOUT ROWID;
CREATE INDEX current_records_key ON current_records (message_key);
CREATE INDEX current_records_note ON current_records (note_id);
CREATE INDEX current_records_received ON current_records (received);

CREATE TABLE current_questions (
  id TEXT NOT NULL,
  message_key TEXT NOT NULL,
  note_id TEXT NOT NULL REFERENCES notes (id),
  received TEXT NOT NULL,
  record_id TEXT,
  ask TEXT NOT NULL,
  choices TEXT NOT NULL,
  topic TEXT NOT NULL,
  word TEXT NOT NULL,
  PRIMARY KEY (id, message_key)
) STRICT, WITHOUT ROWID;
CREATE INDEX current_questions_key ON current_questions (message_key);

CREATE VIEW live_entries AS
SELECT e.* FROM entries e
WHERE e.act <> 'undo' AND NOT EXISTS (SELECT 1 FROM entries u WHERE u.undoes = e.seq);

-- The reading that counts for each note that is still taken.
CREATE VIEW live_readings AS
SELECT * FROM (
  SELECT n.id AS note_id, (
    SELECT r.id FROM readings r JOIN live_entries e ON e.seq = r.entry
    WHERE r.note_id = n.id ORDER BY r.entry DESC LIMIT 1
  ) AS reading
  FROM notes n
  WHERE EXISTS (SELECT 1 FROM live_entries t WHERE t.note_id = n.id AND t.act = 'take')
) WHERE reading IS NOT NULL;

-- A message that stands in several pastes counts once: from the paste with most of the talk before it.
CREATE VIEW live_messages AS
SELECT m.*, c.note_id FROM messages m
JOIN current_readings c ON c.reading = m.reading
WHERE NOT EXISTS (
  SELECT 1 FROM messages o JOIN current_readings oc ON oc.reading = o.reading
  WHERE o.key = m.key AND (o.ordinal > m.ordinal OR (o.ordinal = m.ordinal AND oc.note_id < c.note_id))
);

-- The last word on a record that somebody mended, rejected or kept.
CREATE VIEW live_verdicts AS
SELECT e.target AS record_id, e.seq, e.act,
  json_extract(e.data, '$.kind') AS kind, json_extract(e.data, '$.slots') AS slots
FROM live_entries e
WHERE e.act IN ('fix', 'reject', 'keep') AND NOT EXISTS (
  SELECT 1 FROM live_entries o WHERE o.target = e.target AND o.act IN ('fix', 'reject', 'keep') AND o.seq > e.seq
);

-- Records as they were read, with the last word on each.
CREATE VIEW read_records AS
SELECT r.id, m.key AS message_key, m.note_id, m.received, m.sender,
  coalesce(v.kind, r.kind) AS kind, coalesce(v.slots, r.slots) AS slots, v.seq AS fixed_by
FROM live_messages m
JOIN records r ON r.reading = m.reading AND r.message = m.ordinal
LEFT JOIN live_verdicts v ON v.record_id = r.id
WHERE v.act IS NOT 'reject';

-- Mended records that the reading of today no longer finds.
CREATE VIEW kept_records AS
SELECT k.target AS id, m.key AS message_key, m.note_id, m.received, m.sender,
  json_extract(k.data, '$.kind') AS kind, json_extract(k.data, '$.slots') AS slots, k.seq AS fixed_by
FROM live_messages m
JOIN entries k ON k.act = 'keep' AND json_extract(k.data, '$.message') = m.key
WHERE k.seq IN (SELECT v.seq FROM live_verdicts v WHERE v.record_id = k.target)
  AND NOT EXISTS (SELECT 1 FROM records r WHERE r.reading = m.reading AND r.message = m.ordinal AND r.id = k.target);

CREATE VIEW live_records AS SELECT * FROM read_records UNION ALL SELECT * FROM kept_records;

CREATE VIEW live_questions AS
SELECT q.id, m.key AS message_key, m.note_id, m.received, q.record_id, q.ask, q.choices, q.topic, q.word
FROM live_messages m
JOIN questions q ON q.reading = m.reading AND q.message = m.ordinal
WHERE NOT EXISTS (SELECT 1 FROM live_entries a WHERE a.target = q.id AND a.act = 'answer');

-- Rows are added, never changed or taken away.
CREATE TRIGGER notes_no_update BEFORE UPDATE ON notes
BEGIN SELECT raise(ABORT, 'the book only grows: rows of notes are never changed'); END;
CREATE TRIGGER notes_no_delete BEFORE DELETE ON notes
BEGIN SELECT raise(ABORT, 'the book only grows: rows of notes are never changed'); END;
CREATE TRIGGER entries_no_update BEFORE UPDATE ON entries
BEGIN SELECT raise(ABORT, 'the book only grows: rows of entries are never changed'); END;
CREATE TRIGGER entries_no_delete BEFORE DELETE ON entries
BEGIN SELECT raise(ABORT, 'the book only grows: rows of entries are never changed'); END;
CREATE TRIGGER readings_no_update BEFORE UPDATE ON readings
BEGIN SELECT raise(ABORT, 'the book only grows: rows of readings are never changed'); END;
CREATE TRIGGER readings_no_delete BEFORE DELETE ON readings
BEGIN SELECT raise(ABORT, 'the book only grows: rows of readings are never changed'); END;
CREATE TRIGGER messages_no_update BEFORE UPDATE ON messages
BEGIN SELECT raise(ABORT, 'the book only grows: rows of messages are never changed'); END;
CREATE TRIGGER messages_no_delete BEFORE DELETE ON messages
BEGIN SELECT raise(ABORT, 'the book only grows: rows of messages are never changed'); END;
CREATE TRIGGER records_no_update BEFORE UPDATE ON records
BEGIN SELECT raise(ABORT, 'the book only grows: rows of records are never changed'); END;
CREATE TRIGGER records_no_delete BEFORE DELETE ON records
BEGIN SELECT raise(ABORT, 'the book only grows: rows of records are never changed'); END;
CREATE TRIGGER questions_no_update BEFORE UPDATE ON questions
BEGIN SELECT raise(ABORT, 'the book only grows: rows of questions are never changed'); END;
CREATE TRIGGER questions_no_delete BEFORE DELETE ON questions
BEGIN SELECT raise(ABORT, 'the book only grows: rows of questions are never changed'); END;
