package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.config.Point;

/**
 * One way of reading what came as a pressure.
 *
 * @param point where it is, and how its number is made
 * @param form how the number stands for a pressure
 * @param numbers read after read, at least one
 * @param sense whether it makes sense
 * @param doubt how far it is from what is met most often, 0 the most common
 */
public record Guess(Point point, Form form, List<Double> numbers, Sense sense, int doubt) {

    /** Share of the span that a hand gauge can tell apart. */
    private static final double STEP = 0.02;

    /** The likeliest first. */
    static final Comparator<Guess> LIKELIEST_FIRST =
            Comparator.<Guess, Sense.Kind>comparing(g -> g.sense().kind())
                    .thenComparing(g -> Math.floor(Math.abs(g.sense().fromGauge()) / STEP))
                    .thenComparing(Guess::doubt);

    public Guess {
        requireNonNull(point, "point");
        requireNonNull(form, "form");
        requireNonNull(sense, "sense");
        numbers = List.copyOf(numbers);
    }

    /** How it is read, such as {@code float32 CDAB, 0.1 psi}. */
    public String as() {
        return point instanceof Point.Register register
                ? numberWords(register) + ", " + form.words()
                : form.words();
    }

    private static String numberWords(Point.Register register) {
        String type = register.type().name().toLowerCase(Locale.ROOT);
        return register.type().registers() == 1 ? type : type + " " + register.order();
    }

    /** Whether all of these words are among those of {@link #as}. */
    public boolean isAs(String words) {
        return tokens(as()).containsAll(tokens(words));
    }

    private static Set<String> tokens(String words) {
        return Stream.of(words.toLowerCase(Locale.ROOT).split("[ ,]+"))
                .filter(word -> !word.isEmpty())
                .collect(Collectors.toSet());
    }

    /** Whether its pressure can be had only with the span of the transducer. */
    public boolean needsSpan() {
        return form instanceof Form.Current;
    }

    /** The number that was read first. */
    public double number() {
        return numbers.get(0);
    }
}
