package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.DoubleSummaryStatistics;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.signal.PressureUnit;
import leat.wiring.Sense.Kind;
import leat.words.Saying;

/**
 * Asks of each reading what speaks against its being the pressure in the line. The figures are
 * leat's own choice, no published source.
 *
 * @param span of the transducer, where somebody said it
 * @param gauge what a hand gauge on the same line shows, where somebody read it
 */
public record Doubts(Optional<Span> span, Optional<TypedPressure> gauge) {

    /** Not a number, or so tiny that only a wrong word order explains it; as for each reading. */
    private static final double TINY = 1e-9;

    /** Where nobody said the span: what leat believes of a number that is a pressure. */
    private static final double LOWEST_PSI = -15;

    private static final double HIGHEST_PSI = 500;

    /** Of the usual transducer. */
    private static final double USUAL_WIDTH_PSI = 200;

    /** NAMUR NE 43: the measuring band. */
    private static final double LOW_MA = 3.8;

    private static final double HIGH_MA = 20.5;

    /** Share of the span that a line under strokes may swing by. */
    private static final double STILL = 0.1;

    /** Share of the span by which a zero may have wandered down. */
    private static final double LOWEST_ZERO = -0.02;

    /** Share of the span by which hand gauge and transducer may differ. */
    private static final double NEAR = 0.05;

    public Doubts {
        requireNonNull(span, "span");
        requireNonNull(gauge, "gauge");
    }

    /** In what the person thinks. */
    public PressureUnit unit() {
        return span.map(Span::unit)
                .or(() -> gauge.map(TypedPressure::unit))
                .orElse(PressureUnit.PSI);
    }

    double widthPsi() {
        return span.map(Span::widthPsi).orElse(USUAL_WIDTH_PSI);
    }

    /**
     * What to hold of these numbers.
     *
     * @param numbers read after read, at least one
     */
    Sense of(Form form, List<Double> numbers) {
        if (numbers.stream().anyMatch(n -> !Double.isFinite(n) || n != 0 && Math.abs(n) < TINY)) {
            return Sense.none("sense.no-number");
        }
        DoubleSummaryStatistics read =
                numbers.stream().mapToDouble(Double::doubleValue).summaryStatistics();
        double least = read.getMin();
        double most = read.getMax();
        double mean = read.getAverage();
        if (form instanceof Form.Current current) {
            double low = Math.min(current.milliamps(least), current.milliamps(most));
            double high = Math.max(current.milliamps(least), current.milliamps(most));
            if (low < LOW_MA || high > HIGH_MA) {
                return Sense.none("sense.no-current");
            }
            if (span.isEmpty()) {
                return ofCurrentAlone(current, least, most, mean);
            }
        }
        double low = form.psi(least, span).orElseThrow();
        double high = form.psi(most, span).orElseThrow();
        double lowest = span.map(Span::lowestPsi).orElse(LOWEST_PSI);
        double highest = span.map(Span::highestPsi).orElse(HIGHEST_PSI);
        if (low < lowest || high > highest) {
            return Sense.none("sense.out-of-range");
        }
        return inRange(form, least, most, mean);
    }

    private Sense inRange(Form form, double least, double most, double mean) {
        OptionalDouble psi = form.psi(mean, span);
        double swing =
                Math.abs(form.psi(most, span).orElseThrow() - form.psi(least, span).orElseThrow());
        double off = gauge.map(g -> psi.orElseThrow() - g.psi()).orElse(0.0);
        double share = off / widthPsi();
        if (form.isNextToNothing(least, widthPsi()) && form.isNextToNothing(most, widthPsi())) {
            return new Sense(Kind.NOTHING_YET, psi, Saying.of("sense.zero"), share);
        }
        if (psi.orElseThrow() < LOWEST_ZERO * widthPsi()) {
            return new Sense(Kind.BELOW_ZERO, psi, Saying.of("sense.below-zero"), share);
        }
        if (swing > STILL * widthPsi()) {
            return new Sense(Kind.MOVES, psi, Saying.of("sense.moves", shown(swing)), share);
        }
        if (Math.abs(off) > NEAR * widthPsi()) {
            return new Sense(
                    Kind.OFF_THE_GAUGE,
                    psi,
                    Saying.of("sense.gauge-shows", gauge.orElseThrow().toString()),
                    share);
        }
        Saying moves =
                least == most ? Saying.of("sense.still") : Saying.of("sense.moves", shown(swing));
        return new Sense(
                Kind.LIKELY,
                psi,
                gauge.isPresent()
                        ? Saying.of("sense.off-by", shown(off), moves)
                        : Saying.of("sense.in-range", moves),
                share);
    }

    /** What no span makes a pressure cannot be compared with a gauge. */
    private Sense ofCurrentAlone(Form.Current form, double least, double most, double mean) {
        double swing = Math.abs(form.share(most) - form.share(least));
        String share = String.format(Locale.ROOT, "%.0f", 100 * form.share(mean));
        Kind kind = swing > STILL ? Kind.MOVES : Kind.LIKELY;
        if (form.isNextToNothing(most, USUAL_WIDTH_PSI)) {
            kind = Kind.NOTHING_YET;
        }
        double unlike = gauge.isPresent() ? NEAR : 0;
        return new Sense(kind, OptionalDouble.empty(), Saying.of("sense.say-range", share), unlike);
    }

    private String shown(double psi) {
        double value = unit().fromPsi(psi);
        double clean = Math.abs(value) < 0.5 * Math.pow(10, -unit().decimals()) ? 0 : value;
        return String.format(Locale.ROOT, "%." + unit().decimals() + "f ", clean) + unit().symbol();
    }
}
