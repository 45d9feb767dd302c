package leat.acquire.recording;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;

/** Inputs of every kind from a seed, with the numbers, times and words that are hardest to keep. */
final class RandomInputs {

    private static final List<String> HARD_WORDS =
            List.of(
                    "",
                    " ",
                    " by ",
                    ": ",
                    "a by b: c by d",
                    "inlet cable cut at 127.0.0.1:502, check the plug",
                    "it's \"quoted\"; '--",
                    "\"",
                    "two\r\nlines\tand a tab\r",
                    "\\n is no line end, \\\\ no backslash, \\u{41} no A",
                    "Zo\u00eb's Sto\u00df \u2013 \u6c34\u5727 \ud83d\udca7",
                    "nul\u0000inside and \u001b[31m",
                    "half a pair \ud83d",
                    "\udca7 the other half",
                    "\udca7\ud83d turned around",
                    "\uffff\ufffe\ufeff\ufffd\u2028\u202e",
                    "# end: 3 rows",
                    "=1+1",
                    "tick");

    private static final double[] HARD_NUMBERS = {
        0.0,
        -0.0,
        1,
        -1,
        Double.MIN_VALUE,
        Double.MAX_VALUE,
        -Double.MAX_VALUE,
        Double.MIN_NORMAL,
        0.1,
        100.0,
        1e15 + 0.5,
        1e22,
        1e23,
        9_007_199_254_740_993.0,
        2.2250738585072011e-308
    };

    private final Random random;
    private long micros = 1_767_592_800_000_000L; // 2026-01-05T06:00:00Z

    private RandomInputs(long seed) {
        random = new Random(seed);
    }

    static List<Input> of(long seed, int count) {
        RandomInputs story = new RandomInputs(seed);
        List<Input> inputs = new ArrayList<>();
        while (inputs.size() < count) {
            inputs.add(story.input());
        }
        return inputs;
    }

    private Input input() {
        time();
        return switch (random.nextInt(12)) {
            case 0 -> new Tick(Math.floorDiv(micros, Tick.PERIOD_MICROS) * Tick.PERIOD_MICROS);
            case 1 -> new SourceLost(channel(), micros, words());
            case 2 -> new SourceBack(channel(), micros);
            case 3 -> new ClockStep(micros, random.nextLong());
            case 4 -> aboutAlarm();
            case 5 -> new Instruction(micros, "Kim" + words(), journal());
            default -> reading();
        };
    }

    /** Often the same stamp again, sometimes an earlier one, once in a while another millennium. */
    private void time() {
        switch (random.nextInt(50)) {
            case 0 -> micros -= random.nextInt(2_000_000);
            case 1 -> micros = random.nextLong() / 16;
            case 2 -> micros = 1_767_592_800_000_000L;
            case 3 -> micros = Math.floorDiv(micros, 1_000_000L) * 1_000_000;
            default -> micros += random.nextInt(3) == 0 ? random.nextInt(100_000) : 0;
        }
    }

    private Order.Journal journal() {
        Order.Entry entry = any(Order.Entry.values());
        String found = entry == Order.Entry.ANSWER || random.nextBoolean() ? "stays-low" : "";
        return new Order.Journal(entry, words(), found);
    }

    private Instruction aboutAlarm() {
        return switch (random.nextInt(6)) {
            case 0 -> new Instruction(micros, "Kim" + words(), new Order.Acknowledge(words()));
            case 1 -> new Instruction(micros, "Kim" + words(), new Order.Reset(words()));
            case 2 ->
                    new Instruction(
                            micros,
                            "Kim" + words(),
                            new Order.Shelve(words(), random.nextLong() / 16, "why" + words()));
            case 3 -> new Instruction(micros, "Kim" + words(), new Order.Unshelve(words()));
            case 4 ->
                    new Instruction(
                            micros, "Kim" + words(), new Order.Remove(words(), "why" + words()));
            default -> new Instruction(micros, "Kim" + words(), new Order.Restore(words()));
        };
    }

    private Reading reading() {
        Quality quality = random.nextInt(3) == 0 ? any(Quality.values()) : Quality.GOOD;
        double value = quality.isUsable() ? number() : random.nextInt(9) == 0 ? -0.0 : 0.0;
        return new Reading(channel(), micros, value, quality);
    }

    private double number() {
        return switch (random.nextInt(4)) {
            case 0 -> HARD_NUMBERS[random.nextInt(HARD_NUMBERS.length)];
            case 1 -> finite(Double.longBitsToDouble(random.nextLong()));
            case 2 -> Math.rint(1000 * random.nextGaussian()) / 100;
            default -> random.nextGaussian() * Math.pow(10, random.nextInt(8) - 3);
        };
    }

    private static double finite(double value) {
        return Double.isFinite(value) ? value : 0;
    }

    private String words() {
        return HARD_WORDS.get(random.nextInt(HARD_WORDS.size()));
    }

    private Channel channel() {
        return any(Channel.values());
    }

    private <T> T any(T[] all) {
        return all[random.nextInt(all.length)];
    }
}
