package leat.cli;

import java.io.IOException;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
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
import leat.words.FaultWords;
import leat.words.Phrases;
import picocli.CommandLine.Model.CommandSpec;

/** Looks at the registers of one device and says what they may be. */
final class ProbeOfDevice {

    private static final int FIRST_INPUT = 30_001;
    private static final int FIRST_HOLDING = 40_001;
    private static final int SIX_DIGITS_FROM = 9_999;
    private static final double LOW_MA = 3.6;
    private static final double HIGH_MA = 21;

    private final TableWidth width;
    private final Phrases phrases;
    private final ProbeWishes wishes;
    private final ProbeSays says;

    ProbeOfDevice(
            CommandSpec spec,
            TableWidth width,
            ProbeWishes wishes,
            ProbeWishes.Lines lines,
            Phrases phrases) {
        this.phrases = phrases;
        this.width = width;
        this.wishes = wishes;
        this.says = new ProbeSays(spec, width, wishes, lines, phrases);
    }

    /** Returns the exit code. */
    int run(Aim aim, int from, int to, Duration time) throws IOException, InterruptedException {
        says.note(
                phrases.say(
                        "cli.probe.reading",
                        aim.tables().size() == 1
                                ? word(aim.tables().get(0))
                                : phrases.say("cli.probe.both"),
                        Integer.toString(aim.from()),
                        Integer.toString(aim.to()),
                        Integer.toString(aim.unitId()),
                        aim.host() + ":" + aim.port(),
                        Long.toString(time.toSeconds())));
        Surveyed seen = new RegisterSurvey(aim, Pace.polite(time)).look();
        int registers = seen.strips().stream().mapToInt(RegisterStrip::width).sum();
        if (registers > 0) {
            says.note(
                    phrases.say(
                            "cli.probe.asked",
                            Long.toString(seen.requests()),
                            Integer.toString(registers)));
        }
        seen.refusals().forEach(refusal -> says.note(words(refusal)));
        seen.fault().map(new FaultWords(phrases)::of).ifPresent(says::note);
        if (seen.strips().isEmpty()) {
            return ExitCode.FAILED;
        }
        if (!wishes.wantsLines()) {
            list(seen.strips());
        }
        return says.guesses(
                new RegisterGuesses(aim.unitId(), from, to, wishes.doubts()).of(seen.strips()));
    }

    private String words(Refusal refusal) {
        String table = word(refusal.table());
        String from = Integer.toString(refusal.from());
        String what =
                refusal.code() == Refusal.ILLEGAL_ADDRESS
                        ? phrases.say("cli.probe.no-register")
                        : new FaultWords(phrases).of(refusal.meaning());
        return refusal.from() == refusal.to()
                ? phrases.say("cli.probe.refused-one", table, from, what)
                : phrases.say(
                        "cli.probe.refused", table, from, Integer.toString(refusal.to()), what);
    }

    private static String word(Table table) {
        return table == Table.INPUT_REGISTER ? "input" : "holding";
    }

    private void list(List<RegisterStrip> strips) {
        says.note("");
        TextTable table =
                new TextTable(phrases.say("cli.probe.table"), phrases.say("cli.probe.address"))
                        .firm(phrases.say("cli.probe.manual"))
                        .firm(phrases.say("cli.probe.raw"))
                        .firm(phrases.say("cli.probe.moves"))
                        .firm(phrases.say("cli.probe.as-ua"))
                        .firm("int16")
                        .soft(phrases.say("cli.probe.float"), 20);
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
            says.note(phrases.say("cli.probe.zeros", Integer.toString(zeros)));
        }
        says.note(phrases.say("cli.probe.manual-is"));
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
