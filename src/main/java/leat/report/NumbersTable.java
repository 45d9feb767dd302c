package leat.report;

import static leat.report.Html.escaped;

import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.rule.BeyondUsual;

/**
 * The numbers of a start on its page, each beside what is usual and what it should be. What is
 * beyond one of them is marked by a shape and by words. Thread-confined.
 */
final class NumbersTable {

    private final StartupView view;
    private final Shown shown;
    private final StartupRows rows;
    private final Set<Measurand> unlike;
    private final StringBuilder html = new StringBuilder();

    NumbersTable(StartupView view, Shown shown) {
        this.view = view;
        this.shown = shown;
        rows = new StartupRows(shown, view.limits(), view.baseline());
        unlike = BeyondUsual.of(view.startup(), view.baseline(), view.limits());
    }

    String draw() {
        html.append("<div class=\"scroll\"><table class=\"numbers\">\n<tr>");
        for (String column : columns()) {
            html.append("<th>").append(escaped(shown.say(column))).append("</th>");
        }
        html.append("</tr>\n");
        rows.lines(view.startup()).forEach(this::row);
        return html.append("</table></div>\n").toString();
    }

    private List<String> columns() {
        List<String> columns = new ArrayList<>(List.of("page.what", "page.this-start"));
        view.baseline().ifPresent(known -> columns.add("page.baseline"));
        view.other().ifPresent(other -> columns.add("page.other"));
        columns.add("page.should");
        return columns;
    }

    private void row(StartupRows.Line line) {
        boolean isBeyond = rows.isBeyond(line.measurand(), view.startup());
        boolean isUnlike = unlike.contains(line.measurand());
        html.append("<tr")
                .append(isBeyond || isUnlike ? " class=\"beyond\"" : type(line))
                .append("><th>")
                .append(escaped(line.title()))
                .append("</th>");
        cell(line.measurand(), line.figure());
        if (view.baseline().isPresent()) {
            html.append("<td class=\"value usual\">").append(escaped(line.usual()));
            html.append(isUnlike ? marked(Marks.unlike(), "page.unlike") : "").append("</td>");
        }
        view.other()
                .ifPresent(
                        other -> cell(line.measurand(), other.startup().figure(line.measurand())));
        html.append("<td>")
                .append(isBeyond ? marked(Marks.bad(), "page.not-met") + " " : "")
                .append(escaped(line.wanted()))
                .append("</td></tr>\n");
    }

    /** Where much else is on the sheet, what nothing is asked of is left out there. */
    private static String type(StartupRows.Line line) {
        if (!StartupRows.isForPaper(line)) {
            return " class=\"screen\"";
        }
        return line.wanted().isEmpty() ? " class=\"spare\"" : "";
    }

    private String marked(String shape, String words) {
        return " <strong>" + shape + escaped(shown.say(words)) + "</strong>";
    }

    private void cell(Measurand measurand, Figure figure) {
        html.append(figure.isPresent() ? "<td class=\"value\">" : "<td class=\"soft\">");
        html.append(
                escaped(
                        figure.isPresent()
                                ? shown.figure(measurand.unit(), figure)
                                : shown.findings().absence(figure.absentBecause())));
        html.append("</td>");
    }
}
