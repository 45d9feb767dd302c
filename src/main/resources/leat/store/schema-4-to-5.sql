-- From version 4 to 5: reasons that were sentences become words.

UPDATE outcome SET body = json_set(body, '$.change.reason', w.word)
FROM phase_words w WHERE kind = 'phase-changed' AND w.said = body ->> '$.change.reason';

UPDATE outcome SET body = json_set(json_remove(body, '$.change.notes.why'), '$.change.notes.reason', w.word)
FROM reason_words w WHERE kind = 'alarm-changed' AND w.said = body ->> '$.change.notes.why';

UPDATE outcome SET body = json_set(json_remove(body, '$.change.why'), '$.change.reason', w.word)
FROM reason_words w WHERE kind = 'service-changed' AND w.said = body ->> '$.change.why';

UPDATE outcome SET body = json_set(body, '$.reason',
    json_object('kind', 'as-told', 'words', body ->> '$.reason'))
WHERE kind = 'instruction-refused';

UPDATE instruction SET refused = json_object('kind', 'as-told', 'words', {text refused})
WHERE refused IS NOT NULL;

UPDATE outcome SET body = json_set(json_remove(body, '$.verdict.note'),
    '$.startup.figures', json((SELECT json_group_object(f.key,
            json(iif(f.type = 'text', {absence f.value}, f.value)))
        FROM json_each(body, '$.startup.figures') f)),
    '$.startup.remarks', json((SELECT json_group_array(json(iif(w.word IS NULL,
            json_object('kind', 'no-curve',
                'because', json({absence substr(r.value, 38, length(r.value) - 38)})),
            json_object('kind', w.word))))
        FROM json_each(coalesce(body -> '$.startup.remarks', '[]')) r
        LEFT JOIN climb_words w ON w.said = r.value)),
    '$.verdict.remarks', json(iif(body ->> '$.verdict.note' IS NULL, '[]',
        json_array(json_object('kind', 'reported',
            'about', replace(body ->> '$.verdict.note', 'not judged: ', ''))))))
WHERE kind = 'startup-measured';

UPDATE outcome SET body = json_set(body, '$.spell',
    json((SELECT json_group_object(f.key, json(CASE
            WHEN f.type = 'text' THEN {absence f.value}
            WHEN f.type IN ('true', 'false', 'null') THEN f.type
            ELSE f.value END))
        FROM json_each(body, '$.spell') f)))
WHERE kind IN ('steady-measured', 'rest-measured');

UPDATE outcome SET body = json_set(body, '$.change.finding.inlet_psi', w.word)
FROM absence_words w
WHERE kind = 'alarm-changed' AND w.said = body ->> '$.change.finding.inlet_psi';

UPDATE outcome SET body = json_set(body, '$.change.finding.boosted_psi', w.word)
FROM absence_words w
WHERE kind = 'alarm-changed' AND w.said = body ->> '$.change.finding.boosted_psi';

DROP TABLE phase_words;
DROP TABLE reason_words;
DROP TABLE absence_words;
DROP TABLE climb_words;
