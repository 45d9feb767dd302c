package leat.measure;

/**
 * The pressure waves of the intensifier's strokes in a steady stretch. Immutable.
 *
 * @param sdPsi standard deviation of the pressure about its own mean of 1.5 s, noise taken off, psi
 * @param frequencyHz strokes per second
 */
record Ripple(Measured sdPsi, Measured frequencyHz) {

    private static final double LEAST_PERIODS = 3;

    /** A waveform must explain so many times what its terms explain of mere noise, per term. */
    private static final double LEAST_RATIO = 6;

    /** A slower repeat explains at most so much more when it is the same waveform. */
    private static final double AS_GOOD = 0.9;

    /** A reading further from the median of three than so many deviations is a wild one. */
    private static final double WILD = 6;

    /**
     * Looks for strokes of 0.3 to 3 Hz by least squares: waves of the fundamental and up to two
     * harmonics on a straight line, at each of many frequencies; valid for irregular sampling.
     *
     * @param steady a stretch on a level
     * @param noise of a reading, from here or a quieter part of the curve
     */
    static Ripple of(Stretch steady, Noise noise) {
        double fastest = Math.min(Waveform.FASTEST_HZ, Waveform.LEAST_SAMPLED / steady.interval());
        if (steady.spanSeconds() * Waveform.SLOWEST_HZ * 2 < LEAST_PERIODS) {
            return absent("too short for three strokes");
        }
        if (!(fastest > 1)) {
            return absent("sampled too slowly for strokes");
        }
        double[] psi = withoutWild(steady, noise);
        Waveform wave = Waveform.strongest(steady, psi, fastest, AS_GOOD);
        if (!(wave.explainedRatio() > LEAST_RATIO)) {
            return absent("no strokes above the noise");
        }
        if (steady.spanSeconds() * wave.frequencyHz() < LEAST_PERIODS) {
            return absent("too short for three strokes");
        }
        double frequency95 = Measured.NORMAL_95 * wave.frequencySd(steady.spanSeconds());
        Measured frequency = Measured.of(wave.frequencyHz(), frequency95);
        double sd = Math.min(noise.sdPsi(), wave.residualSd());
        return new Ripple(Wander.ripple(steady, psi, sd, 1 / wave.frequencyHz()), frequency);
    }

    private static double[] withoutWild(Stretch steady, Noise noise) {
        double[] psi = new double[steady.size()];
        for (int i = 0; i < psi.length; i++) {
            boolean wild =
                    Math.abs(steady.raw(i) - steady.psi(i))
                            > WILD * Math.max(noise.sdPsi(), noise.stepPsi());
            psi[i] = wild ? steady.psi(i) : steady.raw(i);
        }
        return psi;
    }

    boolean isPresent() {
        return frequencyHz.isPresent();
    }

    private static Ripple absent(String because) {
        return new Ripple(Measured.absent(because), Measured.absent(because));
    }
}
