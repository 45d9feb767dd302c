package leat.page;

import java.util.Map;
import leat.acquire.SourceHealth;
import leat.deliver.CourierHealth;
import leat.report.Marks;
import leat.report.Shown;
import leat.words.FaultWords;

/** How leat itself goes: sources, routes and the database. */
final class WorkingsPart {

    private final Seen seen;
    private final Shown shown;
    private final Element out = new Element();

    private WorkingsPart(Seen seen, Shown shown) {
        this.seen = seen;
        this.shown = shown;
    }

    static String of(Seen seen, Shown shown) {
        WorkingsPart part = new WorkingsPart(seen, shown);
        part.out.open("ul");
        seen.workings().sources().entrySet().forEach(part::source);
        seen.workings().routes().forEach(part::route);
        part.store();
        return part.out.close("ul").done();
    }

    private void source(Map.Entry<String, SourceHealth> source) {
        SourceHealth health = source.getValue();
        line(
                health.connected(),
                shown.say(
                        health.connected() ? "status.source.good" : "status.source.bad",
                        source.getKey()),
                health.connected() ? "" : faults().of(health.lastFault()));
    }

    private void route(CourierHealth route) {
        boolean isGood = !seen.failing().contains(route.route());
        line(
                isGood,
                shown.say(isGood ? "status.route.good" : "status.route.bad", route.route()),
                isGood ? "" : faults().of(route.lastReason()));
    }

    private void store() {
        boolean isGood = seen.storeTrouble().isEmpty();
        line(
                isGood,
                shown.say(isGood ? "status.store.good" : "status.store.bad"),
                faults().of(seen.storeTrouble()));
        if (seen.workings().faults() > 0) {
            line(false, shown.say("status.faults", seen.workings().faults()), "");
        }
    }

    private FaultWords faults() {
        return new FaultWords(shown.phrases());
    }

    private void line(boolean isGood, String words, String why) {
        out.open("li class=\"" + (isGood ? "quiet" : "warning") + "\"").open("p");
        out.html(isGood ? Marks.good() : Marks.bad()).words(words).close("p");
        if (!why.isEmpty()) {
            out.text("p class=\"note\"", why);
        }
        out.close("li");
    }
}
