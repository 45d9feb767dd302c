-- Sentences that stores before version 5 hold, and the words that stand for them since.

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

