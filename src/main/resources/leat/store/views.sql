-- Views for people, and the history of each alarm. A leat that opens a store for writing makes each
-- anew that differs from what stands here.

CREATE VIEW alarm_event AS
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
       coalesce(body ->> '$.change.notes.why', body ->> '$.change.notes.reason', '') AS why,
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

CREATE VIEW sample AS
SELECT m.name AS machine, k.channel, {utc i.at_us} AS utc, i.value, q.word AS quality, q.reason,
       {utc i.detail} AS claimed, i.at_us, i.detail AS claimed_us, i.seq
FROM input i
JOIN machine m ON m.id = i.machine
JOIN input_kind k ON k.kind = i.kind
JOIN quality q ON q.code = i.quality
WHERE i.kind < 100;

CREATE VIEW happening AS
SELECT m.name AS machine, {utc i.at_us} AS utc, k.word AS kind, k.channel, i.detail, i.by_whom,
       CASE i.kind WHEN 110 THEN {utc i.value} END AS clock_was, i.at_us, i.seq
FROM input i
JOIN machine m ON m.id = i.machine
JOIN input_kind k ON k.kind = i.kind
WHERE i.kind > 100;

CREATE VIEW outcomes AS
SELECT m.name AS machine, o.seq, o.nth, {utc o.at_us} AS utc, o.kind, o.body, o.config
FROM outcome o JOIN machine m ON m.id = o.machine;

CREATE VIEW phases AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       o.body ->> '$.change.from' AS from_phase,
       o.body ->> '$.change.to' AS to_phase,
       coalesce(o.body ->> '$.change.reason', '') AS reason
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'phase-changed';

CREATE VIEW startups AS
SELECT m.name AS machine, {utc s.body ->> '$.startup.started_at_us'} AS started,
       s.body ->> '$.verdict.outcome' AS verdict,
       coalesce(s.body -> '$.verdict.remarks', '[]') AS remarks,
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

CREATE VIEW startup_figures AS
SELECT m.name AS machine, {utc s.body ->> '$.startup.started_at_us'} AS started,
       f.key AS measurand,
       iif(f.type = 'array', f.value ->> '$[0]', NULL) AS value,
       iif(f.type = 'array', f.value ->> '$[1]', NULL) AS uncertainty,
       iif(f.type = 'array', NULL, f.value) AS absent
FROM outcome s JOIN machine m ON m.id = s.machine
JOIN json_each(s.body, '$.startup.figures') f
WHERE s.kind = 'startup-measured';

CREATE VIEW run_verdicts AS
SELECT m.name AS machine,
       {utc o.body ->> '$.run.started_at_us'} AS started,
       {utc o.body ->> '$.run.ended_at_us'} AS ended,
       o.body ->> '$.run.over' AS over,
       o.body ->> '$.run.figures.loaded_psi[0]' AS loaded_psi,
       o.body ->> '$.run.figures.unloaded_psi[0]' AS unloaded_psi,
       o.body ->> '$.run.figures.top_psi[0]' AS level_psi,
       o.body ->> '$.run.figures.inlet_psi[0]' AS inlet_psi,
       o.body ->> '$.run.figures.ratio[0]' AS ratio,
       o.body ->> '$.run.figures.filter_loss_psi[0]' AS filter_loss_psi,
       o.body -> '$.verdict.parts' AS parts,
       o.body -> '$.verdict.raised' AS raised
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'run-judged';

CREATE VIEW steady_spells AS
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

CREATE VIEW rest_spells AS
SELECT m.name AS machine,
       {utc o.body ->> '$.spell.stopped_at_us'} AS stopped,
       {utc o.body ->> '$.spell.measured_at_us'} AS measured,
       o.body ->> '$.spell.boosted_psi[0]' AS boosted_psi,
       o.body ->> '$.spell.inlet_psi[0]' AS inlet_psi,
       o.body ->> '$.spell.fall_seconds[0]' AS fall_seconds,
       o.body ->> '$.spell.settled' AS settled
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'rest-measured';

CREATE VIEW alarms AS
SELECT a.number, m.name AS machine, a.grade, a.rule, a.channel, a.state,
       {utc a.raised_us} AS raised, {utc a.changed_us} AS changed, a.id, a.config_hash
FROM alarm a JOIN machine m ON m.id = a.machine;

CREATE VIEW alarm_history AS
SELECT a.number, m.name AS machine, {utc e.at_us} AS utc, e.event, e.from_state, e.to_state,
       e.own_state, e.count, e.chattering, {utc e.shelved_until_us} AS shelved_until, e.why,
       e.grade, e.rule, e.channel, e.measured, e.sense, e.limit_value, e.quantity,
       e.inlet_psi, e.boosted_psi, e.by_whom, e.remarks, e.revision
FROM alarm_event e
JOIN alarm a ON a.id = e.alarm_id
JOIN machine m ON m.id = e.machine;

CREATE VIEW baselines AS
SELECT m.name AS machine, {utc o.at_us} AS learned, f.key AS measurand,
       f.value ->> '$.median' AS median,
       f.value ->> '$.spread' AS spread,
       f.value ->> '$.count' AS starts
FROM outcome o JOIN machine m ON m.id = o.machine
JOIN json_each(o.body, '$.baseline.figures') f
WHERE o.kind = 'baseline-learned';

CREATE VIEW learnings AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       o.body ->> '$.learning.good' AS good,
       o.body ->> '$.learning.wanted' AS wanted,
       o.body ->> '$.learning.cause' AS cause
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'learning-progressed';

CREATE VIEW services AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       CASE o.body ->> '$.change.on' WHEN 1 THEN 'on' ELSE 'off' END AS word,
       {utc o.body ->> '$.change.until_us'} AS until,
       coalesce(o.body ->> '$.change.by', '') AS by_whom,
       coalesce(o.body ->> '$.change.why', o.body ->> '$.change.reason', '') AS why
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'service-changed';

CREATE VIEW refusals AS
SELECT m.name AS machine, {utc o.at_us} AS utc,
       o.body ->> '$.instruction.by' AS by_whom,
       o.body -> '$.instruction.order' AS asked,
       coalesce(o.body -> '$.reason', '') AS reason
FROM outcome o JOIN machine m ON m.id = o.machine
WHERE o.kind = 'instruction-refused';

CREATE VIEW journal_entries AS
SELECT m.name AS machine, {utc j.at_us} AS utc, j.body ->> '$.entry' AS entry, j.by_whom,
       coalesce(j.body ->> '$.text', '') AS text,
       coalesce(j.body ->> '$.found', '') AS found
FROM journal j JOIN machine m ON m.id = j.machine;

CREATE VIEW messages AS
SELECT o.number, o.route, o.machine, o.grade, {utc o.at_us} AS utc,
       {utc o.delivered_us} AS delivered, o.attempts, {utc o.given_up_us} AS given_up,
       o.given_up_because, o.folded_into, o.kind, o.event, o.alarm_id, o.topic, o.subject, o.text
FROM outbox o;

CREATE VIEW runs AS
SELECT id, {utc started_us} AS started, {utc ended_us} AS ended, version, config_hash FROM run;
