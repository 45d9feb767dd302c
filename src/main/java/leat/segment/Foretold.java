package leat.segment;

/**
 * Foretells each number of a row from those before it: the last one, or where the row stands still
 * and only noise moves it, their mean with weights that fade. Thread-confined.
 */
final class Foretold {

    /** Of 2 to this power numbers the mean is. */
    static final int HEAVIEST = 4;

    private final int weight;
    private final long half;
    private long sum;
    private boolean begun;

    /**
     * @param weight 0 for the last number; each further one doubles how far back the mean reaches
     */
    Foretold(int weight) {
        if (weight > HEAVIEST) {
            throw new Source.Amiss("it foretells numbers in a way that this leat does not know");
        }
        this.weight = weight;
        half = weight == 0 ? 0 : 1L << weight - 1;
    }

    /** How far a number is from the one foretold. */
    long residual(long number) {
        long residual = number - foretold();
        note(number);
        return residual;
    }

    /** The number that is so far from the one foretold. */
    long number(long residual) {
        long number = foretold() + residual;
        note(number);
        return number;
    }

    private long foretold() {
        return sum + half >> weight;
    }

    private void note(long number) {
        if (begun) {
            sum += number - (sum >> weight);
        } else {
            sum = number << weight;
            begun = true;
        }
    }

    /** Bits that these residuals want by an ideal code for numbers of their size, roughly. */
    static double cost(long[] residuals) {
        double sum = 0;
        for (long residual : residuals) {
            sum += Math.log1p(Math.abs((double) residual));
        }
        return sum;
    }
}
