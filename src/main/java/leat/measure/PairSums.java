package leat.measure;

/**
 * Sums of pairs of values, to see how far the one follows the other. Immutable.
 *
 * @param free pairs; of centred sums degrees of freedom
 * @param beside sum of what may be followed
 * @param own sum of what may follow it
 * @param besideSquares sum of the squares of what may be followed
 * @param ownSquares likewise of what may follow it
 * @param products sum of the products of both
 */
record PairSums(
        long free,
        double beside,
        double own,
        double besideSquares,
        double ownSquares,
        double products) {

    static final PairSums NONE = new PairSums(0, 0, 0, 0, 0, 0);

    /** With one pair more; both as differences from values near them, which keeps their digits. */
    PairSums and(double besideOff, double ownOff) {
        return plus(
                new PairSums(
                        1,
                        besideOff,
                        ownOff,
                        besideOff * besideOff,
                        ownOff * ownOff,
                        besideOff * ownOff));
    }

    PairSums plus(PairSums other) {
        return new PairSums(
                free + other.free,
                beside + other.beside,
                own + other.own,
                besideSquares + other.besideSquares,
                ownSquares + other.ownSquares,
                products + other.products);
    }

    /** About their own means. */
    PairSums centred() {
        return free == 0
                ? NONE
                : new PairSums(
                        free - 1,
                        0,
                        0,
                        Math.max(0, besideSquares - beside * beside / free),
                        Math.max(0, ownSquares - own * own / free),
                        products - beside * own / free);
    }

    /**
     * Of centred sums: the squares of the one without what rises and falls along with the other, by
     * least squares. What falls where the other rises stays.
     */
    double squaresAlone() {
        return products > 0 && besideSquares > 0
                ? Math.max(0, ownSquares - products * products / besideSquares)
                : ownSquares;
    }
}
