-- The store of leat, version 4.
-- Times end in _us: microseconds since 1970-01-01T00:00:00Z. Pressures are gauge psi.
-- Columns of type ANY hold a number whose every bit must survive (negative zero included), or
-- free text; a text that is no valid Unicode is kept as a blob of UTF-16BE.
-- A body is a record as JSON; a figure in it is [value] or [value, uncertainty], or the reason why
-- there is none: decision 0026.

CREATE TABLE IF NOT EXISTS config (
    hash          TEXT PRIMARY KEY,
    text          ANY NOT NULL,
    first_used_us INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE IF NOT EXISTS run (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    started_us  INTEGER NOT NULL,
    ended_us    INTEGER,
    version     TEXT NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash)
) STRICT;

-- samples: readings kept at present. Kept up to date by the writer, for a count without a scan.
CREATE TABLE IF NOT EXISTS machine (
    id      INTEGER PRIMARY KEY,
    name    ANY NOT NULL UNIQUE,
    samples INTEGER NOT NULL DEFAULT 0
) STRICT;

-- Words for codes. The writer fills them; they are here for people.
CREATE TABLE IF NOT EXISTS input_kind (
    kind    INTEGER PRIMARY KEY,
    word    TEXT NOT NULL,
    channel TEXT NOT NULL
) STRICT;

CREATE TABLE IF NOT EXISTS quality (
    code   INTEGER PRIMARY KEY,
    word   TEXT NOT NULL,
    trust  TEXT NOT NULL,
    reason TEXT NOT NULL
) STRICT;

-- Everything that a machine's watch was fed, in the order of feeding.
-- kind: see input_kind. value: a reading's number (NULL when bad), a clock step's former time.
-- detail: reason of a loss; an instruction's order as JSON, said by by_whom.
CREATE TABLE IF NOT EXISTS input (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    kind    INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    value   ANY,
    quality INTEGER,
    detail  ANY,
    by_whom ANY,
    PRIMARY KEY (machine, seq)
) STRICT, WITHOUT ROWID;

-- The sparse time index: one entry a second.
CREATE INDEX IF NOT EXISTS input_tick ON input (machine, at_us) WHERE kind = 100;

-- Everything that a machine's watch has said: nth to the input seq, judged under config.
-- kind: which record body is. A new kind of outcome needs nothing here but, for people, a view.
CREATE TABLE IF NOT EXISTS outcome (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    nth     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    kind    TEXT NOT NULL,
    config  TEXT NOT NULL REFERENCES config (hash),
    body    TEXT NOT NULL,
    UNIQUE (machine, seq, nth)
) STRICT;

CREATE INDEX IF NOT EXISTS outcome_kind ON outcome (kind, machine, seq, nth);

-- How each alarm stands. number is what people are shown and type; it is never used again.
CREATE TABLE IF NOT EXISTS alarm (
    number      INTEGER PRIMARY KEY AUTOINCREMENT,
    id          ANY NOT NULL UNIQUE,
    machine     INTEGER NOT NULL REFERENCES machine (id),
    config_hash TEXT NOT NULL REFERENCES config (hash),
    rule        TEXT NOT NULL,
    channel     TEXT NOT NULL,
    grade       TEXT NOT NULL,
    state       TEXT NOT NULL,
    revision    INTEGER NOT NULL,
    raised_us   INTEGER NOT NULL,
    changed_us  INTEGER NOT NULL
) STRICT;

CREATE INDEX IF NOT EXISTS alarm_standing ON alarm (number) WHERE state <> 'normal';

-- What people did to the machine; body is the order.
CREATE TABLE IF NOT EXISTS journal (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    by_whom ANY NOT NULL,
    body    TEXT NOT NULL,
    PRIMARY KEY (machine, seq)
) STRICT, WITHOUT ROWID;

-- Left by the command line, waiting until the daemon takes it up (taken_us, taken_seq); body is
-- the order.
CREATE TABLE IF NOT EXISTS instruction (
    number    INTEGER PRIMARY KEY AUTOINCREMENT,
    machine   ANY NOT NULL,
    by_whom   ANY NOT NULL,
    body      TEXT NOT NULL,
    left_us   INTEGER NOT NULL,
    taken_us  INTEGER,
    taken_seq INTEGER,
    refused   ANY
) STRICT;

CREATE INDEX IF NOT EXISTS instruction_waiting ON instruction (number) WHERE taken_us IS NULL;

-- Messages owed to somebody: committed with what they tell of, delivered after. In a flood a
-- message is not told itself: folded_into names the one of its route that stands for it.
CREATE TABLE IF NOT EXISTS outbox (
    number           INTEGER PRIMARY KEY AUTOINCREMENT,
    message_id       ANY NOT NULL,
    route            ANY NOT NULL,
    machine          ANY NOT NULL,
    alarm_id         ANY NOT NULL,
    grade            TEXT NOT NULL,
    at_us            INTEGER NOT NULL,
    topic            ANY NOT NULL,
    text             ANY NOT NULL,
    json             ANY NOT NULL,
    attempts         INTEGER NOT NULL DEFAULT 0,
    delivered_us     INTEGER,
    kind             TEXT NOT NULL DEFAULT 'call',
    event            ANY NOT NULL DEFAULT '',
    subject          ANY NOT NULL DEFAULT '',
    given_up_us      INTEGER,
    given_up_because ANY,
    folded_into      ANY,
    UNIQUE (message_id, route)
) STRICT;

CREATE INDEX IF NOT EXISTS outbox_alarm ON outbox (alarm_id);

CREATE INDEX IF NOT EXISTS outbox_folded ON outbox (folded_into) WHERE folded_into IS NOT NULL;

CREATE INDEX IF NOT EXISTS outbox_time ON outbox (at_us);

CREATE INDEX IF NOT EXISTS outbox_due ON outbox (route, number)
WHERE delivered_us IS NULL AND given_up_us IS NULL AND folded_into IS NULL;

-- The state of the fold that decides who is told when, as of the last commit that changed it.
CREATE TABLE IF NOT EXISTS annunciator (
    id    INTEGER PRIMARY KEY CHECK (id = 1),
    state BLOB NOT NULL
) STRICT;

-- The state of a watch after it took the input seq; the newest two of each machine.
CREATE TABLE IF NOT EXISTS snapshot (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    format  INTEGER NOT NULL,
    state   BLOB NOT NULL,
    PRIMARY KEY (machine, seq)
) STRICT;

-- Nonces of the signed instructions that came by MQTT, the newest thousand of each person, so that
-- none is followed twice, whatever happens to leat or to its clock in between.
CREATE TABLE IF NOT EXISTS nonce (
    person   TEXT NOT NULL,
    nonce    TEXT NOT NULL,
    signed_s INTEGER NOT NULL, -- when it was signed, by the sender's clock, seconds since 1970
    PRIMARY KEY (person, nonce)
) STRICT, WITHOUT ROWID;

CREATE INDEX IF NOT EXISTS nonce_age ON nonce (person, signed_s, nonce);

-- What a search for startups asks for comes from these, not from the bodies.
CREATE INDEX IF NOT EXISTS startup_newest ON outcome (body ->> '$.startup.started_at_us' DESC, machine, seq DESC,
    body ->> '$.verdict.outcome', nth) WHERE kind = 'startup-measured';

CREATE INDEX IF NOT EXISTS startup_slowest ON outcome (body ->> '$.verdict.outcome' = 'not-risen' DESC,
    body ->> '$.startup.figures.rise_s[0]' DESC, body ->> '$.startup.started_at_us' DESC,
    machine, seq, nth, body ->> '$.verdict.outcome') WHERE kind = 'startup-measured';

-- The whole history of each alarm.
CREATE VIEW IF NOT EXISTS alarm_event AS
SELECT machine, seq, nth, config AS config_hash, at_us,
       body ->> '$.change.alarm_id' AS alarm_id,
       body ->> '$.change.revision' AS revision,
       body ->> '$.change.event' AS event,
       body ->> '$.change.from' AS from_state,
       body ->> '$.change.to' AS to_state,
       body ->> '$.change.notes.own' AS own_state,
       body ->> '$.change.notes.count' AS count,
       body ->> '$.change.notes.chattering' AS chattering,
       body ->> '$.change.notes.shelved_until_us' AS shelved_until_us,
       coalesce(body ->> '$.change.notes.why', '') AS why,
       coalesce(body ->> '$.change.by', '') AS by_whom,
       body ->> '$.change.raised_at_us' AS raised_us,
       body ->> '$.change.finding.rule' AS rule,
       body ->> '$.change.finding.channel' AS channel,
       body ->> '$.change.finding.grade' AS grade,
       body ->> '$.change.finding.since_us' AS since_us,
       body ->> '$.change.finding.at_us' AS found_us,
       body ->> '$.change.finding.quantity' AS quantity,
       body ->> '$.change.finding.measured' AS measured,
       body ->> '$.change.finding.limit' AS limit_value,
       body ->> '$.change.finding.sense' AS sense,
       body ->> '$.change.finding.inlet_psi[0]' AS inlet_psi,
       body ->> '$.change.finding.boosted_psi[0]' AS boosted_psi,
       coalesce(body -> '$.change.finding.remarks', '[]') AS remarks,
       body
FROM outcome WHERE kind = 'alarm-changed';

CREATE UNIQUE INDEX IF NOT EXISTS alarm_event_revision
ON outcome (body ->> '$.change.alarm_id', body ->> '$.change.revision')
WHERE kind = 'alarm-changed';

CREATE INDEX IF NOT EXISTS alarm_event_time ON outcome (at_us) WHERE kind = 'alarm-changed';

-- Views for people.

CREATE VIEW IF NOT EXISTS sample AS
SELECT m.name AS machine, k.channel, {utc i.at_us} AS utc, i.value, q.word AS quality, q.reason,
       i.at_us, i.seq
FROM input i
JOIN machine m ON m.id = i.machine
JOIN input_kind k ON k.kind = i.kind
JOIN quality q ON q.code = i.quality
WHERE i.kind < 100;

CREATE VIEW IF NOT EXISTS happening AS
SELECT m.name AS machine, {utc i.at_us} AS utc, k.word AS kind, k.channel, i.detail, i.by_whom,
       i.at_us, i.seq
FROM input i
JOIN machine m ON m.id = i.machine
JOIN input_kind k ON k.kind = i.kind
WHERE i.kind > 100;

CREATE VIEW IF NOT EXISTS outcomes AS
SELECT m.name AS machine, o.seq, o.nth, {utc o.at_us} AS utc, o.kind, o.body, o.config
FROM outcome o JOIN machine m ON m.id = o.machine;

CREATE VIEW IF NOT EXISTS phases AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       o.body ->> '$.change.from' AS from_phase,
       o.body ->> '$.change.to' AS to_phase,
       coalesce(o.body ->> '$.change.reason', '') AS reason
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'phase-changed';

CREATE VIEW IF NOT EXISTS startups AS
SELECT m.name AS machine, {utc s.body ->> '$.startup.started_at_us'} AS started,
       s.body ->> '$.verdict.outcome' AS verdict,
       coalesce(s.body ->> '$.verdict.note', '') AS note,
       s.body ->> '$.startup.figures.base_psi[0]' AS base_psi,
       s.body ->> '$.startup.figures.top_psi[0]' AS top_psi,
       s.body ->> '$.startup.figures.inlet_rest_psi[0]' AS inlet_rest_psi,
       s.body ->> '$.startup.figures.inlet_psi[0]' AS inlet_psi,
       s.body ->> '$.startup.figures.ratio[0]' AS ratio,
       s.body ->> '$.startup.figures.dead_time_s[0]' AS dead_time_s,
       s.body ->> '$.startup.figures.rise_s[0]' AS rise_s,
       s.body ->> '$.startup.figures.start_to_90_s[0]' AS start_to_90_s,
       s.body ->> '$.startup.figures.overshoot_pct[0]' AS overshoot_pct,
       s.config
FROM outcome s JOIN machine m ON m.id = s.machine
WHERE s.kind = 'startup-measured';

CREATE VIEW IF NOT EXISTS startup_figures AS
SELECT m.name AS machine, {utc s.body ->> '$.startup.started_at_us'} AS started,
       f.key AS measurand,
       iif(f.type = 'array', f.value ->> '$[0]', NULL) AS value,
       iif(f.type = 'array', f.value ->> '$[1]', NULL) AS uncertainty,
       iif(f.type = 'array', NULL, f.value) AS absent
FROM outcome s JOIN machine m ON m.id = s.machine
JOIN json_each(s.body, '$.startup.figures') f
WHERE s.kind = 'startup-measured';

CREATE VIEW IF NOT EXISTS steady_spells AS
SELECT m.name AS machine,
       {utc o.body ->> '$.spell.from_us'} AS since,
       {utc o.body ->> '$.spell.to_us'} AS until,
       o.body ->> '$.spell.samples' AS samples,
       o.body ->> '$.spell.inlet_psi[0]' AS inlet_psi,
       o.body ->> '$.spell.boosted_psi[0]' AS boosted_psi,
       o.body ->> '$.spell.boosted_low_psi[0]' AS boosted_low_psi,
       o.body ->> '$.spell.boosted_high_psi[0]' AS boosted_high_psi,
       o.body ->> '$.spell.ratio[0]' AS ratio,
       o.body ->> '$.spell.ripple_psi[0]' AS ripple_psi,
       o.body ->> '$.spell.wander_psi[0]' AS wander_psi
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'steady-measured';

CREATE VIEW IF NOT EXISTS rest_spells AS
SELECT m.name AS machine,
       {utc o.body ->> '$.spell.stopped_at_us'} AS stopped,
       {utc o.body ->> '$.spell.measured_at_us'} AS measured,
       o.body ->> '$.spell.boosted_psi[0]' AS boosted_psi,
       o.body ->> '$.spell.inlet_psi[0]' AS inlet_psi,
       o.body ->> '$.spell.fall_seconds[0]' AS fall_seconds,
       o.body ->> '$.spell.settled' AS settled
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'rest-measured';

CREATE VIEW IF NOT EXISTS alarms AS
SELECT a.number, m.name AS machine, a.grade, a.rule, a.channel, a.state,
       {utc a.raised_us} AS raised, {utc a.changed_us} AS changed, a.id, a.config_hash
FROM alarm a JOIN machine m ON m.id = a.machine;

CREATE VIEW IF NOT EXISTS alarm_history AS
SELECT a.number, m.name AS machine, {utc e.at_us} AS utc, e.event, e.from_state, e.to_state,
       e.own_state, e.count, e.chattering, {utc e.shelved_until_us} AS shelved_until, e.why,
       e.grade, e.rule, e.channel, e.measured, e.sense, e.limit_value, e.quantity,
       e.inlet_psi, e.boosted_psi, e.by_whom, e.remarks, e.revision
FROM alarm_event e
JOIN alarm a ON a.id = e.alarm_id
JOIN machine m ON m.id = e.machine;

CREATE VIEW IF NOT EXISTS baselines AS
SELECT m.name AS machine, {utc o.at_us} AS learned, f.key AS measurand,
       f.value ->> '$.median' AS median,
       f.value ->> '$.spread' AS spread,
       f.value ->> '$.count' AS starts
FROM outcome o JOIN machine m ON m.id = o.machine
JOIN json_each(o.body, '$.baseline.figures') f
WHERE o.kind = 'baseline-learned';

CREATE VIEW IF NOT EXISTS learnings AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       o.body ->> '$.learning.good' AS good,
       o.body ->> '$.learning.wanted' AS wanted,
       o.body ->> '$.learning.cause' AS cause
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'learning-progressed';

CREATE VIEW IF NOT EXISTS services AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       CASE o.body ->> '$.change.on' WHEN 1 THEN 'on' ELSE 'off' END AS word,
       {utc o.body ->> '$.change.until_us'} AS until,
       coalesce(o.body ->> '$.change.by', '') AS by_whom,
       coalesce(o.body ->> '$.change.why', '') AS why
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'service-changed';

CREATE VIEW IF NOT EXISTS refusals AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       o.body ->> '$.instruction.by' AS by_whom,
       o.body -> '$.instruction.order' AS asked,
       coalesce(o.body ->> '$.reason', '') AS reason
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'instruction-refused';

CREATE VIEW IF NOT EXISTS journal_entries AS
SELECT m.name AS machine, {utc j.at_us} AS utc, j.body ->> '$.entry' AS entry, j.by_whom,
       coalesce(j.body ->> '$.text', '') AS text
FROM journal j JOIN machine m ON m.id = j.machine;

CREATE VIEW IF NOT EXISTS messages AS
SELECT o.number, o.route, o.machine, o.grade, {utc o.at_us} AS utc,
       {utc o.delivered_us} AS delivered, o.attempts, {utc o.given_up_us} AS given_up,
       o.given_up_because, o.folded_into, o.kind, o.event, o.alarm_id, o.topic, o.subject, o.text
FROM outbox o;

CREATE VIEW IF NOT EXISTS runs AS
SELECT id, {utc started_us} AS started, {utc ended_us} AS ended, version, config_hash FROM run;
