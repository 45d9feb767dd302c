package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import leat.alarm.AlarmChange;
import leat.diagnose.Diagnosis;
import leat.measure.RestSpell;
import leat.measure.SteadySpell;
import leat.report.CurveMark;
import leat.report.CurveMarks;
import leat.report.Glyphs;
import leat.report.RunRows;
import leat.report.Shown;
import leat.report.StartupRows;
import leat.report.TextTable;
import leat.report.WhyLines;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.JudgedRun;
import leat.rule.Learning;
import leat.rule.Limit;
import leat.rule.RunVerdict;
import leat.signal.PlainText;
import leat.watch.Outcome;
import leat.words.AlarmWords;
import leat.words.FindingWords;
import leat.words.Lines;
import leat.words.RunWords;

/**
 * A replay as one screen of text: the curve, the numbers beside what they should be, what fired and
 * why, what to check first, and the caution. Immutable.
 *
 * @param shown how numbers and times are shown
 * @param glyphs what the terminal can show
 * @param zeroMicros where the past counts its own seconds: time of second 0, microseconds UTC
 * @param learning how far the machine's baseline had been learned, where a startup was judged
 *     without one; empty when that is not known
 */
public record Account(
        Shown shown, Glyphs glyphs, OptionalLong zeroMicros, Optional<Learning> learning) {

    private static final int LONGEST_LINE = 1_000;

    /** Of a terminal that nobody has made wider. */
    private static final int WIDTH = 80;

    private static final int CHARACTERS = 61;
    private static final int MOST_ROWS = 6;
    private static final int MOST_SPELLS = 3;
    private static final double SECOND = 1e6;

    public Account {
        requireNonNull(shown, "shown");
        requireNonNull(glyphs, "glyphs");
        requireNonNull(zeroMicros, "zeroMicros");
        requireNonNull(learning, "learning");
    }

    /**
     * @param past what was replayed; it is read again, for the curve and its marks
     * @param notes what else a person should know; whole sentences
     * @param stored why the startup that it is about was so, by what the store holds; empty of a
     *     recording and of a span
     */
    public String write(
            Replayed replayed, Past past, List<String> notes, Optional<StoredWhy> stored) {
        AccountTimes times = times();
        List<String> lines = new ArrayList<>();
        wrap(heading(replayed), lines);
        notes.forEach(note -> wrap(note, lines));
        if (replayed.counts().samples() == 0) {
            lines.add(shown.say("replay.empty"));
            return joined(lines);
        }
        Optional<JudgedStartup> told = replayed.told();
        Diagnosis why = stored.map(StoredWhy::why).orElseGet(() -> why(replayed));
        WhyLines whyLines = new WhyLines(why, shown, glyphs, WIDTH);
        List<CurveMark> marks = List.of();
        if (isSaid(why)) {
            lines.addAll(whyLines.sentence());
            marks = marks(why, past, told);
        }
        lines.add("");
        lines.addAll(new AccountPlot(times, glyphs, CHARACTERS).lines(replayed, past, told, marks));
        told.ifPresent(startup -> lines.addAll(startup(replayed, startup)));
        lines.addAll(others(replayed, told));
        lines.addAll(spells(replayed));
        lines.add("");
        lines.addAll(fired(replayed));
        if (isSaid(why)) {
            lines.addAll(whyLines.brief(stored.map(StoredWhy::asking)));
        } else {
            lines.addAll(advice(replayed.alarms()));
        }
        return joined(lines);
    }

    /** Of the start that it is about, else of all of it together. */
    private static Diagnosis why(Replayed replayed) {
        return replayed.about().map(replayed::why).orElseGet(replayed::why);
    }

    /** Where nothing is wrong or nothing is known, the alarms say what to look at. */
    private static boolean isSaid(Diagnosis why) {
        return why.first().cause().isFault();
    }

    private List<CurveMark> marks(Diagnosis why, Past past, Optional<JudgedStartup> told) {
        return told.map(
                        judged -> {
                            StartCurves curves = StartCurves.of(past, judged.startup());
                            return new CurveMarks(
                                            judged.startup(),
                                            curves.inlet(),
                                            curves.boosted(),
                                            judged.seen().rest(),
                                            judged.baseline(),
                                            shown)
                                    .of(why);
                        })
                .orElse(List.of());
    }

    private AccountTimes times() {
        return new AccountTimes(shown, zeroMicros);
    }

    private String time(long micros) {
        return times().text(micros);
    }

    /** What a recording says of itself came from anywhere: each line stays one and harmless. */
    private static String joined(List<String> lines) {
        return lines.stream()
                .map(line -> PlainText.harmless(line, LONGEST_LINE) + System.lineSeparator())
                .collect(Collectors.joining());
    }

    private String heading(Replayed replayed) {
        Counts counts = replayed.counts();
        List<String> parts = new ArrayList<>();
        parts.add(
                shown.say(
                        "replay.heading",
                        replayed.settings().machine(),
                        time(replayed.fromMicros()),
                        time(replayed.toMicros()),
                        counts.samples()));
        add(parts, counts.bad(), "replay.bad");
        add(parts, counts.uncertain(), "replay.uncertain");
        add(parts, counts.late(), "replay.late");
        add(parts, counts.ahead(), "replay.ahead");
        add(parts, counts.disbelieved(), "replay.disbelieved");
        if (counts.gaps() > 0) {
            double longest = counts.longestGapMicros() / SECOND;
            parts.add(
                    shown.say(
                            "replay.gaps",
                            Long.toString(counts.gaps()),
                            shown.numbers().seconds(longest, 1)));
        }
        return String.join(", ", parts);
    }

    private void add(List<String> parts, long count, String key) {
        if (count > 0) {
            parts.add(shown.say(key, Long.toString(count)));
        }
    }

    private List<String> startup(Replayed replayed, JudgedStartup judged) {
        List<String> lines = new ArrayList<>();
        wrap(heading(judged), lines);
        if (judged.baseline().isEmpty()) {
            wrap(
                    learning.map(shown.findings()::learning)
                            .orElseGet(() -> shown.say("replay.no-baseline")),
                    lines);
        }
        new StartupRows(shown, replayed.settings().limits(), judged.baseline())
                .table(judged.startup(), glyphs)
                .folded(WIDTH)
                .lines()
                .forEach(lines::add);
        judged.startup().remarks().forEach(remark -> wrap(shown.findings().climb(remark), lines));
        judged.run().ifPresent(run -> lines.addAll(run(replayed, judged, run)));
        return lines;
    }

    /** What was wrong in it first, each thing on a line of its own. */
    private List<String> run(Replayed replayed, JudgedStartup judged, JudgedRun run) {
        List<String> lines = new ArrayList<>();
        RunWords words = shown.findings().runs();
        RunRows rows = new RunRows(shown, replayed.settings().limits(), judged.baseline());
        boolean goesOn = run.run().endedAtMicros() > replayed.toMicros();
        wrap(
                shown.say(
                        goesOn ? "replay.run.goes-on" : "replay.run",
                        rows.heading(run, judged.verdict())),
                lines);
        List<String> good = new ArrayList<>();
        for (RunRows.Line line : rows.lines(run, judged.startup(), judged.verdict())) {
            String measured = line.title() + " " + glyphs.shown(line.measured());
            if (line.mark() == RunVerdict.Mark.GOOD) {
                good.add(measured);
            } else {
                wrap(words.mark(line.mark()) + ": " + measured + should(line), lines);
            }
        }
        if (!good.isEmpty()) {
            wrap(words.mark(RunVerdict.Mark.GOOD) + ": " + String.join("; ", good), lines);
        }
        wrap(rows.raised(words.raised(run.verdict())), lines);
        return lines;
    }

    private String should(RunRows.Line line) {
        return line.wanted().isEmpty() ? "" : ", " + shown.say("replay.should", line.wanted());
    }

    private String heading(JudgedStartup judged) {
        return shown.say(
                "replay.start",
                time(judged.startup().startedAtMicros()),
                verdict(judged),
                shown.findings().note(judged.verdict()));
    }

    /** Of the run, then of its start, where that is another word. */
    private String verdict(JudgedStartup judged) {
        String rise = shown.verdict(judged.verdict().outcome());
        return judged.run()
                .map(run -> shown.findings().runs().brief(run, judged.verdict()))
                .map(run -> run.contains(rise) ? run : run + "; " + rise)
                .orElse(rise);
    }

    private List<String> others(Replayed replayed, Optional<JudgedStartup> told) {
        List<String> lines = new ArrayList<>();
        List<JudgedStartup> others =
                replayed.startups().stream().filter(s -> s != told.orElse(null)).toList();
        for (JudgedStartup other : others.subList(0, Math.min(MOST_ROWS, others.size()))) {
            wrap(heading(other), lines);
        }
        addMore(others.size(), MOST_ROWS, "replay.more.starts", lines);
        return lines;
    }

    private List<String> spells(Replayed replayed) {
        List<String> lines = new ArrayList<>();
        List<SteadySpell> steadies =
                replayed.all(Outcome.SteadyMeasured.class).stream()
                        .map(Outcome.SteadyMeasured::spell)
                        .toList();
        for (SteadySpell spell : steadies.subList(0, Math.min(MOST_SPELLS, steadies.size()))) {
            wrap(
                    shown.say(
                            "replay.steady",
                            time(spell.fromMicros()),
                            shown.pressure(spell.inletPsi()),
                            shown.pressure(spell.boostedPsi()),
                            shown.ratio(spell.ratio())),
                    lines);
        }
        addMore(steadies.size(), MOST_SPELLS, "replay.more.steady", lines);
        List<RestSpell> rests =
                replayed.all(Outcome.RestMeasured.class).stream()
                        .map(Outcome.RestMeasured::spell)
                        .filter(spell -> spell.boostedPsi().isPresent())
                        .toList();
        double most = replayed.settings().limits().get(Limit.REST_ADVISORY);
        for (RestSpell spell : rests.subList(0, Math.min(MOST_SPELLS, rests.size()))) {
            wrap(
                    shown.say(
                            spell.settled() ? "replay.rest" : "replay.rest.falling",
                            time(spell.stoppedAtMicros()),
                            shown.pressure(spell.boostedPsi()),
                            shown.pressure(most)),
                    lines);
        }
        addMore(rests.size(), MOST_SPELLS, "replay.more.rests", lines);
        return lines;
    }

    private void addMore(int count, int most, String key, List<String> lines) {
        if (count > most) {
            lines.add(shown.say(key, Integer.toString(count - most)));
        }
    }

    private List<String> fired(Replayed replayed) {
        List<String> lines = new ArrayList<>();
        if (replayed.alarms().isEmpty()) {
            boolean later =
                    replayed.startups().stream()
                            .flatMap(start -> start.run().stream())
                            .anyMatch(run -> !run.verdict().raised().isEmpty());
            wrap(shown.say(later ? "replay.no-alarm.yet" : "replay.no-alarm"), lines);
            return lines;
        }
        TextTable table =
                new TextTable()
                        .soft(shown.say("cli.column.raised"), 15)
                        .soft(shown.say("cli.column.grade"), 8)
                        .soft(shown.say("cli.column.what"), 14)
                        .soft(shown.say("replay.column.measured"), 20)
                        .soft(shown.say("replay.column.returned"), 15);
        List<AlarmLife> alarms = replayed.alarms();
        for (AlarmLife alarm : alarms.subList(0, Math.min(MOST_ROWS, alarms.size()))) {
            Finding finding = alarm.gravest();
            table.row(
                    time(alarm.first().atMicros()),
                    grades(alarm),
                    shown.findings().what(finding),
                    shown.measured(finding) + lasting(finding),
                    alarm.returned()
                            .map(AlarmChange::atMicros)
                            .map(this::time)
                            .orElseGet(() -> shown.say("replay.stands")));
        }
        table.folded(WIDTH).lines().forEach(lines::add);
        addMore(alarms.size(), MOST_ROWS, "replay.more.alarms", lines);
        replayed.all(Outcome.InstructionRefused.class).stream()
                .map(Outcome.InstructionRefused::reason)
                .map(new AlarmWords(shown.phrases())::refusal)
                .forEach(why -> wrap(shown.say("replay.refused", why), lines));
        return lines;
    }

    private String lasting(Finding finding) {
        double seconds = (finding.atMicros() - finding.sinceMicros()) / SECOND;
        return seconds < 1
                ? ""
                : ", " + shown.say("replay.lasting", shown.numbers().seconds(seconds, 0));
    }

    private String grades(AlarmLife alarm) {
        String gravest = shown.findings().grade(alarm.grade());
        Grade first = alarm.first().finding().grade();
        return first == alarm.grade()
                ? gravest
                : shown.say("replay.then", shown.findings().grade(first), gravest);
    }

    private List<String> advice(List<AlarmLife> alarms) {
        if (alarms.isEmpty()) {
            return List.of();
        }
        Finding gravest =
                alarms.stream()
                        .max(
                                Comparator.comparing(AlarmLife::grade)
                                        .thenComparing(a -> -a.first().atMicros()))
                        .orElseThrow()
                        .gravest();
        FindingWords words = shown.findings();
        Lines lines = new Lines(WIDTH);
        lines.add("");
        lines.add(shown.say("replay.check-first", words.what(gravest)));
        int number = 1;
        for (String check : words.checks(gravest)) {
            lines.add(number++ + ". " + check);
        }
        return lines.add(shown.say("screen.caution", words.caution())).broken();
    }

    private static void wrap(String text, List<String> lines) {
        lines.addAll(new Lines(WIDTH).add(text).broken());
    }
}
