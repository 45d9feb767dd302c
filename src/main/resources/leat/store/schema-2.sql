-- Schema 2: a startup's numbers become rows of their own, one per measurand, so that a new one
-- needs no new column; every number carries its uncertainty (95 %), or NULL where it is not known.

DROP VIEW startups;

CREATE TABLE startup_figure (
    machine     INTEGER NOT NULL,
    seq         INTEGER NOT NULL,
    nth         INTEGER NOT NULL,
    measurand   TEXT NOT NULL,
    value       ANY,
    uncertainty ANY,
    absent      ANY,
    PRIMARY KEY (machine, seq, nth, measurand),
    FOREIGN KEY (machine, seq, nth) REFERENCES startup (machine, seq, nth) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE INDEX startup_figure_value ON startup_figure (measurand, value);

INSERT INTO startup_figure (machine, seq, nth, measurand, value, absent)
SELECT machine, seq, nth, 'base_psi', base_psi, base_psi_absent FROM startup
UNION ALL
SELECT machine, seq, nth, 'top_psi', top_psi, top_psi_absent FROM startup
UNION ALL
SELECT machine, seq, nth, 'inlet_rest_psi', inlet_rest_psi, inlet_rest_psi_absent FROM startup
UNION ALL
SELECT machine, seq, nth, 'inlet_psi', inlet_running_psi, inlet_running_psi_absent FROM startup
UNION ALL
SELECT machine, seq, nth, 'dead_time_s', dead_seconds, dead_seconds_absent FROM startup
UNION ALL
SELECT machine, seq, nth, 'rise_s', rise_seconds, rise_seconds_absent FROM startup
UNION ALL
SELECT machine, seq, nth, 'rise_from_inlet_s', rise_from_inlet_seconds,
       rise_from_inlet_seconds_absent
FROM startup
UNION ALL
SELECT machine, seq, nth, 'start_to_90_s', start_to_90_seconds, start_to_90_seconds_absent
FROM startup
UNION ALL
SELECT machine, seq, nth, 'overshoot_pct', overshoot_percent, overshoot_percent_absent
FROM startup
UNION ALL
SELECT machine, seq, nth, 'ratio', ratio, ratio_absent FROM startup
UNION ALL
SELECT machine, seq, nth, 'time_to_double_s', double_seconds, double_seconds_absent FROM startup;

ALTER TABLE startup DROP COLUMN base_psi;
ALTER TABLE startup DROP COLUMN base_psi_absent;
ALTER TABLE startup DROP COLUMN top_psi;
ALTER TABLE startup DROP COLUMN top_psi_absent;
ALTER TABLE startup DROP COLUMN inlet_rest_psi;
ALTER TABLE startup DROP COLUMN inlet_rest_psi_absent;
ALTER TABLE startup DROP COLUMN inlet_running_psi;
ALTER TABLE startup DROP COLUMN inlet_running_psi_absent;
ALTER TABLE startup DROP COLUMN dead_seconds;
ALTER TABLE startup DROP COLUMN dead_seconds_absent;
ALTER TABLE startup DROP COLUMN rise_seconds;
ALTER TABLE startup DROP COLUMN rise_seconds_absent;
ALTER TABLE startup DROP COLUMN rise_from_inlet_seconds;
ALTER TABLE startup DROP COLUMN rise_from_inlet_seconds_absent;
ALTER TABLE startup DROP COLUMN start_to_90_seconds;
ALTER TABLE startup DROP COLUMN start_to_90_seconds_absent;
ALTER TABLE startup DROP COLUMN overshoot_percent;
ALTER TABLE startup DROP COLUMN overshoot_percent_absent;
ALTER TABLE startup DROP COLUMN ratio;
ALTER TABLE startup DROP COLUMN ratio_absent;
ALTER TABLE startup DROP COLUMN double_seconds;
ALTER TABLE startup DROP COLUMN double_seconds_absent;

-- What a person should know of how it was measured, one sentence a line.
ALTER TABLE startup ADD COLUMN remarks ANY NOT NULL DEFAULT '';

ALTER TABLE steady ADD COLUMN inlet_psi_uncertainty ANY;
ALTER TABLE steady ADD COLUMN boosted_psi_uncertainty ANY;
ALTER TABLE steady ADD COLUMN boosted_low_psi_uncertainty ANY;
ALTER TABLE steady ADD COLUMN boosted_high_psi_uncertainty ANY;
ALTER TABLE steady ADD COLUMN ratio_uncertainty ANY;
ALTER TABLE steady ADD COLUMN ripple_psi ANY;
ALTER TABLE steady ADD COLUMN ripple_psi_uncertainty ANY;
ALTER TABLE steady ADD COLUMN ripple_psi_absent ANY DEFAULT 'not measured at that time';
ALTER TABLE steady ADD COLUMN wander_psi ANY;
ALTER TABLE steady ADD COLUMN wander_psi_uncertainty ANY;
ALTER TABLE steady ADD COLUMN wander_psi_absent ANY DEFAULT 'not measured at that time';

ALTER TABLE rest ADD COLUMN boosted_psi_uncertainty ANY;
ALTER TABLE rest ADD COLUMN inlet_psi_uncertainty ANY;
ALTER TABLE rest ADD COLUMN fall_seconds ANY;
ALTER TABLE rest ADD COLUMN fall_seconds_uncertainty ANY;
ALTER TABLE rest ADD COLUMN fall_seconds_absent ANY DEFAULT 'not measured at that time';

ALTER TABLE alarm_event ADD COLUMN inlet_psi_uncertainty ANY;
ALTER TABLE alarm_event ADD COLUMN boosted_psi_uncertainty ANY;

-- Views for people.

CREATE VIEW startup_figures AS
SELECT m.name AS machine, {utc s.started_us} AS started, f.measurand, f.value, f.uncertainty,
       f.absent
FROM startup_figure f
JOIN startup s ON s.machine = f.machine AND s.seq = f.seq AND s.nth = f.nth
JOIN machine m ON m.id = f.machine;

CREATE VIEW startups AS
SELECT m.name AS machine, {utc s.started_us} AS started, s.verdict, s.note,
       max(f.value) FILTER (WHERE f.measurand = 'base_psi') AS base_psi,
       max(f.value) FILTER (WHERE f.measurand = 'top_psi') AS top_psi,
       max(f.value) FILTER (WHERE f.measurand = 'inlet_rest_psi') AS inlet_rest_psi,
       max(f.value) FILTER (WHERE f.measurand = 'inlet_psi') AS inlet_psi,
       max(f.value) FILTER (WHERE f.measurand = 'ratio') AS ratio,
       max(f.value) FILTER (WHERE f.measurand = 'dead_time_s') AS dead_time_s,
       max(f.value) FILTER (WHERE f.measurand = 'rise_s') AS rise_s,
       max(f.value) FILTER (WHERE f.measurand = 'start_to_90_s') AS start_to_90_s,
       max(f.value) FILTER (WHERE f.measurand = 'overshoot_pct') AS overshoot_pct,
       s.config_hash
FROM startup s
JOIN machine m ON m.id = s.machine
LEFT JOIN startup_figure f ON f.machine = s.machine AND f.seq = s.seq AND f.nth = s.nth
GROUP BY s.machine, s.seq, s.nth;

-- What is usual for a machine. It holds until a row of learning begins anew (good = 0).

CREATE TABLE baseline (
    machine     INTEGER NOT NULL REFERENCES machine (id),
    seq         INTEGER NOT NULL,
    nth         INTEGER NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash),
    learned_us  INTEGER NOT NULL,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

-- The starts that it is made of, in their order; started_us as in startup.
CREATE TABLE baseline_start (
    machine    INTEGER NOT NULL,
    seq        INTEGER NOT NULL,
    nth        INTEGER NOT NULL,
    place      INTEGER NOT NULL,
    started_us INTEGER NOT NULL,
    PRIMARY KEY (machine, seq, nth, place),
    FOREIGN KEY (machine, seq, nth) REFERENCES baseline (machine, seq, nth) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

CREATE TABLE baseline_figure (
    machine   INTEGER NOT NULL,
    seq       INTEGER NOT NULL,
    nth       INTEGER NOT NULL,
    measurand TEXT NOT NULL,
    median    ANY NOT NULL,
    spread    ANY NOT NULL,
    starts    INTEGER NOT NULL,
    PRIMARY KEY (machine, seq, nth, measurand),
    FOREIGN KEY (machine, seq, nth) REFERENCES baseline (machine, seq, nth) ON DELETE CASCADE
) STRICT, WITHOUT ROWID;

-- How far a baseline has been learned: a row when it begins and one for each good start.
CREATE TABLE learning (
    machine     INTEGER NOT NULL REFERENCES machine (id),
    seq         INTEGER NOT NULL,
    nth         INTEGER NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash),
    at_us       INTEGER NOT NULL,
    good        INTEGER NOT NULL,
    wanted      INTEGER NOT NULL,
    cause       TEXT NOT NULL,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

CREATE VIEW baselines AS
SELECT m.name AS machine, {utc b.learned_us} AS learned, f.measurand, f.median, f.spread, f.starts
FROM baseline b
JOIN machine m ON m.id = b.machine
JOIN baseline_figure f ON f.machine = b.machine AND f.seq = b.seq AND f.nth = b.nth;

CREATE VIEW learnings AS
SELECT m.name AS machine, {utc l.at_us} AS utc, l.good, l.wanted, l.cause
FROM learning l JOIN machine m ON m.id = l.machine;

-- The outbox holds all that a route needs, and tells what was given up and why.

ALTER TABLE outbox ADD COLUMN kind TEXT NOT NULL DEFAULT 'call';
ALTER TABLE outbox ADD COLUMN event ANY NOT NULL DEFAULT '';
ALTER TABLE outbox ADD COLUMN subject ANY NOT NULL DEFAULT '';
ALTER TABLE outbox ADD COLUMN given_up_us INTEGER;
ALTER TABLE outbox ADD COLUMN given_up_because ANY;

UPDATE outbox SET event = coalesce(json_extract(json, '$.event'), ''),
    subject = coalesce(json_extract(json, '$.subject'), '')
WHERE json_valid(json);

UPDATE outbox SET kind = 'news' WHERE event NOT IN ('raised', 'worsened');

DROP INDEX outbox_due;
CREATE INDEX outbox_due ON outbox (route, number)
WHERE delivered_us IS NULL AND given_up_us IS NULL;

DROP VIEW messages;
CREATE VIEW messages AS
SELECT o.number, o.route, o.machine, o.grade, {utc o.at_us} AS utc,
       {utc o.delivered_us} AS delivered, o.attempts, {utc o.given_up_us} AS given_up,
       o.given_up_because, o.kind, o.event, o.alarm_id, o.topic, o.subject, o.text
FROM outbox o;

-- The whole life of an alarm. own_state: the state underneath a hold. count: how often it came.
ALTER TABLE alarm_event ADD COLUMN own_state TEXT;
UPDATE alarm_event SET own_state = to_state;
ALTER TABLE alarm_event ADD COLUMN count INTEGER NOT NULL DEFAULT 1;
ALTER TABLE alarm_event ADD COLUMN chattering INTEGER NOT NULL DEFAULT 0;
ALTER TABLE alarm_event ADD COLUMN shelved_until_us INTEGER;
ALTER TABLE alarm_event ADD COLUMN why ANY NOT NULL DEFAULT '';
CREATE INDEX alarm_event_time ON alarm_event (at_us);

-- When somebody worked on a machine: begins, goes on (is_on again) and ends.
CREATE TABLE service (
    machine     INTEGER NOT NULL REFERENCES machine (id),
    seq         INTEGER NOT NULL,
    nth         INTEGER NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash),
    at_us       INTEGER NOT NULL,
    is_on       INTEGER NOT NULL,
    until_us    INTEGER NOT NULL,
    by_whom     ANY NOT NULL,
    why         ANY NOT NULL,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

DROP VIEW alarm_history;

CREATE VIEW alarm_history AS
SELECT a.number, m.name AS machine, {utc e.at_us} AS utc, e.event, e.from_state, e.to_state,
       e.own_state, e.count, e.chattering, {utc e.shelved_until_us} AS shelved_until, e.why,
       e.grade, e.rule, e.channel, e.measured, e.sense, e.limit_value, e.quantity,
       e.inlet_psi, e.boosted_psi, e.by_whom, e.detail, e.revision
FROM alarm_event e
JOIN alarm a ON a.id = e.alarm_id
JOIN machine m ON m.id = e.machine;

CREATE VIEW services AS
SELECT m.name AS machine, {utc s.at_us} AS utc, CASE s.is_on WHEN 1 THEN 'on' ELSE 'off' END AS word,
       {utc s.until_us} AS until, s.by_whom, s.why
FROM service s JOIN machine m ON m.id = s.machine;

-- In a flood a message is not told itself: folded_into names the one of its route that stands for it.
ALTER TABLE outbox ADD COLUMN folded_into ANY;
CREATE INDEX outbox_folded ON outbox (folded_into) WHERE folded_into IS NOT NULL;
CREATE INDEX outbox_time ON outbox (at_us);

DROP INDEX outbox_due;
CREATE INDEX outbox_due ON outbox (route, number)
WHERE delivered_us IS NULL AND given_up_us IS NULL AND folded_into IS NULL;

DROP VIEW messages;
CREATE VIEW messages AS
SELECT o.number, o.route, o.machine, o.grade, {utc o.at_us} AS utc,
       {utc o.delivered_us} AS delivered, o.attempts, {utc o.given_up_us} AS given_up,
       o.given_up_because, o.folded_into, o.kind, o.event, o.alarm_id, o.topic, o.subject, o.text
FROM outbox o;
