package leat.wiring;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Random;
import leat.acquire.modbus.RegisterStrip;
import leat.config.Point.NumberType;
import leat.config.Point.Register;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.signal.PressureUnit;

/**
 * A device of chance: one pressure somewhere among registers that hold nothing, settings, states,
 * counters and the other half of something. The pressure is held still but for its noise.
 *
 * @param span of the transducer
 * @param form how its number stands for the pressure
 * @param type of the number
 * @param order of its words
 * @param at index of its first register
 * @param psi what a gauge beside it shows
 * @param reads the registers, read after read
 */
record DrawnDevice(
        Span span,
        Form form,
        NumberType type,
        WordOrder order,
        int at,
        double psi,
        List<List<Integer>> reads) {

    private static final int REGISTERS = 10;
    private static final int READS = 8;

    private static final List<Span> SPANS =
            List.of(
                    new Span(0, 200, PressureUnit.PSI),
                    new Span(0, 100, PressureUnit.PSI),
                    new Span(0, 150, PressureUnit.PSI),
                    new Span(0, 16, PressureUnit.BAR),
                    new Span(-1, 10, PressureUnit.BAR),
                    new Span(0, 1000, PressureUnit.KPA));

    static DrawnDevice of(long seed) {
        Random chance = new Random(seed);
        chance.nextInt();
        Span span = SPANS.get(chance.nextInt(SPANS.size()));
        double truth = span.psiAt(0.05 + 0.9 * chance.nextDouble());
        truth = Math.max(truth, 0.05 * span.widthPsi());
        double noise = 0.003 * chance.nextDouble() * span.widthPsi();
        NumberType type = NumberType.values()[chance.nextInt(NumberType.values().length)];
        WordOrder order = WordOrder.values()[chance.nextInt(WordOrder.values().length)];
        Form form = form(type, span, truth, chance);
        int at = chance.nextInt(REGISTERS - 1);
        int[] idle = chance.ints(REGISTERS).map(word -> idle(chance)).toArray();
        List<List<Integer>> reads = new ArrayList<>();
        for (int i = 0; i < READS; i++) {
            List<Integer> words = new ArrayList<>();
            for (int word : idle) {
                words.add(word);
            }
            double number = number(form, span, truth + noise * chance.nextGaussian());
            int[] own = words(type, order, number);
            for (int w = 0; w < own.length; w++) {
                words.set(at + w, own[w]);
            }
            reads.add(words);
        }
        return new DrawnDevice(span, form, type, order, at, truth, reads);
    }

    private static int idle(Random chance) {
        return switch (chance.nextInt(4)) {
            case 0 -> 0;
            case 1 -> chance.nextInt(8);
            case 2 -> chance.nextInt(2000);
            default -> chance.nextInt(65_536);
        };
    }

    /** One whose number fits the registers. */
    private static Form form(NumberType type, Span span, double psi, Random chance) {
        List<Form> forms =
                switch (type) {
                    case FLOAT32 -> Forms.FRACTIONAL;
                    case INT32, UINT32 -> Forms.WHOLE_32;
                    case INT16, UINT16 -> Forms.WHOLE;
                };
        double most = type == NumberType.INT16 ? 32_000 : type == NumberType.UINT16 ? 65_000 : 1e9;
        List<Form> fit = forms.stream().filter(f -> number(f, span, 1.05 * psi) < most).toList();
        return fit.get(chance.nextInt(fit.size()));
    }

    private static double number(Form form, Span span, double psi) {
        if (form instanceof Form.Direct direct) {
            return direct.unit().fromPsi(psi) * Math.pow(10, direct.decimals());
        }
        Form.Current current = (Form.Current) form;
        double share = (span.unit().fromPsi(psi) - span.low()) / (span.high() - span.low());
        return current.loop().inputFor(4 + 16 * share);
    }

    private static int[] words(NumberType type, WordOrder order, double number) {
        if (type.registers() == 1) {
            return new int[] {(int) Math.round(number) & 0xffff};
        }
        int bits =
                type == NumberType.FLOAT32
                        ? Float.floatToIntBits((float) number)
                        : (int) Math.round(number);
        int high = bits >>> 16;
        int low = bits & 0xffff;
        return switch (order) {
            case ABCD -> new int[] {high, low};
            case CDAB -> new int[] {low, high};
            case BADC -> new int[] {swapped(high), swapped(low)};
            case DCBA -> new int[] {swapped(low), swapped(high)};
        };
    }

    private static int swapped(int word) {
        return (word & 0xff) << 8 | word >>> 8;
    }

    RegisterStrip strip() {
        return new RegisterStrip(Table.INPUT_REGISTER, 0, reads);
    }

    /** What is guessed of it, with a hand gauge that is 1 % of the span off, or without one. */
    List<Guess> guesses(boolean withGauge) {
        double shown = span.unit().fromPsi(psi + 0.01 * span.widthPsi());
        Optional<TypedPressure> gauge =
                Optional.of(new TypedPressure(shown, span.unit())).filter(g -> withGauge);
        return new RegisterGuesses(1, 0, REGISTERS - 1, new Doubts(Optional.of(span), gauge))
                .of(List.of(strip()));
    }

    /** Read in one of the ways that are met most often. */
    boolean isCommon() {
        boolean plain = order == WordOrder.ABCD || order == WordOrder.CDAB;
        return form.doubt(Optional.of(span)) <= 1
                && (type.registers() == 1 || type == NumberType.FLOAT32 && plain);
    }

    /** Whether this reading gives the true pressure: here, or in the one half that holds it all. */
    boolean isRight(Guess guess) {
        double mean =
                guess.numbers().stream()
                        .mapToDouble(n -> guess.form().psi(n, Optional.of(span)).orElseThrow())
                        .average()
                        .orElseThrow();
        int address = ((Register) guess.point()).address();
        boolean isHere =
                address == at || type != NumberType.FLOAT32 && address == at + type.registers() - 1;
        return isHere && Math.abs(mean - psi) < 0.02 * span.widthPsi() + grainPsi();
    }

    /** The pressure of one count. */
    private double grainPsi() {
        double one = form.psi(1, Optional.of(span)).orElseThrow();
        double two = form.psi(2, Optional.of(span)).orElseThrow();
        return type == NumberType.FLOAT32 ? 0 : two - one;
    }
}
