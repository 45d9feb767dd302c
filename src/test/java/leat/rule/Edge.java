package leat.rule;

import java.util.function.BooleanSupplier;
import java.util.function.DoublePredicate;

/** Finds by trying where an answer turns, on a scale or in time. */
final class Edge {

    private Edge() {}

    /** Where between two values an answer turns from no to yes. */
    static double between(double no, double yes, DoublePredicate answer) {
        double low = no;
        double high = yes;
        for (int i = 0; i < 22; i++) {
            double middle = (low + high) / 2;
            if (answer.test(middle)) {
                high = middle;
            } else {
                low = middle;
            }
        }
        return (low + high) / 2;
    }

    /** How many seconds pass until it is so. */
    static int secondsUntil(BooleanSupplier isSo, Runnable second) {
        int seconds = 0;
        while (!isSo.getAsBoolean() && seconds < 1_000) {
            second.run();
            seconds++;
        }
        return seconds;
    }
}
