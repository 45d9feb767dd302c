package leat.measure;

/**
 * The pressure waves of the intensifier's strokes in a steady stretch. Immutable.
 *
 * @param sdPsi standard deviation of the pressure about its own mean of 1.5 s, noise taken off, psi
 * @param frequencyHz strokes per second
 */
record Ripple(Measured sdPsi, Measured frequencyHz) {

    /** The wave must explain so many times more per term than noise would. */
    private static final double LEAST_RATIO = 6;

    private static final double LEAST_SAMPLES_PER_STROKE = 5;
    private static final int LEAST_SAMPLES = 12;

    /**
     * Looks for strokes of 0.3 to 3 Hz: roughly by autocorrelation, then by least squares on the
     * readings themselves, which holds for irregular sampling too.
     *
     * @param steady a stretch on a level
     * @param noise of a reading, from here or a quieter part of the curve
     */
    static Ripple of(Stretch steady, Noise noise) {
        if (steady.size() < LEAST_SAMPLES
                || steady.spanSeconds() * Repeat.FASTEST_HZ < Repeat.LEAST_PERIODS) {
            return absent("too short for three strokes");
        }
        if (steady.interval() * LEAST_SAMPLES_PER_STROKE > 1) {
            return absent("sampled too slowly for strokes");
        }
        Stretch clean = steady.cleaned(noise);
        double rough = Repeat.hertz(clean);
        if (rough == 0) {
            return absent("no strokes above the noise");
        }
        Waveform wave = Waveform.around(clean, rough);
        if (!(wave.explainedRatio(Waveform.none(clean)) > LEAST_RATIO)) {
            return absent("no strokes above the noise");
        }
        if (steady.spanSeconds() * wave.hertz() < Repeat.LEAST_PERIODS) {
            return absent("too short for three strokes");
        }
        if (steady.interval() * LEAST_SAMPLES_PER_STROKE * wave.hertz() > 1) {
            return absent("sampled too slowly for strokes");
        }
        Measured frequency = Measured.of(wave.hertz(), Measured.NORMAL_95 * wave.hertzSd());
        double sd = Math.min(noise.sdPsi(), wave.residualSd());
        return new Ripple(Wander.ripple(clean, sd, 1 / wave.hertz()), frequency);
    }

    boolean isPresent() {
        return frequencyHz.isPresent();
    }

    private static Ripple absent(String because) {
        return new Ripple(Measured.absent(because), Measured.absent(because));
    }
}
