-- Search over the notes' words and over the records made of them, and views that read well in any SQLite tool.

CREATE VIRTUAL TABLE note_words USING fts5 (words, facts, tokenize = "unicode61 remove_diacritics 2");

CREATE VIEW mite_checks AS
SELECT coalesce(slots ->> '$.on', substr(received, 1, 10)) AS day, slots ->> '$.yard' AS yard,
  (SELECT group_concat(value, ', ') FROM json_each(slots, '$.colonies')) AS colonies,
  slots ->> '$.method' AS method, slots ->> '$.mites' AS mites, slots ->> '$.bees' AS bees_in_sample,
  slots ->> '$.per_100' AS mites_per_100_bees, slots ->> '$.board_days' AS board_days,
  coalesce(slots ->> '$.state', 'done') AS state, coalesce(slots ->> '$.by', sender) AS by_whom, id AS record_id, note_id
FROM current_records WHERE kind = 'mite_check' ORDER BY day, yard, colonies;

CREATE VIEW treatments AS
SELECT coalesce(slots ->> '$.on', CASE WHEN slots ->> '$.state' IN ('planned', 'conditional') THEN NULL
    ELSE substr(received, 1, 10) END) AS day, slots ->> '$.yard' AS yard,
  CASE WHEN slots ->> '$.every_colony' THEN 'all' ELSE
    (SELECT group_concat(value, ', ') FROM json_each(slots, '$.colonies')) END AS colonies,
  (SELECT group_concat(value, ', ') FROM json_each(slots, '$.except_colonies')) AS except_colonies,
  slots ->> '$.colony_count' AS colony_count, slots ->> '$.step' AS step, slots ->> '$.agent' AS agent,
  slots ->> '$.form' AS form, slots ->> '$.product' AS product, slots ->> '$.amount' AS amount, slots ->> '$.unit' AS unit,
  slots ->> '$.round' AS round, coalesce(slots ->> '$.state', 'done') AS state,
  coalesce(slots ->> '$.by', sender) AS by_whom, id AS record_id, note_id
FROM current_records WHERE kind = 'treatment' ORDER BY day, yard, colonies;

-- What was promised and what was asked; whether a promise was kept is the schedule's to say, not this file's.
CREATE VIEW open_items AS
SELECT slots ->> '$.on' AS day, 'planned' AS what, kind, slots ->> '$.yard' AS yard,
  (SELECT group_concat(value, ', ') FROM json_each(slots, '$.colonies')) AS colonies,
  coalesce(slots ->> '$.text', '') AS words, substr(received, 1, 10) AS said, id
FROM current_records WHERE slots ->> '$.state' = 'planned'
UNION ALL
SELECT NULL, 'question', topic, NULL, NULL, ask, min(substr(received, 1, 10)), id FROM current_questions GROUP BY id
ORDER BY said, id;

-- Which records of today a digest can do without: 0 new, 1 looked at and needed, 2 settled. It only saves time: a digest
-- is the same without it. `settling` says for which day, roster and rules it holds, and how many were needed then.
ALTER TABLE current_records ADD COLUMN settled INTEGER NOT NULL DEFAULT 0 CHECK (settled IN (0, 1, 2));
CREATE INDEX current_records_needed ON current_records (settled, received) WHERE settled < 2;
CREATE TABLE settling (
  one INTEGER PRIMARY KEY CHECK (one = 1),
  day TEXT NOT NULL,
  rules TEXT NOT NULL,
  needed INTEGER NOT NULL
) STRICT;
