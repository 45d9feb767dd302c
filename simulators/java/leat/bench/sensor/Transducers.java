package leat.bench.sensor;

import static java.util.Objects.requireNonNull;

/**
 * The transducers of one machine. Immutable.
 *
 * @param inlet before the shut-off valve
 * @param boosted after the booster
 * @param filtered after the filters
 */
public record Transducers(Transducer inlet, Transducer boosted, Transducer filtered) {

    /** Those of the invented boatyard. */
    public static final Transducers USUAL =
            new Transducers(Transducer.USUAL, Transducer.USUAL, Transducer.USUAL);

    public Transducers {
        requireNonNull(inlet, "inlet");
        requireNonNull(boosted, "boosted");
        requireNonNull(filtered, "filtered");
    }

    /** That of one tap. */
    public Transducer at(Tap tap) {
        return switch (tap) {
            case INLET -> inlet;
            case BOOSTED -> boosted;
            case FILTERED -> filtered;
        };
    }

    /** Their loops. */
    public Loops loops() {
        return new Loops(inlet.loop(), boosted.loop(), filtered.loop());
    }
}
