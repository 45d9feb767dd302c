package leat.replay;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.stream.Collectors;
import leat.diagnose.Diagnosis;
import leat.measure.Startup;
import leat.report.CurveMark;
import leat.report.CurveMarks;
import leat.report.Glyphs;
import leat.report.Shown;
import leat.report.WhyLines;
import leat.rule.Baseline;
import leat.signal.PlainText;
import leat.watch.WatchSettings;
import leat.words.Lines;

/**
 * Why a machine is as it is, on one screen of 80 columns: the sentence first, then the curve with
 * the reason marked in it, then what speaks for and against each cause, the check that decides, and
 * on what all this rests. Immutable.
 *
 * @param shown how numbers and times are shown
 * @param glyphs what the terminal can show
 * @param settings the machine
 * @param baseline what was usual for it; empty while it was learned
 */
public record WhyScreen(
        Shown shown, Glyphs glyphs, WatchSettings settings, Optional<Baseline> baseline) {

    private static final int AXIS = 8;

    /** For the names of the limits beside the curve. */
    private static final int NAMES = 18;

    public WhyScreen {
        requireNonNull(shown, "shown");
        requireNonNull(glyphs, "glyphs");
        requireNonNull(settings, "settings");
        requireNonNull(baseline, "baseline");
    }

    /**
     * @param heading what it is about
     * @param why the diagnosis
     * @param start whose curve is shown; empty where there is none
     * @param past the readings around it, read twice; empty where they are no longer kept
     * @param notes what else there is to know, below the sentence
     * @param answering the command that takes an answer, but for the answer
     */
    public String write(
            String heading,
            Diagnosis why,
            Optional<Startup> start,
            Optional<? extends Past> past,
            List<String> notes,
            String answering) {
        WhyLines lines = new WhyLines(why, shown, glyphs, WhyLines.NARROW);
        List<String> all = new ArrayList<>(wrapped(heading));
        all.addAll(lines.sentence());
        notes.forEach(note -> all.addAll(wrapped(note)));
        start.ifPresent(
                of ->
                        past.ifPresentOrElse(
                                kept -> all.addAll(curve(why, of, kept)),
                                () -> all.addAll(wrapped(shown.say("screen.no-curve")))));
        all.addAll(lines.reasons(Optional.of(answering)));
        return all.stream()
                .map(line -> PlainText.harmless(line, WhyLines.NARROW))
                .map(line -> line + System.lineSeparator())
                .collect(Collectors.joining());
    }

    private List<String> curve(Diagnosis why, Startup start, Past past) {
        StartCurves curves = StartCurves.of(past, start);
        List<CurveMark> marks =
                new CurveMarks(
                                start,
                                curves.inlet(),
                                curves.boosted(),
                                Optional.empty(),
                                baseline,
                                shown)
                        .of(why);
        AccountTimes times = new AccountTimes(shown, OptionalLong.empty());
        AccountPlot plot = new AccountPlot(times, glyphs, WhyLines.NARROW - AXIS - NAMES);
        List<String> lines = new ArrayList<>();
        lines.add("");
        lines.addAll(
                plot.lines(
                        settings,
                        past,
                        AccountPlot.Window.around(start, Long.MAX_VALUE),
                        Optional.of(start),
                        marks));
        return lines;
    }

    private static List<String> wrapped(String text) {
        return new Lines(WhyLines.NARROW).add(PlainText.harmless(text)).broken();
    }
}
