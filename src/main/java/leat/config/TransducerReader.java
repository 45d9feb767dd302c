package leat.config;

import java.util.List;
import java.util.Optional;
import leat.signal.PressureUnit;
import leat.signal.Transducer;
import leat.signal.TwoPoint;

/**
 * Reads {@code loop}, {@code scale}, {@code unit} and {@code range}: from a number to a pressure.
 */
final class TransducerReader {

    private static final QuantityForm PRESSURE = QuantityForm.pressure(-15, 10_000);
    private static final QuantityForm CURRENT = QuantityForm.current(0, 25);
    private static final NumberForm RAW = new NumberForm(-1e10, 1e10, false);

    /** Where nothing tells the span of the transducer: full vacuum to any low-pressure line. */
    private static final double LOW_PSI = -15;

    private static final double HIGH_PSI = 500;

    /** How far beyond its two scaling points a transducer is believed. */
    private static final double MARGIN = 0.1;

    private static final Key<Double> LOOP_RAW =
            Key.required("raw", RAW, "number that the device delivers");
    private static final Key<Double> LOOP_CURRENT =
            Key.required("current", CURRENT, "loop current that it stands for");
    static final Pair LOOP =
            new Pair(
                    Block.of(LOOP_RAW, LOOP_CURRENT),
                    "[ { raw: 0, current: 0 mA }, { raw: 4095, current: 20.5 mA } ]");

    private static final Key<ScaleInput> SCALE_AT =
            Key.required(
                    "at",
                    new ScaleInputForm(CURRENT, RAW),
                    "loop current; without loop the number that the device delivers");
    private static final Key<Double> SCALE_READS =
            Key.required("reads", PRESSURE, "pressure that it stands for");
    static final Pair SCALE =
            new Pair(
                    Block.of(SCALE_AT, SCALE_READS),
                    "[ { at: 4 mA, reads: 0 psi }, { at: 20 mA, reads: 200 psi } ]");

    static final Key<PressureUnit> UNIT =
            Key.optional(
                    "unit",
                    ChoiceForm.of(List.of(PressureUnit.values()), PressureUnit::symbol),
                    "instead of scale, where the number already is a pressure");

    static final Key<RangeForm.Range> RANGE =
            Key.optional(
                    "range",
                    new RangeForm(PRESSURE),
                    "pressures outside are not believed; left out, the pressures of scale and a"
                            + " tenth of their span beyond, or with unit -15 to 500 psi");

    private TransducerReader() {}

    /** Reads the parts that stand in the fields of one channel. */
    static Optional<Transducer> read(Fields channel) {
        Optional<Cursor> loopAt = channel.at("loop");
        Optional<TwoPoint> loop = loopAt.flatMap(TransducerReader::loop);
        Optional<TwoPoint> scale =
                channel.at("scale")
                        .flatMap(c -> scale(c, loopAt.isPresent()))
                        .or(() -> channel.maybe(UNIT).map(TransducerReader::identity));
        Optional<RangeForm.Range> range =
                channel.has("range") ? channel.maybe(RANGE) : scale.map(s -> range(channel, s));
        if (scale.isEmpty() || range.isEmpty() || loop.isPresent() != loopAt.isPresent()) {
            return Optional.empty();
        }
        return Optional.of(
                new Transducer(loop, scale.get(), range.get().lowPsi(), range.get().highPsi()));
    }

    private static TwoPoint identity(PressureUnit unit) {
        return new TwoPoint(0, 0, 1, unit.toPsi(1));
    }

    private static RangeForm.Range range(Fields channel, TwoPoint scale) {
        if (!channel.has("scale")) {
            return new RangeForm.Range(LOW_PSI, HIGH_PSI);
        }
        double low = Math.min(scale.y1(), scale.y2());
        double high = Math.max(scale.y1(), scale.y2());
        double margin = MARGIN * (high - low);
        return new RangeForm.Range(low - margin, high + margin);
    }

    private static Optional<TwoPoint> loop(Cursor at) {
        Optional<List<Cursor>> points = LOOP.read(at);
        if (points.isEmpty()) {
            return Optional.empty();
        }
        Fields first = Fields.of(points.get().get(0), LOOP.each());
        Fields second = Fields.of(points.get().get(1), LOOP.each());
        if (!first.isWhole() || !second.isWhole()) {
            return Optional.empty();
        }
        return line(
                at,
                first.the(LOOP_RAW),
                first.the(LOOP_CURRENT),
                second.the(LOOP_RAW),
                second.the(LOOP_CURRENT));
    }

    private static Optional<TwoPoint> scale(Cursor at, boolean isLoop) {
        Optional<List<Cursor>> points = SCALE.read(at);
        if (points.isEmpty()) {
            return Optional.empty();
        }
        Fields first = Fields.of(points.get().get(0), SCALE.each());
        Fields second = Fields.of(points.get().get(1), SCALE.each());
        boolean fits = fits(first, isLoop) & fits(second, isLoop);
        if (!fits || !first.isWhole() || !second.isWhole()) {
            return Optional.empty();
        }
        return line(
                at,
                first.the(SCALE_AT).value(),
                first.the(SCALE_READS),
                second.the(SCALE_AT).value(),
                second.the(SCALE_READS));
    }

    /** A loop current is scaled by mA, anything else by the bare number. */
    private static boolean fits(Fields point, boolean isLoop) {
        Optional<ScaleInput> input = point.maybe(SCALE_AT);
        if (input.isEmpty() || input.get().isCurrent() == isLoop) {
            return true;
        }
        Cursor at = point.at("at").orElseThrow();
        if (isLoop) {
            at.wrong("a bare number, but loop makes it a current", "a loop current, such as 4 mA");
        } else {
            at.wrong(
                    "a loop current, but nothing says which number is which current",
                    "add loop, such as loop: " + LOOP.example() + ", or scale the bare number");
        }
        return false;
    }

    private static Optional<TwoPoint> line(Cursor at, double x1, double y1, double x2, double y2) {
        if (x1 == x2 || y1 == y2) {
            at.wrong("the two points make no line", "two points that differ in both numbers");
            return Optional.empty();
        }
        return Optional.of(new TwoPoint(x1, y1, x2, y2));
    }
}
