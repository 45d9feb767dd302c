package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.OptionalDouble;
import leat.config.Plain;
import leat.signal.PressureUnit;
import leat.signal.TwoPoint;

/** How a number may stand for a pressure. */
sealed interface Form {

    /** In one or two words, such as {@code uA} or {@code 0.1 psi}. */
    String words();

    /** Psi; empty where only the span of the transducer would tell. */
    OptionalDouble psi(double number, Optional<Span> span);

    /** True where so small a number is what an unused register or an unwired input shows too. */
    boolean isNextToNothing(double number, double widthPsi);

    /**
     * How far it is from what is met most often, 0 the most common. Trade rule of thumb, no
     * published source.
     */
    int doubt(Optional<Span> span);

    /** The lines of a channel that make the number a pressure. */
    List<String> lines(Optional<Span> span);

    /**
     * The number is the pressure, but for the decimal point.
     *
     * @param unit of the pressure
     * @param decimals places that the point is to be moved by
     */
    record Direct(PressureUnit unit, int decimals) implements Form {

        private static final double NOTHING = 0.01;

        public Direct {
            requireNonNull(unit, "unit");
        }

        @Override
        public String words() {
            return decimals == 0
                    ? unit.symbol()
                    : Plain.number(Math.pow(10, -decimals)) + " " + unit.symbol();
        }

        @Override
        public OptionalDouble psi(double number, Optional<Span> span) {
            return OptionalDouble.of(unit.toPsi(number / Math.pow(10, decimals)));
        }

        @Override
        public boolean isNextToNothing(double number, double widthPsi) {
            return Math.abs(psi(number, Optional.empty()).orElseThrow()) < NOTHING * widthPsi;
        }

        @Override
        public int doubt(Optional<Span> span) {
            int point =
                    switch (decimals) {
                        case 0 -> 1;
                        case 1, 2 -> 0;
                        default -> 2;
                    };
            return point + (unit == span.map(Span::unit).orElse(PressureUnit.PSI) ? 0 : 2);
        }

        /** With a scale its two points would be the range: so that is written out. */
        @Override
        public List<String> lines(Optional<Span> span) {
            if (decimals == 0) {
                String unitLine = "unit: " + unit.symbol();
                return span.map(s -> List.of(unitLine, "range: " + s.believed()))
                        .orElse(List.of(unitLine));
            }
            double full = unit == PressureUnit.BAR ? 10 : unit == PressureUnit.PSI ? 100 : 1000;
            return List.of(
                    "scale: [ { at: 0, reads: 0 "
                            + unit.symbol()
                            + " }, { at: "
                            + Plain.number(full * Math.pow(10, decimals))
                            + ", reads: "
                            + Plain.number(full)
                            + " "
                            + unit.symbol()
                            + " } ]",
                    "range: " + span.map(Span::believed).orElse("[ -15 psi, 500 psi ]"));
        }
    }

    /**
     * The number is the current of a 4-20 mA loop.
     *
     * @param words what is which current
     * @param loop number to mA; its two points are what the channel's lines say
     * @param doubt as {@link Form#doubt}
     */
    record Current(String words, TwoPoint loop, int doubt) implements Form {

        private static final double LOW_MA = 4;
        private static final double SPAN_MA = 16;
        private static final double NOTHING = 0.01;

        public Current {
            requireNonNull(words, "words");
            requireNonNull(loop, "loop");
        }

        double milliamps(double number) {
            return loop.at(number);
        }

        /** Where in the transducer's span that is, 0 to 1. */
        double share(double number) {
            return (milliamps(number) - LOW_MA) / SPAN_MA;
        }

        @Override
        public OptionalDouble psi(double number, Optional<Span> span) {
            return span.map(s -> OptionalDouble.of(s.psiAt(share(number))))
                    .orElse(OptionalDouble.empty());
        }

        @Override
        public boolean isNextToNothing(double number, double widthPsi) {
            return Math.abs(number) < NOTHING * Math.abs(loop.x2());
        }

        @Override
        public int doubt(Optional<Span> span) {
            return doubt;
        }

        /**
         * @throws IllegalArgumentException without a span: nothing else tells what 4 mA stands for
         */
        @Override
        public List<String> lines(Optional<Span> span) {
            Span known =
                    span.orElseThrow(() -> new IllegalArgumentException("a current has no unit"));
            return List.of(
                    "loop: [ { raw: "
                            + Plain.number(loop.x1())
                            + ", current: "
                            + Plain.number(loop.y1())
                            + " mA }, { raw: "
                            + Plain.number(loop.x2())
                            + ", current: "
                            + Plain.number(loop.y2())
                            + " mA } ]",
                    "scale: [ { at: 4 mA, reads: "
                            + known.in(known.low())
                            + " }, { at: 20 mA, reads: "
                            + known.in(known.high())
                            + " } ]");
        }
    }
}
