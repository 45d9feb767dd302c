package leat.measure;

/**
 * The climb of a pressure from one level to another, by the reference levels of IEEE Std 181: 10 %
 * and 90 % of the amplitude, each crossing by linear interpolation between samples.
 *
 * @param durationSeconds 10 to 90 %
 * @param reach90Second time of the 90 % crossing, seconds from the zero of the stretch
 * @param top90Index index of the first sample at or above 90 %; meaningless while absent
 */
record Transition(Figure durationSeconds, Figure reach90Second, int top90Index) {

    /** A smaller change is no climb. */
    static final double LEAST_AMPLITUDE_PSI = 10;

    private static final double LONGEST_GAP_SECONDS = 0.5;
    private static final double GAP_INTERVALS = 4;
    private static final double INTERVALS_PER_RISE = 3;

    /**
     * Noise is averaged over this share of the climb to either side of a crossing. A window that is
     * short against the climb moves neither crossing of a smooth one.
     */
    private static final double SMOOTHED_SHARE = 0.08;

    /**
     * Measures the climb from {@code lowPsi} to {@code highPsi}.
     *
     * @param from index from which to look
     */
    static Transition of(Stretch curve, int from, double lowPsi, double highPsi) {
        double amplitude = highPsi - lowPsi;
        if (!(amplitude >= LEAST_AMPLITUDE_PSI)) {
            return absent("the pressure changed by less than 10 psi");
        }
        double low = lowPsi + 0.1 * amplitude;
        double high = lowPsi + 0.9 * amplitude;
        Transition rough = crossings(curve, from, low, high);
        if (!rough.durationSeconds().isPresent()) {
            return rough;
        }
        double half = SMOOTHED_SHARE * rough.durationSeconds().get();
        Transition smooth = crossings(curve.smoothed(half), from, low, high);
        return smooth.durationSeconds().isPresent() ? smooth : rough;
    }

    private static Transition crossings(Stretch curve, int from, double low, double high) {
        int above90 = curve.firstAtOrAbove(high, from);
        int below10 = curve.lastBelow(low, above90);
        if (above90 < 1 || below10 < 0) {
            return absent("the climb is not wholly on record");
        }
        double t90 = curve.crossing(above90 - 1, high);
        double t10 = curve.crossing(below10, low);
        double interval = curve.interval();
        double gap = curve.longestGap(below10, above90);
        String lacks = "";
        if (gap > Math.max(LONGEST_GAP_SECONDS, GAP_INTERVALS * interval)) {
            lacks = "readings are missing inside the rise";
        } else if (t90 - t10 < INTERVALS_PER_RISE * interval) {
            lacks = "sampled too slowly for so fast a rise";
        }
        Figure duration = lacks.isEmpty() ? Figure.of(t90 - t10) : Figure.absent(lacks);
        return new Transition(duration, Figure.of(t90), above90);
    }

    private static Transition absent(String because) {
        return new Transition(Figure.absent(because), Figure.absent(because), 0);
    }
}
