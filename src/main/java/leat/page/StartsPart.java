package leat.page;

import java.util.List;
import leat.live.MachineNow;
import leat.live.StartCurve;
import leat.report.Shown;
import leat.rule.JudgedRun;
import leat.store.StoredStartup;

/** The last starts of a machine, each with its curve, its verdict and the way to its report. */
final class StartsPart {

    private final MachineNow machine;
    private final List<RecentStart> starts;
    private final double setPsi;
    private final Shown shown;
    private final Times times;

    StartsPart(
            MachineNow machine, List<RecentStart> starts, double setPsi, Shown shown, Times times) {
        this.machine = machine;
        this.starts = List.copyOf(starts);
        this.setPsi = setPsi;
        this.shown = shown;
        this.times = times;
    }

    String html() {
        Element out = new Element().text("h3", shown.say("status.starts"));
        if (starts.isEmpty() && machine.climb().isEmpty()) {
            return out.text("p class=\"note\"", shown.say("status.no-start")).done();
        }
        out.open("ol");
        machine.climb().ifPresent(curve -> climb(out, curve));
        starts.forEach(start -> start(out, start));
        return out.close("ol").text("p class=\"note\"", shown.say("status.key")).done();
    }

    private void climb(Element out, StartCurve curve) {
        out.open("li");
        out.text("p", shown.say("status.climb", times.brief(curve.startedMicros())));
        draw(out, curve);
        out.close("li");
    }

    private void start(Element out, RecentStart start) {
        StoredStartup stored = start.stored();
        out.open("li").open("p");
        out.text(
                "a href=\"/start/" + Paths.start(stored) + "\"",
                shown.say("status.start", stored.name()));
        out.words(
                shown.say(
                        "status.verdict",
                        times.brief(stored.startup().startedAtMicros()),
                        verdict(stored)));
        out.close("p");
        draw(out, start.curve());
        out.close("li");
    }

    private String verdict(StoredStartup stored) {
        return stored.run()
                .map(JudgedRun::verdict)
                .map(run -> shown.findings().runs().mark(run.mark()))
                .orElse(shown.verdict(stored.verdict().outcome()));
    }

    private void draw(Element out, StartCurve curve) {
        if (!curve.isEmpty()) {
            out.html(CurveDrawing.of(curve, shown, setPsi));
        }
    }
}
