package leat.cli;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import leat.acquire.modbus.Decoding;
import leat.acquire.modbus.RegisterStrip;
import leat.acquire.modbus.RegisterSurvey;
import leat.acquire.modbus.RegisterSurvey.Aim;
import leat.acquire.modbus.RegisterSurvey.Pace;
import leat.acquire.modbus.Surveyed;
import leat.acquire.modbus.Surveyed.Refusal;
import leat.config.Plain;
import leat.config.Point.NumberType;
import leat.config.Point.Table;
import leat.config.Point.WordOrder;
import leat.report.TextTable;
import leat.wiring.RegisterGuesses;
import picocli.CommandLine.Model.CommandSpec;

/** Looks at the registers of one device and says what they may be. */
final class ProbeOfDevice {

    private static final int FIRST_INPUT = 30_001;
    private static final int FIRST_HOLDING = 40_001;
    private static final int SIX_DIGITS_FROM = 9_999;
    private static final double LOW_MA = 3.6;
    private static final double HIGH_MA = 21;

    private final TableWidth width;
    private final ProbeWishes wishes;
    private final ProbeSays says;

    ProbeOfDevice(CommandSpec spec, TableWidth width, ProbeWishes wishes, ProbeWishes.Lines lines) {
        this.width = width;
        this.wishes = wishes;
        this.says = new ProbeSays(spec, width, wishes, lines);
    }

    /** Returns the exit code. */
    int run(Aim aim, int from, int to, Duration time) throws IOException, InterruptedException {
        says.note(
                String.format(
                        Locale.ROOT,
                        "Reading %s registers %d to %d of unit %d at %s:%d for about %d s, at most"
                                + " 20 requests a second. Nothing is written.",
                        aim.tables().stream()
                                .map(ProbeOfDevice::word)
                                .collect(Collectors.joining(" and ")),
                        aim.from(),
                        aim.to(),
                        aim.unitId(),
                        aim.host(),
                        aim.port(),
                        time.toSeconds()));
        Surveyed seen = new RegisterSurvey(aim, Pace.polite(time)).look();
        int registers = seen.strips().stream().mapToInt(RegisterStrip::width).sum();
        if (registers > 0) {
            says.note(
                    "Asked " + seen.requests() + " times; " + registers + " registers are there.");
        }
        seen.refusals().forEach(refusal -> says.note(words(refusal)));
        seen.fault().ifPresent(says::note);
        if (seen.strips().isEmpty()) {
            return ExitCode.FAILED;
        }
        if (!wishes.wantsLines()) {
            list(seen.strips());
        }
        return says.guesses(
                new RegisterGuesses(aim.unitId(), from, to, wishes.doubts()).of(seen.strips()));
    }

    private static String words(Refusal refusal) {
        String which =
                refusal.from() == refusal.to()
                        ? " register " + refusal.from()
                        : " registers " + refusal.from() + " to " + refusal.to();
        String what =
                refusal.code() == Refusal.ILLEGAL_ADDRESS
                        ? "the device has no such register (exception 2); try the other table,"
                                + " another --from or --unit"
                        : refusal.meaning();
        return word(refusal.table()) + which + ": " + what + ".";
    }

    private static String word(Table table) {
        return table == Table.INPUT_REGISTER ? "input" : "holding";
    }

    private void list(List<RegisterStrip> strips) {
        says.note("");
        TextTable table =
                new TextTable("table", "address")
                        .firm("manual")
                        .firm("raw")
                        .firm("moves")
                        .firm("as uA")
                        .firm("int16")
                        .soft("float32, with next", 20);
        int zeros = 0;
        for (RegisterStrip strip : strips) {
            for (int at = 0; at < strip.width(); at++) {
                if (wishes.all() || raw(strip, at).anyMatch(word -> word != 0)) {
                    row(table, strip, at);
                } else {
                    zeros++;
                }
            }
        }
        width.print(table);
        if (zeros > 0) {
            says.note(zeros + " further registers read 0 and are not listed; --all lists them.");
        }
        says.note(
                "manual: as manuals often count; input 0 is 30001, holding 0 is 40001. leat counts"
                        + " from 0, as the wire does.");
    }

    private static void row(TextTable table, RegisterStrip strip, int at) {
        int address = strip.address() + at;
        int first = raw(strip, at).findFirst().orElseThrow();
        int least = raw(strip, at).min().orElseThrow();
        int most = raw(strip, at).max().orElseThrow();
        double milliamps = first / 1000.0;
        table.row(
                word(strip.table()),
                Integer.toString(address),
                manual(strip.table(), address),
                Integer.toString(first),
                least == most ? "" : Integer.toString(most - least),
                milliamps < LOW_MA || milliamps > HIGH_MA
                        ? ""
                        : String.format(Locale.ROOT, "%.2f mA", milliamps),
                first > Short.MAX_VALUE ? Integer.toString((short) first) : "",
                floats(strip, at));
    }

    private static String manual(Table table, int address) {
        int first = table == Table.INPUT_REGISTER ? FIRST_INPUT : FIRST_HOLDING;
        int long6 = first / 10_000 * 100_000 + 1;
        return Integer.toString((address < SIX_DIGITS_FROM ? first : long6) + address);
    }

    /** In each order of words in which it is a number that a gauge may show. */
    private static String floats(RegisterStrip strip, int at) {
        if (at + 1 == strip.width()) {
            return "";
        }
        int[] words = strip.reads().get(0).stream().mapToInt(word -> word).toArray();
        StringBuilder text = new StringBuilder();
        for (WordOrder order : WordOrder.values()) {
            double number = new Decoding(NumberType.FLOAT32, order).number(words, at);
            if (Math.abs(number) >= 1e-3 && Math.abs(number) < 1e5) {
                text.append(text.isEmpty() ? "" : ", ")
                        .append(Plain.number(number))
                        .append(' ')
                        .append(order);
            }
        }
        return text.toString();
    }

    private static IntStream raw(RegisterStrip strip, int at) {
        return strip.reads().stream().mapToInt(words -> words.get(at));
    }
}
