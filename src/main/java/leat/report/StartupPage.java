package leat.report;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.Optional;
import leat.measure.ClimbRemark;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.rule.JudgedRun;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.rule.RunVerdict;
import leat.rule.StartupVerdict;
import leat.words.RunWords;

/**
 * One startup as a page of HTML that needs nothing else: no script, no other file, no network. It
 * prints on one sheet of A4 and can be read in a light and a dark window.
 */
public final class StartupPage {

    private final StartupView view;
    private final Shown shown;
    private final StringBuilder page = new StringBuilder();

    private StartupPage(StartupView view, Shown shown) {
        this.view = view;
        this.shown = shown;
    }

    /** The whole document. */
    public static String of(StartupView view, Shown shown) {
        return new StartupPage(view, shown).write();
    }

    private String write() {
        String title =
                shown.say(
                        "screen.start",
                        view.machine(),
                        shown.time(view.startup().startedAtMicros()));
        page.append("<!doctype html>\n<html lang=\"")
                .append(shown.language().key())
                .append("\">\n<head>\n<meta charset=\"utf-8\">\n")
                .append(
                        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n")
                .append("<title>leat: ")
                .append(escape(title))
                .append("</title>\n<style>\n")
                .append(style())
                .append("</style>\n</head>\n<body>\n<main>\n");
        head(title);
        Optional<WhySections> why = why();
        boolean hasSheet = why.map(WhySections::hasSheet).orElse(false);
        page.append(why.isPresent() ? "<div class=\"pair\">\n<div>\n" : "<div>\n<div>\n");
        page.append(new StartupPlot(view, shown, marks()).draw()).append("</div>\n");
        why.ifPresent(
                sections ->
                        page.append("<div class=\"why\">\n")
                                .append(sections.causes())
                                .append("</div>\n"));
        page.append("</div>\n");
        page.append(why.filter(sections -> hasSheet).map(WhySections::sheet).orElse(""));
        page.append(hasSheet ? "<section class=\"figures tight\">" : "<section class=\"figures\">");
        page.append("\n<div>\n");
        numbers();
        page.append("</div>\n<div class=\"beside\">\n");
        view.run().ifPresent(this::run);
        fired();
        page.append("</div>\n</section>\n");
        if (!hasSheet) {
            cautions();
        }
        return page.append("</main>\n</body>\n</html>\n").toString();
    }

    private Optional<WhySections> why() {
        return view.why().map(why -> new WhySections(why, shown, view.machine(), view.answering()));
    }

    private List<CurveMark> marks() {
        CurveMarks marks =
                new CurveMarks(
                        view.startup(),
                        view.inlet(),
                        view.boosted(),
                        Optional.empty(),
                        view.baseline(),
                        shown);
        return view.why().map(marks::of).orElse(List.of());
    }

    private static String style() {
        try (InputStream css = StartupPage.class.getResourceAsStream("startup.css")) {
            return new String(css.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException("the style sheet is missing from the program", e);
        }
    }

    private void head(String title) {
        page.append("<h1>").append(escape(title)).append("</h1>\n");
        page.append("<p class=\"soft\">").append(escape(view.site())).append("</p>\n");
        why().ifPresent(sections -> page.append(sections.sentence()));
        view.run().ifPresent(this::verdict);
        page.append(view.run().isPresent() ? "<p class=\"" : "<p class=\"verdict ")
                .append(colour(view.verdict().outcome()))
                .append("\">")
                .append(Marks.of(view.verdict().mark()))
                .append(
                        escape(
                                capital(shown.verdict(view.verdict().outcome()))
                                        + ": "
                                        + shown.findings().note(view.verdict())))
                .append("</p>\n");
        if (view.run().isEmpty()) {
            weakness();
        }
        view.typical()
                .ifPresent(
                        typical ->
                                page.append("<p class=\"soft\"><span class=\"typical\">")
                                        .append(escape(shown.say("page.dashed")))
                                        .append("</span> ")
                                        .append(
                                                escape(
                                                        shown.say(
                                                                "page.dashed-is", typical.label())))
                                        .append("</p>\n"));
        view.other()
                .ifPresent(
                        other ->
                                page.append("<p class=\"soft\">")
                                        .append(escape(shown.say("page.grey-is", other.label())))
                                        .append("</p>\n"));
    }

    private void verdict(JudgedRun run) {
        String words = runs().heading(run, view.verdict());
        page.append("<p class=\"verdict ")
                .append(colour(run.verdict().mark()))
                .append("\">")
                .append(Marks.of(run.verdict().mark()))
                .append(escape(shown.say("page.run-of", words)))
                .append("</p>\n<p>")
                .append(escape(runs().raised(shown.findings().runs().raised(run.verdict()))))
                .append("</p>\n");
    }

    private RunRows runs() {
        return new RunRows(shown, view.limits(), view.baseline());
    }

    private static String colour(RunVerdict.Mark mark) {
        return mark == RunVerdict.Mark.NOT_JUDGED ? "soft" : mark.key();
    }

    private static boolean isWrong(RunVerdict.Mark mark) {
        return mark != RunVerdict.Mark.GOOD && mark != RunVerdict.Mark.NOT_JUDGED;
    }

    /** What the run was judged by, thing by thing. */
    private void run(JudgedRun run) {
        RunWords words = shown.findings().runs();
        heading("page.run");
        head("page.what", "page.measured", "page.should", "page.judged");
        for (RunRows.Line line : runs().lines(run, view.startup(), view.verdict())) {
            page.append(isWrong(line.mark()) ? "<tr class=\"beyond\">" : "<tr>");
            page.append("<th>").append(escape(line.title())).append("</th><td>");
            page.append(escape(line.measured())).append("</td><td class=\"should\">");
            page.append(escape(line.wanted())).append("</td><td class=\"");
            page.append(colour(line.mark())).append("\">").append(Marks.of(line.mark()));
            page.append(escape(words.mark(line.mark()))).append("</td></tr>\n");
        }
        page.append("</table></div>\n");
    }

    /** Where no run was judged: a good rise to a low level must not look like a good start. */
    private void weakness() {
        Startup startup = view.startup();
        Limits limits = view.limits();
        double enough = limits.levelReachedPsi();
        if (!startup.topPsi().isPresent() || startup.topPsi().get() >= enough) {
            return;
        }
        boolean isWeak =
                startup.ratio().isPresent()
                        && startup.ratio().get() < limits.get(Limit.RATIO_WARNING);
        String words =
                shown.say(
                        isWeak ? "page.low-level-and-ratio" : "page.low-level",
                        shown.pressure(startup.topPsi()),
                        shown.figure(Measurand.Unit.RATIO, startup.ratio()));
        page.append("<p class=\"verdict warning\">").append(escape(words)).append("</p>\n");
    }

    private static String colour(StartupVerdict.Outcome outcome) {
        return switch (outcome) {
            case GOOD -> "good";
            case SLOW -> "advisory";
            case VERY_SLOW -> "warning";
            case NOT_RISEN, NO_BOOST -> "critical";
            case RELAXED, NOT_JUDGED -> "soft";
        };
    }

    private static String capital(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    private void numbers() {
        heading("page.numbers");
        page.append(new NumbersTable(view, shown).draw());
        for (ClimbRemark remark : view.startup().remarks()) {
            page.append("<p class=\"soft\">")
                    .append(escape(shown.findings().climb(remark)))
                    .append("</p>\n");
        }
    }

    private void fired() {
        heading("page.fired");
        if (view.alarms().isEmpty()) {
            boolean later = view.run().map(run -> !run.verdict().raised().isEmpty()).orElse(false);
            page.append("<p>")
                    .append(escape(shown.say(later ? "page.nothing-replayed" : "page.nothing")))
                    .append("</p>\n");
            return;
        }
        page.append(new FiredTable(view.alarms(), shown).draw());
    }

    private void cautions() {
        page.append("<div class=\"cautions\"><p><strong>")
                .append(escape(shown.say("page.before-work")))
                .append("</strong> ")
                .append(escape(shown.findings().caution()))
                .append("</p></div>\n");
    }

    private void heading(String key) {
        page.append("<h2>").append(escape(shown.say(key))).append("</h2>\n");
    }

    /** Begins a table with the names of its columns. */
    private void head(String... columns) {
        page.append("<div class=\"scroll\"><table class=\"run\">\n<tr>");
        for (String column : columns) {
            page.append("<th>").append(escape(shown.say(column))).append("</th>");
        }
        page.append("</tr>\n");
    }

    private static String escape(String text) {
        return Html.escaped(text);
    }
}
