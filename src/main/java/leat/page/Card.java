package leat.page;

import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import leat.config.MachineSettings;
import leat.diagnose.Diagnosis;
import leat.live.AlarmNow;
import leat.live.BoostNow;
import leat.live.GaugeNow;
import leat.live.LimitNow;
import leat.live.MachineNow;
import leat.live.OutageNow;
import leat.live.PhaseNow;
import leat.report.Marks;
import leat.report.Shown;
import leat.rule.Finding;
import leat.rule.Finding.Sense;
import leat.rule.Grade;
import leat.rule.Limit;
import leat.signal.Keyword;
import leat.words.CauseWords;
import leat.words.FaultWords;
import leat.words.FirstCheck;

/** One machine: what its line does, what stands, what its gauges show, how it started last. */
final class Card {

    /** The bars reach so much above the level that the machine is set to. */
    private static final double FULL = 1.6;

    /** Of a ratio of pressures. */
    private static final double FULL_BOOST = 4;

    private final MachineNow machine;
    private final Seen seen;
    private final Frame frame;
    private final double setPsi;
    private final Shown shown;
    private final Times times;

    Card(
            MachineNow machine,
            Seen seen,
            Frame frame,
            MachineSettings settings,
            Shown shown,
            Times times) {
        this.machine = machine;
        this.seen = seen;
        this.frame = frame;
        this.shown = shown;
        this.times = times;
        setPsi = settings.limits().get(Limit.LEVEL_SET);
    }

    /** What can change, by its id. */
    Map<String, String> parts(List<RecentStart> starts) {
        Map<String, String> parts = new TreeMap<>();
        parts.put(frame.id(Frame.PHASE), phase());
        parts.put(frame.id(Frame.ALARMS), alarms());
        parts.put(frame.id(Frame.GAUGES), gauges());
        parts.put(
                frame.id(Frame.STARTS),
                new StartsPart(machine, starts, setPsi, shown, times).html());
        return parts;
    }

    private String phase() {
        Element out = new Element();
        String words =
                machine.phase()
                        .map(now -> shown.say("live.phase." + now.phase().key()))
                        .orElseGet(() -> shown.say("live.phase.none"));
        Optional<String> since =
                machine.phase()
                        .map(PhaseNow::sinceMicros)
                        .map(micros -> shown.say("status.since", times.brief(micros)));
        out.open("p").text("strong", words).words(since.orElse("")).close("p");
        machine.service()
                .ifPresent(
                        work ->
                                out.text(
                                        "p class=\"note\"",
                                        shown.say(
                                                "status.work",
                                                work.by(),
                                                times.brief(work.untilMicros()))));
        return out.done();
    }

    private String alarms() {
        Element out = new Element();
        if (machine.alarms().isEmpty()) {
            out.open("p class=\"quiet\"").html(Marks.good()).words(shown.say("live.no-alarm"));
            out.close("p");
        } else {
            out.open("ul");
            Set<String> checks = new HashSet<>();
            Set<OutageNow> outages = new HashSet<>();
            for (AlarmNow alarm : machine.alarms()) {
                Optional<OutageNow> outage = seen.outageOf(alarm);
                if (outage.isEmpty()) {
                    alarm(out, alarm, checks);
                } else if (outages.add(outage.get())) {
                    out.html(OutagesPart.of(machine.name(), outage.get(), shown));
                }
            }
            out.close("ul");
        }
        if (!machine.aside().isEmpty()) {
            out.text("p class=\"note\"", shown.say("status.aside", machine.aside().size()));
        }
        return out.done();
    }

    /**
     * @param checks those that stand above: what two alarms ask for is asked for once
     */
    private void alarm(Element out, AlarmNow alarm, Set<String> checks) {
        Finding finding = alarm.alarm().change().finding();
        out.open("li class=\"" + Marks.type(finding.grade()) + "\"")
                .open("p")
                .html(Marks.of(finding.grade()));
        out.text("strong", shown.findings().grade(finding.grade()));
        out.words(shown.findings().what(finding)).close("p");
        out.text(
                "p",
                shown.say(
                        "status.alarm",
                        Long.toString(alarm.alarm().number()),
                        shown.measured(finding),
                        times.brief(finding.sinceMicros()),
                        shown.say("alarm-state." + alarm.alarm().change().to().key())));
        alarm.why()
                .filter(CauseWords::isClear)
                .map(shown.causes()::likely)
                .ifPresent(cause -> out.text("p", shown.say("status.cause", cause)));
        String check = check(finding, alarm.why());
        if (checks.add(check)) {
            out.text("p", shown.say("status.check", check));
        }
        out.text("p class=\"note\"", shown.findings().meaning(finding.grade())).close("li");
    }

    /** The check that decides, or the first of those that are usual, as the message says it. */
    private String check(Finding finding, Optional<Diagnosis> why) {
        List<String> checks = new FirstCheck(shown.phrases(), shown.numbers()).inFull(finding, why);
        return why.flatMap(CauseWords::decides).isPresent()
                ? String.join(" ", checks)
                : checks.get(0);
    }

    private String gauges() {
        Element out = new Element().open("dl");
        machine.gauges().forEach(gauge -> gauge(out, gauge));
        machine.boost().ifPresent(boost -> boost(out, boost));
        out.close("dl");
        return out.text("p class=\"note\"", age()).done();
    }

    private String age() {
        return machine.readMicros().isPresent()
                ? shown.say(
                        "status.age",
                        shown.span(times.secondsSince(machine.readMicros().getAsLong())))
                : shown.say("status.no-reading");
    }

    private void gauge(Element out, GaugeNow gauge) {
        boolean isPressure = gauge.channel().isPressure();
        String name = shown.say("channel." + gauge.channel().key());
        OptionalDouble value = gauge.value();
        if (value.isEmpty()) {
            row(out, "gauge blind", name, Marks.bad(), blind(gauge));
        } else if (isPressure) {
            row(out, value, gauge.limits(), name, shown.pressure(value.getAsDouble()));
            below(out, GaugeBar.draw(value, gauge.limits(), FULL * setPsi), limits(gauge.limits()));
        } else {
            String state =
                    "status." + gauge.channel().key() + (value.getAsDouble() > 0 ? ".on" : ".off");
            row(out, "contact", name, "", shown.say(state));
        }
        out.close("div");
    }

    private void boost(Element out, BoostNow boost) {
        OptionalDouble ratio = OptionalDouble.of(boost.ratio());
        row(out, ratio, boost.limits(), shown.say("status.boost"), times(boost.ratio()));
        below(
                out,
                GaugeBar.draw(ratio, boost.limits(), FULL_BOOST),
                words(boost.limits(), this::times));
        out.close("div");
    }

    private String times(double ratio) {
        return shown.say("status.times", leat.words.Numbers.number(shown.language(), ratio, 2));
    }

    /** With the mark of the gravest limit that it is beyond. */
    private static void row(
            Element out, OptionalDouble value, List<LimitNow> limits, String name, String words) {
        Optional<Grade> worst = GaugeBar.worst(value, limits);
        row(
                out,
                "gauge" + worst.map(grade -> " " + Marks.type(grade)).orElse(""),
                name,
                worst.map(Marks::of).orElse(""),
                words);
    }

    private static void row(Element out, String type, String name, String mark, String value) {
        out.open("div class=\"" + type + "\"").text("dt", name);
        out.open("dd").html(mark).text("b", value).close("dd");
    }

    private static void below(Element out, String bar, String limits) {
        out.open("dd class=\"limits\"").html(bar);
        if (!limits.isEmpty()) {
            out.text("small", limits);
        }
        out.close("dd");
    }

    private String limits(List<LimitNow> limits) {
        return words(limits, shown::pressure);
    }

    private String words(List<LimitNow> limits, java.util.function.DoubleFunction<String> value) {
        return String.join(
                ", ",
                limits.stream()
                        .map(
                                limit ->
                                        shown.say(
                                                limit.sense() == Sense.AT_LEAST
                                                        ? "status.below"
                                                        : "status.above",
                                                shown.findings().grade(limit.grade()),
                                                value.apply(limit.value())))
                        .toList());
    }

    private String blind(GaugeNow gauge) {
        String why = shown.say("live.showing." + gauge.showing().key());
        return switch (gauge.showing()) {
            case BAD ->
                    why
                            + ": "
                            + shown.say(
                                    "quality."
                                            + gauge.last()
                                                    .map(r -> Keyword.of(r.quality()))
                                                    .orElse("good"));
            case LOST -> why + ": " + new FaultWords(shown.phrases()).of(gauge.lostReason());
            case NOW, SILENT, NOTHING -> why;
        };
    }
}
