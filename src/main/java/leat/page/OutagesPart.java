package leat.page;

import java.util.List;
import java.util.Optional;
import leat.live.OutageNow;
import leat.report.Marks;
import leat.report.Shown;
import leat.rule.Finding;
import leat.words.FirstCheck;
import leat.words.OutageWords;

/** Channels that fell silent together: one card above those of the machines. */
final class OutagesPart {

    private OutagesPart() {}

    static String of(Seen seen, Shown shown, Times times) {
        if (seen.outages().isEmpty()) {
            return "";
        }
        Element out = new Element().open("ul");
        seen.outages().forEach(outage -> whole(out, outage, shown, times));
        return out.close("ul").done();
    }

    private static void whole(Element out, OutageNow outage, Shown shown, Times times) {
        head(out, outage, shown).words(what(outage, shown)).close("p");
        out.text(
                "p",
                shown.say(
                        "status.outage",
                        Long.toString(outage.number()),
                        outage.channels().size() - 1,
                        times.brief(outage.sinceMicros()),
                        shown.say(
                                outage.needsAcknowledging()
                                        ? "live.alarm.unseen"
                                        : "live.alarm.seen")));
        out.text(
                "p",
                shown.say(
                        "status.outage.blind",
                        new OutageWords(shown.phrases()).blind(outage.blind())));
        Finding finding = outage.alarms().get(0).change().finding();
        List<String> checks =
                new FirstCheck(shown.phrases(), shown.numbers()).inFull(finding, Optional.empty());
        out.text("p", shown.say("status.check", checks.get(0)));
        out.text("p class=\"note\"", shown.findings().meaning(outage.grade())).close("li");
    }

    /** What the card of a machine says of it. */
    static String of(String machine, OutageNow outage, Shown shown) {
        Element out = new Element();
        head(out, outage, shown)
                .words(
                        shown.say(
                                "status.outage.here",
                                new OutageWords(shown.phrases()).names(outage.blind().get(machine)),
                                Long.toString(outage.number())));
        return out.close("p").close("li").done();
    }

    /** For who does not see the page. */
    static List<String> news(Seen seen, Shown shown) {
        return seen.outages().stream()
                .map(
                        outage ->
                                shown.say(
                                        "status.news",
                                        shown.findings().grade(outage.grade()),
                                        String.join(", ", outage.blind().keySet()),
                                        what(outage, shown)))
                .toList();
    }

    private static Element head(Element out, OutageNow outage, Shown shown) {
        out.open("li class=\"" + Marks.type(outage.grade()) + "\"").open("p");
        return out.html(Marks.of(outage.grade()))
                .text("strong", shown.findings().grade(outage.grade()));
    }

    private static String what(OutageNow outage, Shown shown) {
        return new OutageWords(shown.phrases())
                .what(outage.connections(), outage.isWhole(), outage.channels().size());
    }
}
