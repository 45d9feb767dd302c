package leat.measure;

/**
 * The pressure waves of the intensifier's strokes in a steady stretch. Immutable.
 *
 * @param sdPsi standard deviation of the pressure about its own mean of 1.5 s, noise taken off, psi
 * @param frequencyHz strokes per second
 */
record Ripple(Figure sdPsi, Figure frequencyHz) {

    /** The wave must explain so many times more per term than noise would. */
    private static final double LEAST_RATIO = 6;

    private static final double LEAST_SAMPLES_PER_STROKE = 5;
    private static final int LEAST_SAMPLES = 12;
    private static final double AS_GOOD = 0.85;

    /**
     * Looks for strokes of 0.3 to 3 Hz: roughly by autocorrelation, then by least squares on the
     * readings themselves, which holds for irregular sampling too.
     *
     * @param steady a stretch on a level
     * @param noise of a reading, from here or a quieter part of the curve
     */
    static Ripple of(Stretch steady, Noise noise) {
        if (steady.size() < LEAST_SAMPLES
                || steady.spanSeconds() * StrokeRate.FASTEST_HZ < StrokeRate.LEAST_PERIODS) {
            return absent(Absence.TOO_SHORT_FOR_STROKES);
        }
        if (steady.interval() * LEAST_SAMPLES_PER_STROKE > 1) {
            return absent(Absence.TOO_SLOW_FOR_STROKES);
        }
        Stretch clean = steady.cleaned(noise);
        double rough = StrokeRate.hertz(clean);
        if (rough == 0) {
            return absent(Absence.NO_STROKES);
        }
        Waveform line = Waveform.none(clean);
        Waveform wave = fastest(clean, rough, line);
        if (!(wave.explainedRatio(line) > LEAST_RATIO)) {
            return absent(Absence.NO_STROKES);
        }
        if (steady.spanSeconds() * wave.hertz() < StrokeRate.LEAST_PERIODS) {
            return absent(Absence.TOO_SHORT_FOR_STROKES);
        }
        if (steady.interval() * LEAST_SAMPLES_PER_STROKE * wave.hertz() > 1) {
            return absent(Absence.TOO_SLOW_FOR_STROKES);
        }
        Figure frequency = Figure.of(wave.hertz(), Figure.NORMAL_95 * wave.hertzSd());
        double rounding = noise.stepPsi() / Math.sqrt(12);
        double sd = Math.max(rounding, Math.min(noise.sdPsi(), wave.residualSd()));
        return new Ripple(Wander.ripple(clean, sd, 1 / wave.hertz()), frequency);
    }

    /** Two or three strokes repeat as one does; the fastest that explains as much is the stroke. */
    private static Waveform fastest(Stretch clean, double roughHz, Waveform line) {
        Waveform wave = Waveform.around(clean, roughHz);
        for (int times = 3; times >= 2; times--) {
            if (times * wave.hertz() <= StrokeRate.FASTEST_HZ
                    && times * wave.hertz() * LEAST_SAMPLES_PER_STROKE * clean.interval() <= 1) {
                Waveform faster = Waveform.around(clean, times * wave.hertz());
                if (faster.explained(line) > AS_GOOD * wave.explained(line)) {
                    return faster;
                }
            }
        }
        return wave;
    }

    boolean isPresent() {
        return frequencyHz.isPresent();
    }

    private static Ripple absent(Absence because) {
        return new Ripple(Figure.absent(because), Figure.absent(because));
    }
}
