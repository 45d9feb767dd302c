package leat.bench.sensor;

import static java.util.Objects.requireNonNull;

/**
 * The loops of one machine's three taps, as the reading side is set up. Immutable.
 *
 * @param inlet before the shut-off valve
 * @param boosted after the booster
 * @param filtered after the filters
 */
public record Loops(Loop inlet, Loop boosted, Loop filtered) {

    /** Those of the invented boatyard. */
    public static final Loops USUAL = new Loops(Loop.USUAL, Loop.USUAL, Loop.USUAL);

    public Loops {
        requireNonNull(inlet, "inlet");
        requireNonNull(boosted, "boosted");
        requireNonNull(filtered, "filtered");
    }

    /** That of one tap. */
    public Loop at(Tap tap) {
        return switch (tap) {
            case INLET -> inlet;
            case BOOSTED -> boosted;
            case FILTERED -> filtered;
        };
    }
}
