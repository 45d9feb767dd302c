package leat.report;

import static leat.report.Html.escaped;

import java.util.List;
import java.util.Locale;
import leat.alarm.AlarmChange;
import leat.rule.Finding;

/**
 * What fired around a start, on its page. Paper has room for the first; how many there are further
 * stands below them. Immutable.
 *
 * @param alarms at least one, in the order of their times
 * @param shown how it is told
 */
record FiredTable(List<AlarmChange> alarms, Shown shown) {

    private static final int ON_PAPER = 4;

    String draw() {
        StringBuilder html =
                new StringBuilder("<div class=\"scroll\"><table class=\"fired\">\n<tr>");
        for (String column : List.of("page.at", "page.what", "page.measured")) {
            html.append("<th>").append(escaped(shown.say(column))).append("</th>");
        }
        html.append("</tr>\n");
        for (int i = 0; i < alarms.size(); i++) {
            row(alarms.get(i), i < ON_PAPER, html);
        }
        html.append("</table></div>\n");
        if (alarms.size() > ON_PAPER) {
            html.append("<p class=\"paper\">")
                    .append(escaped(shown.say("page.more", alarms.size() - ON_PAPER)))
                    .append("</p>\n");
        }
        return html.toString();
    }

    private void row(AlarmChange alarm, boolean isForPaper, StringBuilder html) {
        Finding finding = alarm.finding();
        html.append(isForPaper ? "<tr>" : "<tr class=\"screen\">")
                .append("<td class=\"value\">")
                .append(escaped(shown.time(alarm.atMicros())))
                .append("</td><td><span class=\"")
                .append(finding.grade().name().toLowerCase(Locale.ROOT))
                .append("\">")
                .append(Marks.of(finding.grade()))
                .append(escaped(shown.findings().grade(finding.grade())))
                .append("</span> ")
                .append(escaped(shown.findings().what(finding) + ", " + event(alarm)))
                .append("</td><td>")
                .append(escaped(shown.measured(finding)))
                .append("</td></tr>\n");
    }

    private String event(AlarmChange alarm) {
        return shown.say("alarm-event." + alarm.event().key());
    }
}
