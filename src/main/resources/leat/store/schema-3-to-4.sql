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
SELECT i.number, i.machine, i.by_whom, o.body, i.left_us, i.taken_us, i.taken_seq,
       iif(i.refused IS NULL, NULL, json_object('kind', 'as-told', 'words', {text i.refused}))
FROM old_instruction i JOIN ordered o ON o.origin = 'instruction' AND o.a = i.number
WHERE o.body IS NOT NULL;

CREATE TEMP TABLE absence_words (said TEXT PRIMARY KEY, word TEXT);

INSERT INTO absence_words VALUES
    ('not measured at that time', 'not-measured-then'),
    ('not looked at', 'not-looked-at'),
    ('not both gauges can be read', 'not-both-gauges'),
    ('the pressure did not rise to a level', 'no-level'),
    ('cut short', 'cut-short'),
    ('no readings', 'no-readings'),
    ('too few readings', 'too-few-readings'),
    ('no reading before the start', 'nothing-before-start'),
    ('no reading at the top', 'no-reading-at-top'),
    ('the inlet pressure is too low to divide by', 'inlet-too-low'),
    ('the inlet pressure is too low to double', 'inlet-too-low-to-double'),
    ('twice the inlet pressure was not reached', 'not-doubled'),
    ('no run signal is wired', 'no-run-signal'),
    ('the pressure did not leave its base', 'did-not-leave-base'),
    ('the pressure moved before the run signal', 'moved-before-signal'),
    ('too few readings for a mean', 'too-few-for-mean'),
    ('the pressure stands still at the crossing', 'stands-still'),
    ('the pressure changed by less than 10 psi', 'changed-too-little'),
    ('the climb is not wholly on record', 'not-wholly-on-record'),
    ('readings are missing inside the rise', 'gap-in-rise'),
    ('sampled too slowly for so fast a rise', 'too-slow-for-rise'),
    ('the climb began above the pressure', 'began-above'),
    ('the pressure was not reached', 'not-reached'),
    ('the climb did not go above its top', 'no-overshoot'),
    ('sampled too slowly for the crest of so fast a rise', 'too-slow-for-crest'),
    ('noise is wider than the band to settle in', 'noise-wider-than-band'),
    ('did not settle on record', 'did-not-settle'),
    ('a swing ends at the edge of the band', 'swing-at-edge'),
    ('did not stay at its level for long enough on record', 'level-too-short'),
    ('the level is known no better than the band is wide', 'level-unsure'),
    ('no strokes are seen', 'no-strokes-seen'),
    ('too short after the climb', 'too-short-after-climb'),
    ('the strokes began before the climb was over', 'strokes-in-climb'),
    ('no reading in the state', 'no-reading-in-state'),
    ('too short for three strokes', 'too-short-for-strokes'),
    ('sampled too slowly for strokes', 'too-slow-for-strokes'),
    ('no strokes above the noise', 'no-strokes'),
    ('too short for the wander', 'too-short-for-wander'),
    ('readings are missing for the wander', 'gap-in-wander'),
    ('too short for the mean of 1.5 s and a stroke', 'too-short-for-mean'),
    ('readings are missing among the strokes', 'gap-among-strokes'),
    ('steady for less than 10 s', 'steady-too-short'),
    ('sampled too slowly to see strokes', 'too-slow-to-see-strokes'),
    ('the stop was not seen', 'stop-not-seen'),
    ('no reading before the stop', 'nothing-before-stop'),
    ('it ran at too low a pressure to fall from', 'too-low-to-fall'),
    ('the pressure did not fall below 40 % of what it ran at', 'did-not-fall'),
    ('readings are missing inside the fall', 'gap-in-fall'),
    ('from the inlet pressure on it is a straight ramp', 'straight-ramp'),
    ('from the inlet pressure on it gets ever faster', 'ever-faster'),
    ('it does not level off as such a curve does before the strokes begin or the readings end',
        'not-levelled'),
    ('the pressure rose by less than 10 psi', 'rose-too-little'),
    ('fewer than 6 readings', 'fewer-than-six'),
    ('fewer than 7 readings', 'fewer-than-seven'),
    ('the readings do not tell the damping', 'damping-untold'),
    ('an overshoot is not certain', 'overshoot-unsure'),
    ('a first-order climb tells all there is', 'first-order-is-enough'),
    ('sampled fast enough to be read off the curve', 'read-off-the-curve'),
    ('the rise has not the shape that would let its duration be told',
        'shape-unfit');

CREATE TEMP TABLE climb_words (said TEXT PRIMARY KEY, word TEXT);

INSERT INTO climb_words VALUES
    ('Rise and start to 90 % are from a fitted first-order curve: the readings are too far apart to read them off.',
        'from-curve'),
    ('The rise is not one smooth climb: the pressure swings about it.', 'swings'),
    ('The rise is two climbs, one after the other: a fill, and then the boost.', 'two-climbs'),
    ('The rise has not the shape of a first-order climb; read its fit with care.', 'other-shape');

CREATE TEMP TABLE reason_words (said TEXT PRIMARY KEY, word TEXT);

INSERT INTO reason_words VALUES
    ('it is graver than when it was shelved', 'graver'),
    ('its time was over', 'time-over'),
    ('the clock was set back', 'clock-set-back'),
    ('its longest time is over, nobody has ended it', 'nobody-ended-it'),
    ('leat started without its past and judges afresh', 'without-past');

CREATE TEMP TABLE phase_words (said TEXT PRIMARY KEY, word TEXT);

INSERT INTO phase_words VALUES
    ('the boosted pressure left its base', 'left-base'),
    ('the inlet was sucked empty', 'inlet-sucked-empty'),
    ('the boosted pressure climbs again', 'climbs-again'),
    ('the run signal came on', 'run-signal-on'),
    ('the run signal went off', 'run-signal-off'),
    ('the boosted pressure has settled', 'settled'),
    ('the time for the climb is over', 'climb-time-over'),
    ('the pressure broke down while it climbed', 'broke-down-climbing'),
    ('the boosted pressure broke down', 'broke-down'),
    ('the climb came to nothing', 'came-to-nothing'),
    ('the climb ended below the inlet pressure: no start', 'ended-below-inlet'),
    ('no boosted pressure is left', 'none-left'),
    ('the boosted pressure dies away', 'dies-away'),
    ('the boosted pressure is gone', 'gone'),
    ('the boosted pressure no longer falls', 'falls-no-more'),
    ('a minute after the stop', 'minute-after-stop'),
    ('no usable reading of both pressures', 'no-sight'),
    ('inlet is lost', 'inlet-lost'),
    ('boosted is lost', 'boosted-lost'),
    ('the clock was set', 'clock-set'),
    ('seen again while running', 'seen-running'),
    ('seen again at rest', 'seen-at-rest');

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, at_us, 'phase-changed', config_hash, json_object('change', json_object(
    'from', from_phase, 'to', to_phase, 'at_us', at_us, 'reason', w.word))
FROM phase_change JOIN phase_words w ON w.said = reason ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT machine, seq, nth, measured_us, 'startup-measured', config_hash, json_object(
    'startup', json_object('started_at_us', started_us, 'measured_at_us', measured_us,
        'figures', json((SELECT json_group_object(measurand, json(CASE
                WHEN value IS NULL THEN {absence absent}
                WHEN uncertainty IS NULL THEN json_array({real value})
                ELSE json_array({real value}, {real uncertainty}) END))
            FROM startup_figure f
            WHERE f.machine = s.machine AND f.seq = s.seq AND f.nth = s.nth)),
        'remarks', json((SELECT json_group_array(json(iif(w.word IS NULL,
                json_object('kind', 'no-curve',
                    'because', json({absence substr(r.value, 38, length(r.value) - 38)})),
                json_object('kind', w.word))))
            FROM json_each(iif(remarks = '', '[]', '[' || replace(
                json_quote(replace(remarks, char(10), char(31))), '\u001f', '","') || ']')) r
            LEFT JOIN climb_words w ON w.said = r.value)),
        'risen', json(iif(risen, 'true', 'false'))),
    'verdict', json_object('outcome', verdict, 'remarks', json_array(json_object('kind', 'reported',
        'about', {text replace(note, 'not judged: ', '')}))))
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
        'shelved_until_us', shelved_until_us, 'why', iif(w.word IS NULL, {text why}, NULL),
        'reason', w.word)))
FROM old_alarm_event LEFT JOIN reason_words w ON w.said = why ORDER BY machine, seq, nth;

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
    'by', {text by_whom}, 'why', iif(w.word IS NULL, {text why}, NULL), 'reason', w.word))
FROM service LEFT JOIN reason_words w ON w.said = why ORDER BY machine, seq, nth;

INSERT INTO outcome (machine, seq, nth, at_us, kind, config, body)
SELECT r.machine, r.seq, r.nth, r.at_us, 'instruction-refused', r.config_hash, json_object(
    'instruction', json_object('at_us', r.at_us, 'by', {text r.by_whom}, 'order', json(o.body)),
    'reason', json_object('kind', 'as-told', 'words', {text r.reason}))
FROM refusal r
JOIN ordered o ON o.origin = 'refusal' AND o.a = r.machine AND o.b = r.seq AND o.c = r.nth
WHERE o.body IS NOT NULL ORDER BY r.machine, r.seq, r.nth;

INSERT INTO carried SELECT kind || ' taken over', count(*) FROM outcome GROUP BY kind;

DROP TABLE asked;
DROP TABLE phase_words;
DROP TABLE reason_words;
DROP TABLE absence_words;
DROP TABLE climb_words;
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
