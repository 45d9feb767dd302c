package leat.page;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.function.Function;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.live.AlarmNow;
import leat.live.DaemonNow;
import leat.live.MachineNow;
import leat.live.SiteNow;
import leat.report.Html;
import leat.report.Marks;
import leat.report.Shown;
import leat.rule.Finding;
import leat.rule.Grade;

/** The page itself: whole, and the parts of it that change. Immutable. */
final class Board {

    private final Site site;
    private final Shown shown;
    private final Sheet sheet;
    private final String script = Resource.text("page.js");
    private final Policy policy;

    Board(Site site, Shown shown, Sheet sheet) {
        this.site = site;
        this.shown = shown;
        this.sheet = sheet;
        policy = Policy.live(sheet.style(), script);
    }

    /**
     * @param whole the page as it is when it is loaded
     * @param parts what of it changes, by its id
     */
    record Made(Answer whole, Map<String, String> parts) {}

    Made of(Seen seen, Function<MachineNow, List<RecentStart>> starts) {
        Times times = new Times(site.zone(), seen.atMicros());
        Map<String, String> parts = new LinkedHashMap<>();
        parts.put("as-of", Html.escaped(shown.say("status.as-of", times.now())));
        parts.put("summary", summary(seen));
        parts.put("outages", OutagesPart.of(seen, shown, times));
        parts.put("news", news(seen));
        StringBuilder cards = new StringBuilder();
        int place = 0;
        for (MachineSettings settings : site.machines()) {
            place++;
            Frame frame = new Frame(place, settings.name());
            Map<String, String> own =
                    seen.machine(settings.name())
                            .map(
                                    now ->
                                            new Card(now, seen, frame, settings, shown, times)
                                                    .parts(starts.apply(now)))
                            .orElseGet(() -> frame.blank(shown.say("status.unread")));
            parts.putAll(own);
            cards.append(frame.whole(own));
        }
        parts.put("workings", WorkingsPart.of(seen, shown));
        return new Made(Answer.html(200, whole(parts, cards.toString()), policy), parts);
    }

    private String whole(Map<String, String> parts, String cards) {
        Element out = new Element().html(sheet.head());
        place(out, "p id=\"as-of\"", parts);
        out.open("noscript").text("p", shown.say("status.reload")).close("noscript");
        out.text("p id=\"stale\" role=\"alert\" hidden", shown.say("status.stale"));
        place(out, "div id=\"summary\"", parts);
        place(out, "div id=\"outages\" class=\"alarms\"", parts);
        place(out, "p id=\"news\" role=\"status\" class=\"unseen\"", parts);
        out.close("header").open("main").html(cards);
        out.open("section class=\"card\" aria-labelledby=\"own\"");
        out.text("h2 id=\"own\"", shown.say("status.workings"));
        place(out, "div id=\"workings\"", parts);
        out.close("section").close("main");
        return out.html(sheet.foot("<script>" + script + "</script>\n")).done();
    }

    private static void place(Element out, String tag, Map<String, String> parts) {
        String id = tag.replaceAll(".*? id=\"([a-z-]+)\".*", "$1");
        out.open(tag).html(parts.get(id)).close(tag);
    }

    private String summary(Seen seen) {
        if (seen.site().isEmpty()) {
            return new Element()
                    .text("p class=\"loud critical\"", shown.say("status.unread"))
                    .done();
        }
        List<AlarmNow> alarms = alarms(seen);
        Element out = new Element();
        Optional<Grade> worst =
                alarms.stream()
                        .map(alarm -> alarm.alarm().change().finding().grade())
                        .max(Grade::compareTo);
        out.open("p class=\"" + worst.map(g -> "loud " + Marks.type(g)).orElse("quiet") + "\"");
        out.html(worst.map(Marks::of).orElse(Marks.good()));
        out.text(
                "strong",
                worst.map(grade -> shown.say("status.worst", count(seen), word(grade)))
                        .orElse(shown.say("live.no-alarm")));
        if (seen.isDegraded()) {
            out.words(shown.say("status.degraded"));
        }
        out.close("p");
        seen.site()
                .map(SiteNow::daemon)
                .map(DaemonNow::state)
                .filter(state -> state == DaemonNow.State.SILENT)
                .ifPresent(state -> out.text("p class=\"loud\"", shown.say("status.silent")));
        return out.done();
    }

    /** An outage is one. */
    private String count(Seen seen) {
        long alone = alarms(seen).stream().filter(each -> seen.outageOf(each).isEmpty()).count();
        return shown.say("daily.alarms", alone + seen.outages().size());
    }

    private String word(Grade grade) {
        return shown.findings().grade(grade);
    }

    /** For who does not see the page: changes only when an alarm comes or goes. */
    private String news(Seen seen) {
        if (seen.site().isEmpty()) {
            return Html.escaped(shown.say("status.unread"));
        }
        List<String> lines = new ArrayList<>(OutagesPart.news(seen, shown));
        for (MachineNow machine : seen.machines()) {
            for (AlarmNow alarm : alone(machine, seen)) {
                Finding finding = alarm.alarm().change().finding();
                lines.add(
                        shown.say(
                                "status.news",
                                shown.findings().grade(finding.grade()),
                                machine.name(),
                                shown.findings().what(finding)));
            }
        }
        return Html.escaped(lines.isEmpty() ? shown.say("live.no-alarm") : String.join(" ", lines));
    }

    private static List<AlarmNow> alone(MachineNow machine, Seen seen) {
        return machine.alarms().stream().filter(each -> seen.outageOf(each).isEmpty()).toList();
    }

    private static List<AlarmNow> alarms(Seen seen) {
        return seen.machines().stream().flatMap(machine -> machine.alarms().stream()).toList();
    }
}
