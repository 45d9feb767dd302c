package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.function.DoubleFunction;
import leat.live.AlarmNow;
import leat.live.DaemonNow;
import leat.live.GaugeNow;
import leat.live.LimitNow;
import leat.live.MachineNow;
import leat.live.PhaseNow;
import leat.live.SiteNow;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.report.Shown;
import leat.rule.Finding;
import leat.rule.Finding.Sense;
import leat.signal.Channel;
import leat.signal.Reading;
import leat.store.StoredStartup;
import leat.words.BriefTimes;
import leat.words.FaultWords;
import leat.words.FirstCheck;

/**
 * The words for a site as it is now. Immutable.
 *
 * @param shown unit, zone and language of the site
 * @param nowMicros this moment, microseconds UTC
 * @param isFresh whether leat runs: else what was last stored is told as what was
 */
public record NowWords(Shown shown, long nowMicros, boolean isFresh) {

    /** What is younger is of this moment: it is stored once a second. */
    private static final long NOW_MICROS = 3_000_000;

    private static final long WHOLE_SECONDS = 120_000_000;

    public NowWords {
        requireNonNull(shown, "shown");
    }

    /** For what is seen now. */
    public static NowWords of(Shown shown, SiteNow site) {
        return new NowWords(shown, site.atMicros(), site.daemon().isRunning());
    }

    /** A length of time, such as {@code 12 s} or {@code 5 min}. */
    String span(long micros) {
        long past = Math.max(0, micros);
        return past < WHOLE_SECONDS
                ? shown.number(past / 1_000_000) + " s"
                : shown.span(past / 1e6);
    }

    /** How long something is past, such as {@code 12 s ago}. */
    public String ago(long micros) {
        return nowMicros - micros < NOW_MICROS
                ? shown.say("live.now")
                : shown.say("live.ago", span(nowMicros - micros));
    }

    /** Likewise; of what never was {@code never}. */
    public String ago(OptionalLong micros) {
        return micros.isPresent() ? ago(micros.getAsLong()) : shown.say("live.never");
    }

    /** Such as {@code 11:02}, with the date if that is another day. */
    public String clock(long micros) {
        return BriefTimes.of(shown.zone(), nowMicros).time(micros);
    }

    /** What the line does in a word or two. */
    public String phase(MachineNow machine) {
        String word =
                shown.say(
                        "live.phase."
                                + machine.phase().map(now -> now.phase().key()).orElse("none"));
        return isFresh || machine.phase().isEmpty() ? word : shown.say("live.was", word);
    }

    /** Likewise, and for how long. */
    String phaseWithTime(MachineNow machine) {
        Optional<PhaseNow> phase = machine.phase().filter(now -> isFresh);
        return phase.map(
                        now ->
                                shown.say(
                                        "live.for",
                                        phase(machine),
                                        span(nowMicros - now.sinceMicros())))
                .orElseGet(() -> phase(machine));
    }

    /** What a gauge shows, with its unit, or in a word why not. */
    public String value(GaugeNow gauge) {
        return gauge.value().isPresent()
                ? shown.pressure(gauge.value().getAsDouble())
                : shown.say("live.showing." + gauge.showing().key());
    }

    /** Likewise; a dash where it is not wired. */
    public String value(MachineNow machine, Channel channel) {
        return machine.gauge(channel).map(this::value).orElse("-");
    }

    /** The name of a gauge in a word. */
    public String channel(Channel channel) {
        return shown.say("channel." + channel.key());
    }

    /** Why a gauge shows nothing, and what it showed last. */
    String whyNot(GaugeNow gauge) {
        String last =
                gauge.last()
                        .filter(reading -> reading.quality().isUsable())
                        .map(this::last)
                        .orElse("");
        return switch (gauge.showing()) {
            case NOW -> "";
            case BAD ->
                    gauge.last().map(bad -> shown.say("quality." + bad.quality().key())).orElse("");
            case LOST -> new FaultWords(shown.phrases()).of(gauge.lostReason());
            case SILENT, NOTHING -> last;
        };
    }

    private String last(Reading reading) {
        return shown.say("live.last", shown.pressure(reading.value()), ago(reading.atMicros()));
    }

    /**
     * A limit that a value breaks, and what that means.
     *
     * @param alarm the one that stands because of it; empty while its delay is not over
     */
    String broken(LimitNow limit, String value, Optional<AlarmNow> alarm) {
        String beyond = beyond(limit, value);
        return alarm.map(
                        stands ->
                                shown.say(
                                        "live.broken.alarm",
                                        beyond,
                                        grade(stands),
                                        Long.toString(stands.alarm().number())))
                .orElseGet(
                        () ->
                                shown.say(
                                        "live.broken",
                                        beyond,
                                        shown.findings().grade(limit.grade())));
    }

    private String grade(AlarmNow alarm) {
        return shown.findings().grade(alarm.alarm().change().finding().grade());
    }

    private String beyond(LimitNow limit, String value) {
        return shown.say(limit.sense() == Sense.AT_LEAST ? "live.below" : "live.above", value);
    }

    /** What a value must be, by the mildest limits on both sides. */
    String kept(List<LimitNow> limits, DoubleFunction<String> value) {
        Optional<String> low =
                limits.stream()
                        .filter(limit -> limit.sense() == Sense.AT_LEAST)
                        .reduce((one, next) -> next)
                        .map(limit -> value.apply(limit.value()));
        Optional<String> high =
                limits.stream()
                        .filter(limit -> limit.sense() == Sense.AT_MOST)
                        .findFirst()
                        .map(limit -> value.apply(limit.value()));
        if (low.isPresent() && high.isPresent()) {
            return shown.say("live.between", low.get(), high.get());
        }
        return low.map(least -> shown.say("live.ok", shown.say("limit.at-least", least)))
                .or(() -> high.map(most -> shown.say("live.ok", shown.say("limit.at-most", most))))
                .orElseGet(() -> shown.say("live.not-judged"));
    }

    /** The verdict on a start and its run in a few words. */
    public String verdict(StoredStartup startup) {
        String rise = shown.verdict(startup.verdict().outcome());
        return startup.run()
                .map(run -> shown.findings().runs().brief(run, startup.verdict()))
                .orElse(rise);
    }

    /** A figure of a start after its name; empty where there is none. */
    private String figure(String key, Measurand measurand, Startup startup) {
        Figure figure = startup.figure(measurand);
        return figure.isPresent()
                ? ", " + shown.say(key, shown.numbers().figure(measurand.unit(), figure.get()))
                : "";
    }

    /** What an alarm is about, in a few words. */
    public String what(AlarmNow alarm) {
        Finding finding = alarm.alarm().change().finding();
        return grade(alarm) + " " + shown.findings().what(finding);
    }

    /** An alarm in one line: grade, number, since when, what was found, whether it was seen. */
    String alarm(AlarmNow alarm) {
        Finding finding = alarm.alarm().change().finding();
        boolean isUnseen = alarm.alarm().own().needsAcknowledging();
        return shown.say(
                "live.alarm",
                grade(alarm),
                Long.toString(alarm.alarm().number()),
                clock(finding.sinceMicros()),
                shown.findings().what(finding) + " " + shown.findings().beside(finding),
                shown.say(isUnseen ? "live.alarm.unseen" : "live.alarm.seen"));
    }

    /** An alarm that stands no more. */
    String gone(AlarmNow alarm) {
        return shown.say(
                "live.gone",
                grade(alarm),
                Long.toString(alarm.alarm().number()),
                shown.findings().what(alarm.alarm().change().finding()));
    }

    /** A start with its verdict and what a person asks for first. */
    String start(StoredStartup stored) {
        Startup startup = stored.startup();
        return shown.say(
                        "live.start",
                        stored.name(),
                        clock(startup.startedAtMicros()),
                        verdict(stored))
                + figure("live.rise", Measurand.RISE, startup)
                + figure("live.reached", Measurand.TOP, startup);
    }

    /**
     * The gravest alarm and how many more; or that the machine is in service; or the first pressure
     * that is beyond a limit, which is no alarm yet; else a dash.
     */
    public String stands(MachineNow machine) {
        int more = machine.alarms().size() - 1;
        return machine.alarms().stream()
                .findFirst()
                .map(worst -> what(worst) + (more > 0 ? " +" + more : ""))
                .or(() -> machine.service().map(on -> shown.say("live.in-service")))
                .or(() -> machine.gauges().stream().flatMap(g -> beyond(g).stream()).findFirst())
                .orElse("-");
    }

    private Optional<String> beyond(GaugeNow gauge) {
        return gauge.value().isEmpty()
                ? Optional.empty()
                : LimitNow.gravestBroken(gauge.limits(), gauge.value().getAsDouble())
                        .map(
                                limit ->
                                        shown.say(
                                                "live.breaks",
                                                channel(gauge.channel()),
                                                beyond(limit, shown.pressure(limit.value()))));
    }

    /** What to do about an alarm first. */
    public String check(AlarmNow alarm) {
        return String.join(
                " ",
                new FirstCheck(shown.phrases(), shown.numbers())
                        .of(alarm.alarm().change().finding(), alarm.why()));
    }

    /** Whether leat runs; if not, of when is what is shown, and what to do. */
    public String daemonInFull(DaemonNow daemon) {
        String state = daemon(daemon) + ".";
        if (daemon.isRunning() || daemon.state() == DaemonNow.State.NEVER_RAN) {
            return state;
        }
        String why = " " + shown.say("live.stale.why." + daemon.state().key());
        return daemon.storedMicros().isPresent()
                ? state + " " + stale(daemon.storedMicros().getAsLong()) + why
                : state + why;
    }

    private String stale(long storedMicros) {
        return shown.say("live.stale", clock(storedMicros), ago(storedMicros));
    }

    /** Whether leat runs, in a few words. */
    String daemon(DaemonNow daemon) {
        return shown.say("live.daemon." + daemon.state().key());
    }
}
