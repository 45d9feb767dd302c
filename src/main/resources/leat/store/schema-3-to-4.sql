-- From version 3 to 4: what was said becomes rows of outcome, and what was asked becomes JSON.

DROP VIEW sample;
DROP VIEW happening;
DROP VIEW phases;
DROP VIEW startups;
DROP VIEW startup_figures;
DROP VIEW steady_spells;
DROP VIEW rest_spells;
DROP VIEW alarms;
DROP VIEW alarm_history;
DROP VIEW baselines;
DROP VIEW learnings;
DROP VIEW services;
DROP VIEW journal_entries;
DROP VIEW messages;
DROP VIEW runs;
DROP INDEX startup_time;
DROP INDEX alarm_event_time;
DROP INDEX instruction_waiting;
ALTER TABLE startup RENAME TO old_startup;
ALTER TABLE alarm_event RENAME TO old_alarm_event;
ALTER TABLE journal RENAME TO old_journal;
ALTER TABLE instruction RENAME TO old_instruction;

{fresh}

-- Orders. One with a reason was kept as "until length alarm reason", the length being that of the
-- alarm's id.
CREATE TEMP TABLE asked AS
SELECT 'input' AS origin, machine AS a, seq AS b, 0 AS c, detail,
       CASE kind WHEN 120 THEN 'acknowledge' WHEN 121 THEN 'serviced' WHEN 122 THEN 'note'
           WHEN 123 THEN 'learn' WHEN 130 THEN 'reset' WHEN 131 THEN 'shelve'
           WHEN 132 THEN 'unshelve' WHEN 133 THEN 'remove' WHEN 134 THEN 'restore'
           WHEN 135 THEN 'service-on' WHEN 136 THEN 'service-off' END AS word
FROM input WHERE kind BETWEEN 120 AND 136
UNION ALL SELECT 'refusal', machine, seq, nth, detail, kind FROM refusal
UNION ALL SELECT 'instruction', number, 0, 0, detail, kind FROM old_instruction
UNION ALL SELECT 'journal', machine, seq, 0, text, entry FROM old_journal;

CREATE TEMP TABLE ordered AS
SELECT origin, a, b, c,
       CASE WHEN word IN ('acknowledge', 'reset', 'unshelve', 'restore')
           THEN json_object('kind', word, 'alarm_id', {text detail})
           WHEN word IN ('shelve', 'remove') AND typeof(detail) = 'blob' THEN NULL
           WHEN word = 'shelve' THEN json_object('kind', word,
               'alarm_id', substr(tail, 1, idLength), 'until_us', untilMicros,
               'why', substr(tail, idLength + 2))
           WHEN word = 'remove' THEN json_object('kind', word,
               'alarm_id', substr(tail, 1, idLength), 'why', substr(tail, idLength + 2))
           ELSE json_object('kind', 'journal', 'entry', word, 'text', {text detail})
       END AS body
FROM (SELECT *, CAST(substr(rest, 1, instr(rest, ' ') - 1) AS INTEGER) AS idLength,
             substr(rest, instr(rest, ' ') + 1) AS tail
      FROM (SELECT *, CAST(substr(detail, 1, instr(detail, ' ') - 1) AS INTEGER) AS untilMicros,
                   substr(detail, instr(detail, ' ') + 1) AS rest
            FROM asked));

CREATE INDEX temp.ordered_key ON ordered (origin, a, b, c);

CREATE TEMP TABLE carried (what TEXT, rows INTEGER);

INSERT INTO carried SELECT 'instructions lost, their reason is no Unicode', count(*) FROM ordered
WHERE body IS NULL;

DELETE FROM input WHERE kind BETWEEN 120 AND 136 AND (machine, seq) IN
    (SELECT a, b FROM ordered WHERE origin = 'input' AND body IS NULL);

UPDATE input SET kind = 140, detail =
    (SELECT body FROM ordered WHERE origin = 'input' AND a = machine AND b = seq)
WHERE kind BETWEEN 120 AND 136;

DELETE FROM input_kind WHERE kind BETWEEN 120 AND 136;

INSERT INTO journal (machine, seq, at_us, by_whom, body)
SELECT j.machine, j.seq, j.at_us, j.by_whom, o.body
FROM old_journal j JOIN ordered o ON o.origin = 'journal' AND o.a = j.machine AND o.b = j.seq;

INSERT INTO instruction (number, machine, by_whom, body, left_us, taken_us, taken_seq, refused)
SELECT i.number, i.machine, i.by_whom, o.body, i.left_us, i.taken_us, i.taken_seq, i.refused
FROM old_instruction i JOIN ordered o ON o.origin = 'instruction' AND o.a = i.number
WHERE o.body IS NOT NULL;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, at_us, 'phase-changed', config_hash, json_object('change', json_object(
    'from', from_phase, 'to', to_phase, 'at_us', at_us, 'reason', {text reason}))
FROM phase_change ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, measured_us, 'startup-measured', config_hash, json_object(
    'startup', json_object('started_at_us', started_us, 'measured_at_us', measured_us,
        'figures', json((SELECT json_group_object(measurand, json(CASE
                WHEN value IS NULL THEN {text absent}
                WHEN uncertainty IS NULL THEN json_array({real value})
                ELSE json_array({real value}, {real uncertainty}) END))
            FROM startup_figure f
            WHERE f.machine = s.machine AND f.seq = s.seq AND f.nth = s.nth)),
        'remarks', json(iif(remarks = '', '[]', '[' || replace(
            json_quote(replace(remarks, char(10), char(31))), '\u001f', '","') || ']')),
        'risen', json(iif(risen, 'true', 'false'))),
    'verdict', json_object('outcome', verdict, 'note', {text note}))
FROM old_startup s ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, to_us, 'steady-measured', config_hash, json_object('spell', json_object(
    'from_us', from_us, 'to_us', to_us, 'samples', samples, 'inlet_psi', {figure inlet_psi},
    'boosted_psi', {figure boosted_psi}, 'boosted_low_psi', {figure boosted_low_psi},
    'boosted_high_psi', {figure boosted_high_psi}, 'ratio', {figure ratio},
    'ripple_psi', {figure ripple_psi}, 'wander_psi', {figure wander_psi}))
FROM steady ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, measured_us, 'rest-measured', config_hash, json_object('spell', json_object(
    'stopped_at_us', stopped_us, 'measured_at_us', measured_us,
    'boosted_psi', {figure boosted_psi}, 'inlet_psi', {figure inlet_psi},
    'fall_seconds', {figure fall_seconds}, 'settled', json(iif(settled, 'true', 'false'))))
FROM rest ORDER BY machine, seq, nth;

-- The remarks of a finding stood one in a line: "kind number number : about".
INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, at_us, 'alarm-changed', config_hash, json_object('change', json_object(
    'alarm_id', {text alarm_id}, 'revision', revision, 'event', event, 'from', from_state,
    'to', to_state, 'at_us', at_us, 'raised_at_us', raised_us,
    'finding', json_object('rule', rule, 'channel', channel, 'grade', grade, 'since_us', since_us,
        'at_us', found_us, 'quantity', quantity, 'measured', {real measured},
        'limit', {real limit_value}, 'sense', sense, 'inlet_psi', {figure inlet_psi},
        'boosted_psi', {figure boosted_psi},
        'remarks', json((
            WITH RECURSIVE line(rest, said) AS (
                SELECT detail || char(10), ''
                UNION ALL SELECT substr(rest, instr(rest, char(10)) + 1),
                    substr(rest, 1, instr(rest, char(10)) - 1) FROM line WHERE rest <> ''),
            parted(head, about, said) AS (
                SELECT iif(instr(said, ' : '), substr(said, 1, instr(said, ' : ') - 1), said),
                    iif(instr(said, ' : '), substr(said, instr(said, ' : ') + 3), ''), said
                FROM line WHERE said <> '')
            SELECT json_group_array(CASE
                WHEN iif(instr(head, ' '), substr(head, 1, instr(head, ' ') - 1), head) IN
                    ('reported', 'quality', 'ratio-now', 'rise-now', 'fast-enough', 'own-rise',
                     'not-risen', 'risen-late', 'no-valve-signal', 'no-run-signal', 'no-bleed',
                     'share-less', 'share-more', 'more', 'starts-running', 'learned-anew',
                     'as-usual', 'stands-still', 'no-present-time', 'afresh-after-service',
                     'afresh-without-past')
                THEN json_object(
                    'kind', iif(instr(head, ' '), substr(head, 1, instr(head, ' ') - 1), head),
                    'numbers', json(iif(instr(head, ' '),
                        '[' || replace(substr(head, instr(head, ' ') + 1), ' ', ',') || ']',
                        '[]')),
                    'about', about)
                ELSE json_object('kind', 'reported', 'about', said) END)
            FROM parted))),
    'by', {text by_whom},
    'notes', json_object('own', coalesce(own_state, to_state), 'count', count,
        'chattering', json(iif(chattering, 'true', 'false')),
        'shelved_until_us', shelved_until_us, 'why', {text why})))
FROM old_alarm_event ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, at_us, 'learning-progressed', config_hash, json_object('learning',
    json_object('at_us', at_us, 'good', good, 'wanted', wanted, 'cause', cause))
FROM learning ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, learned_us, 'baseline-learned', config_hash, json_object('baseline',
    json_object('learned_at_us', learned_us,
        'starts', json((SELECT json_group_array(started_us) FROM
            (SELECT started_us FROM baseline_start s
             WHERE s.machine = b.machine AND s.seq = b.seq AND s.nth = b.nth ORDER BY place))),
        'figures', json((SELECT json_group_object(measurand,
                json_object('median', {real median}, 'spread', {real spread}, 'count', starts))
            FROM baseline_figure f
            WHERE f.machine = b.machine AND f.seq = b.seq AND f.nth = b.nth))))
FROM baseline b ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, at_us, 'service-changed', config_hash, json_object('change', json_object(
    'at_us', at_us, 'on', json(iif(is_on, 'true', 'false')), 'until_us', until_us,
    'by', {text by_whom}, 'why', {text why}))
FROM service ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT r.machine, r.seq, r.nth, r.at_us, 'instruction-refused', r.config_hash, json_object(
    'instruction', json_object('at_us', r.at_us, 'by', {text r.by_whom}, 'order', json(o.body)),
    'reason', {text r.reason})
FROM refusal r
JOIN ordered o ON o.origin = 'refusal' AND o.a = r.machine AND o.b = r.seq AND o.c = r.nth
WHERE o.body IS NOT NULL ORDER BY r.machine, r.seq, r.nth;

INSERT INTO carried SELECT kind || ' taken over', count(*) FROM outcome GROUP BY kind;

DROP TABLE asked;
DROP TABLE ordered;
DROP TABLE phase_change;
DROP TABLE startup_figure;
DROP TABLE old_startup;
DROP TABLE steady;
DROP TABLE rest;
DROP TABLE old_alarm_event;
DROP TABLE refusal;
DROP TABLE old_journal;
DROP TABLE old_instruction;
DROP TABLE learning;
DROP TABLE baseline_start;
DROP TABLE baseline_figure;
DROP TABLE baseline;
DROP TABLE service;
