BEGIN TRANSACTION;
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
CREATE TABLE current_readings (
  note_id TEXT PRIMARY KEY REFERENCES notes (id),
  reading INTEGER NOT NULL REFERENCES readings (id)
) STRICT, WITHOUT ROWID;
INSERT INTO "current_readings" VALUES('b1e1f85f27510e89',2);
INSERT INTO "current_readings" VALUES('ebc74bf444c32b03',3);
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
INSERT INTO "current_records" VALUES('3df11d3e2ec981c4','080727f63e953f5d','ebc74bf444c32b03','2026-06-02T10:00',NULL,'todo','{"text":"\ud800 12\u0000 \u00e9\r"}',NULL);
INSERT INTO "current_records" VALUES('79e957b6784282e0','d9054a1771d764e2','b1e1f85f27510e89','2026-06-01T07:30','Ann','mite_check','{"mites":44}',5);
INSERT INTO "current_records" VALUES('f4cc983a237b6964','d9054a1771d764e2','b1e1f85f27510e89','2026-06-01T07:30','Ann','mite_check','{"mites":30}',2);
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
INSERT INTO "entries" VALUES(1,1,'2026-06-01T08:00:00+00:00','ann','take','b1e1f85f27510e89',NULL,'{}',NULL);
INSERT INTO "entries" VALUES(2,2,'2026-06-01T08:00:00+00:00','ann','fix','b1e1f85f27510e89','f4cc983a237b6964','{"kind":"mite_check","slots":{"mites":30}}',NULL);
INSERT INTO "entries" VALUES(3,3,'2026-06-01T08:00:00+00:00',NULL,'fix','b1e1f85f27510e89','79e957b6784282e0','{"kind":"mite_check","slots":{"mites":44}}',NULL);
INSERT INTO "entries" VALUES(4,4,'2026-06-01T08:00:00+00:00','ann','reread','b1e1f85f27510e89',NULL,'{}',NULL);
INSERT INTO "entries" VALUES(5,4,'2026-06-01T08:00:00+00:00','ann','keep','b1e1f85f27510e89','79e957b6784282e0','{"kind":"mite_check","slots":{"mites":44},"message":"d9054a1771d764e2"}',NULL);
INSERT INTO "entries" VALUES(6,6,'2026-06-01T08:00:00+00:00','bo','reject','b1e1f85f27510e89','f4cc983a237b6964','{}',NULL);
INSERT INTO "entries" VALUES(7,7,'2026-06-01T08:00:00+00:00','ann','undo','b1e1f85f27510e89','f4cc983a237b6964','{}',6);
INSERT INTO "entries" VALUES(8,8,'2026-06-01T08:00:00+00:00','ann','take','ebc74bf444c32b03',NULL,'{}',NULL);
INSERT INTO "entries" VALUES(9,9,'2026-06-01T08:00:00+00:00','ann','answer',NULL,'96e8943c0efd12c8','{"answer":"thymol gel"}',NULL);
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
INSERT INTO "messages" VALUES(1,0,'d9054a1771d764e2',0,21,'2026-06-01T07:30','Ann');
INSERT INTO "messages" VALUES(2,0,'d9054a1771d764e2',0,21,'2026-06-01T07:30','Ann');
INSERT INTO "messages" VALUES(3,0,'080727f63e953f5d',0,2,'2026-06-02T10:00',NULL);
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
INSERT INTO "notes" VALUES(1,'b1e1f85f27510e89','628aab79f198c3b15ee3b085d23239a1d1d466162d358c726fb8c01acd90667e',X'313220686164203320616E64203134206861642034','utf-8','2026-06-01T07:30','2026-06-01T07:30','Ann','-','');
INSERT INTO "notes" VALUES(2,'ebc74bf444c32b03','e8df7f053f71b003ae63c4dca49b5c593e4bcb90a735e63ee2daeac474f0fc62',X'FFFE31003200','utf-16','2026-06-02T10:00','x',NULL,'a "b",
c.txt','');
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
INSERT INTO "questions" VALUES(3,0,'96e8943c0efd12c8',0,NULL,'What is "x, y"?','["a","b"]','unknown_word','x,
y');
CREATE TABLE readings (
  id INTEGER PRIMARY KEY,
  note_id TEXT NOT NULL REFERENCES notes (id),
  entry INTEGER NOT NULL REFERENCES entries (seq),
  reader TEXT NOT NULL,
  leftovers TEXT NOT NULL CHECK (json_valid(leftovers)),
  UNIQUE (note_id, entry)
) STRICT;
INSERT INTO "readings" VALUES(1,'b1e1f85f27510e89',1,'test','[]');
INSERT INTO "readings" VALUES(2,'b1e1f85f27510e89',4,'test 2','[]');
INSERT INTO "readings" VALUES(3,'ebc74bf444c32b03',8,'test','[]');
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
INSERT INTO "records" VALUES(1,0,'f4cc983a237b6964',0,'mite_check','{"mites":3}','[[0,8]]');
INSERT INTO "records" VALUES(1,1,'79e957b6784282e0',0,'mite_check','{"mites":4}','[[13,21]]');
INSERT INTO "records" VALUES(2,0,'f4cc983a237b6964',0,'mite_check','{"mites":3}','[[0,8]]');
INSERT INTO "records" VALUES(3,0,'3df11d3e2ec981c4',0,'todo','{"text":"\ud800 12\u0000 \u00e9\r"}','[[0,1]]');
CREATE TABLE schema_version (
  version INTEGER PRIMARY KEY,
  applied_at TEXT NOT NULL
) STRICT;
INSERT INTO "schema_version" VALUES(1,'2026-06-01T08:00:00+00:00');
CREATE INDEX entries_note ON entries (note_id, act);
CREATE INDEX entries_target ON entries (target) WHERE target IS NOT NULL;
CREATE UNIQUE INDEX entries_undoes ON entries (undoes) WHERE undoes IS NOT NULL;
CREATE INDEX entries_batch ON entries (batch);
CREATE INDEX entries_kept ON entries (json_extract(data, '$.message')) WHERE act = 'keep';
CREATE INDEX messages_key ON messages (key);
CREATE INDEX records_id ON records (id);
CREATE INDEX questions_id ON questions (id);
CREATE INDEX current_readings_reading ON current_readings (reading);
CREATE INDEX current_records_key ON current_records (message_key);
CREATE INDEX current_records_note ON current_records (note_id);
CREATE INDEX current_records_received ON current_records (received);
CREATE INDEX current_questions_key ON current_questions (message_key);
CREATE VIEW live_entries AS
SELECT e.* FROM entries e
WHERE e.act <> 'undo' AND NOT EXISTS (SELECT 1 FROM entries u WHERE u.undoes = e.seq);
CREATE VIEW live_readings AS
SELECT * FROM (
  SELECT n.id AS note_id, (
    SELECT r.id FROM readings r JOIN live_entries e ON e.seq = r.entry
    WHERE r.note_id = n.id ORDER BY r.entry DESC LIMIT 1
  ) AS reading
  FROM notes n
  WHERE EXISTS (SELECT 1 FROM live_entries t WHERE t.note_id = n.id AND t.act = 'take')
) WHERE reading IS NOT NULL;
CREATE VIEW live_messages AS
SELECT m.*, c.note_id FROM messages m
JOIN current_readings c ON c.reading = m.reading
WHERE NOT EXISTS (
  SELECT 1 FROM messages o JOIN current_readings oc ON oc.reading = o.reading
  WHERE o.key = m.key AND (o.ordinal > m.ordinal OR (o.ordinal = m.ordinal AND oc.note_id < c.note_id))
);
CREATE VIEW live_verdicts AS
SELECT e.target AS record_id, e.seq, e.act,
  json_extract(e.data, '$.kind') AS kind, json_extract(e.data, '$.slots') AS slots
FROM live_entries e
WHERE e.act IN ('fix', 'reject', 'keep') AND NOT EXISTS (
  SELECT 1 FROM live_entries o WHERE o.target = e.target AND o.act IN ('fix', 'reject', 'keep') AND o.seq > e.seq
);
CREATE VIEW read_records AS
SELECT r.id, m.key AS message_key, m.note_id, m.received, m.sender,
  coalesce(v.kind, r.kind) AS kind, coalesce(v.slots, r.slots) AS slots, v.seq AS fixed_by
FROM live_messages m
JOIN records r ON r.reading = m.reading AND r.message = m.ordinal
LEFT JOIN live_verdicts v ON v.record_id = r.id
WHERE v.act IS NOT 'reject';
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
DELETE FROM "sqlite_sequence";
INSERT INTO "sqlite_sequence" VALUES('entries',9);
COMMIT;
