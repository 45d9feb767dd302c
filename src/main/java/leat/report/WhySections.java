package leat.report;

import static leat.report.Html.escaped;

import java.util.List;
import java.util.Locale;
import java.util.Optional;
import leat.diagnose.Answer;
import leat.diagnose.Cause;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.diagnose.Reason;
import leat.diagnose.Suspect;
import leat.words.CauseWords;

/**
 * A diagnosis on a page: the causes with their weights as bars, what speaks for and against the
 * first, and the sheet that a technician takes along: caution, check, steps. Immutable.
 *
 * @param why what is told
 * @param shown how it is told
 * @param machine its name
 * @param answering the command that takes an answer, but for the answer; empty where nobody can be
 *     answered
 */
record WhySections(Diagnosis why, Shown shown, String machine, Optional<String> answering) {

    private static final int MOST_BARS = 6;
    private static final int MOST_TOLD = 3;
    private static final double LEAST_WEIGHT = 0.01;
    private static final int BAR = 200;

    /** What is wrong and what to do, as a line under the heading of the page. */
    String sentence() {
        return "<p class=\"verdict\">" + escaped(words().sentence(why)) + "</p>\n";
    }

    /** The causes, and what speaks for and against the first of them. */
    String causes() {
        StringBuilder html = new StringBuilder("<h2>");
        html.append(escaped(shown.say("screen.title"))).append("</h2>\n<table class=\"causes\">\n");
        List<Suspect> told =
                why.suspects().stream()
                        .filter(each -> each == why.first() || each.weight() >= LEAST_WEIGHT)
                        .limit(MOST_BARS)
                        .toList();
        told.forEach(suspect -> bar(suspect, html));
        html.append("</table>\n");
        told.stream().limit(MOST_TOLD).forEach(each -> evidence(each, each == why.first(), html));
        return html.append("<p class=\"soft\">")
                .append(escaped(shown.say("screen.basis", words().basis(why))))
                .append("</p>\n")
                .toString();
    }

    private void bar(Suspect suspect, StringBuilder html) {
        html.append("<tr><td class=\"value\">")
                .append(escaped(shown.percent(suspect.weight())))
                .append("</td><td class=\"bar\"><svg class=\"bar\" viewBox=\"0 0 ")
                .append(BAR)
                .append(" 10\"><rect class=\"all\" x=\"0\" y=\"0\" width=\"")
                .append(BAR)
                .append("\" height=\"10\"/><rect class=\"weight\" x=\"0\" y=\"0\" width=\"")
                .append(String.format(Locale.ROOT, "%.1f", Math.max(1, BAR * suspect.weight())))
                .append("\" height=\"10\"/></svg></td><td>")
                .append(escaped(words().cause(suspect.cause())))
                .append("</td></tr>\n");
    }

    /** Paper has room for those of the first cause. */
    private void evidence(Suspect suspect, boolean isForPaper, StringBuilder html) {
        if (suspect.pro().isEmpty() && suspect.contra().isEmpty()) {
            return;
        }
        html.append(isForPaper ? "<div>\n<h3>" : "<div class=\"screen\">\n<h3>")
                .append(escaped(words().cause(suspect.cause())))
                .append("</h3>\n<div class=\"evidence\">\n");
        reasons("screen.for", suspect, suspect.pro(), html);
        reasons("screen.against", suspect, suspect.contra(), html);
        html.append("</div>\n</div>\n");
    }

    private void reasons(String side, Suspect suspect, List<Reason> reasons, StringBuilder html) {
        html.append(reasons.isEmpty() ? "<div class=\"screen\">" : "<div>")
                .append("<p class=\"soft\">")
                .append(escaped(shown.say(side)))
                .append("</p>\n");
        if (reasons.isEmpty()) {
            html.append("<p>").append(escaped(shown.say("screen.nothing"))).append("</p>\n");
        } else {
            html.append("<ul>\n");
            reasons.forEach(reason -> item(words().evidence(suspect.cause(), reason), html));
            html.append("</ul>\n");
        }
        html.append("</div>\n");
    }

    private static void item(String words, StringBuilder html) {
        html.append("<li>").append(escaped(words)).append("</li>\n");
    }

    /** Whether there is a sheet to take along. */
    boolean hasSheet() {
        return WhyLines.isWork(why);
    }

    /** What a technician takes to the machine. */
    String sheet() {
        StringBuilder html = new StringBuilder("<section class=\"sheet\">\n");
        html.append("<div class=\"cautions\"><p><strong>")
                .append(escaped(shown.say("page.before-work")))
                .append("</strong> ")
                .append(escaped(shown.findings().caution()))
                .append("</p></div>\n");
        why.check().ifPresent(check -> form(check, html));
        steps(html);
        return html.append("</section>\n").toString();
    }

    private void form(Check check, StringBuilder html) {
        html.append("<h2>")
                .append(escaped(shown.say("page.check")))
                .append(" <span class=\"soft\">")
                .append(escaped(shown.say("page.minutes", shown.number(check.minutes(), 0))))
                .append("</span></h2>\n<p>")
                .append(escaped(words().toDo(check)))
                .append(".</p>\n<p class=\"verdict\">")
                .append(escaped(words().asks(check)))
                .append("</p>\n<div class=\"scroll\"><table>\n");
        for (Answer answer : check.answers()) {
            html.append("<tr><td class=\"value\"><span class=\"box\"></span> ")
                    .append(escaped(words().answer(answer)))
                    .append("</td><td>")
                    .append(escaped(words().meaning(answer)))
                    .append("</td>");
            answering.ifPresent(
                    command ->
                            html.append("<td class=\"soft\"><code>")
                                    .append(escaped(command + " " + answer.key()))
                                    .append("</code></td>"));
            html.append("</tr>\n");
        }
        html.append("</table></div>\n");
        signed(hasSteps() ? "blanks screen" : "blanks", html);
    }

    private boolean hasSteps() {
        return !words().steps(why.first().cause(), machine).isEmpty();
    }

    private void steps(StringBuilder html) {
        Cause cause = why.first().cause();
        List<CauseWords.Step> steps = words().steps(cause, machine);
        if (steps.isEmpty()) {
            return;
        }
        html.append("<h2>")
                .append(escaped(shown.say("page.steps", words().cause(cause))))
                .append("</h2>\n<ol class=\"steps\">\n");
        for (CauseWords.Step step : steps) {
            html.append("<li><span class=\"box\"></span> ").append(escaped(step.text()));
            html.append(step.isMeasured() ? " <span class=\"blank\"></span>" : "");
            html.append("</li>\n");
        }
        html.append("</ol>\n");
        html.append("<div class=\"end\"><p class=\"blanks\">");
        blank("page.found", html);
        html.append("</p>\n");
        signed("blanks", html);
        html.append("</div>\n");
    }

    private void signed(String type, StringBuilder html) {
        html.append("<p class=\"").append(type).append("\">");
        blank("page.name", html);
        blank("page.when", html);
        html.append("</p>\n");
    }

    /** A place to write on. */
    private void blank(String what, StringBuilder html) {
        html.append("<span class=\"field\">")
                .append(escaped(shown.say(what)))
                .append(" <span class=\"blank\"></span></span> ");
    }

    private CauseWords words() {
        return shown.causes();
    }
}
