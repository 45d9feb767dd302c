package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.live.AlarmNow;
import leat.live.GaugeNow;
import leat.live.GaugeNow.Showing;
import leat.live.MachineNow;
import leat.live.SiteNow;
import leat.live.StartNow;
import leat.report.Shown;
import leat.signal.Channel;
import leat.signal.PlainText;

/**
 * What has changed between two looks at a site, a line each, for where there is no terminal: the
 * time, the machine, and what is so now. The first look tells all that is so. Immutable.
 *
 * @param shown unit, zone and language of the site
 */
public record Changes(Shown shown) {

    /** Where a line is about leat itself, it stands in the place of the machine. */
    private static final String LEAT = "leat";

    public Changes {
        requireNonNull(shown, "shown");
    }

    /**
     * @param before the look before this one; empty at first
     */
    public List<String> between(Optional<SiteNow> before, SiteNow now) {
        NowWords words = NowWords.of(shown, now);
        List<String> lines = new ArrayList<>();
        if (before.filter(b -> b.daemon().state() == now.daemon().state()).isEmpty()) {
            lines.add(line(now.atMicros(), LEAT, words.daemon(now.daemon())));
        }
        for (MachineNow machine : now.machines()) {
            Optional<MachineNow> then =
                    before.flatMap(
                            b ->
                                    b.machines().stream()
                                            .filter(m -> m.name().equals(machine.name()))
                                            .findFirst());
            lines.addAll(new OfMachine(then, machine, now.atMicros(), words).lines());
        }
        return lines;
    }

    /** The store cannot be read. */
    String trouble(long atMicros, String message) {
        return line(atMicros, LEAT, message);
    }

    private String line(long atMicros, String subject, String what) {
        return PlainText.harmless(shown.time(atMicros) + " " + subject + " " + what);
    }

    /** One machine then and now. */
    private final class OfMachine {

        private final Optional<MachineNow> then;
        private final MachineNow now;
        private final long atMicros;
        private final NowWords words;
        private final List<String> lines = new ArrayList<>();

        OfMachine(Optional<MachineNow> then, MachineNow now, long atMicros, NowWords words) {
            this.then = then;
            this.now = now;
            this.atMicros = atMicros;
            this.words = words;
        }

        List<String> lines() {
            phase();
            now.gauges().forEach(this::gauge);
            start();
            alarms();
            return lines;
        }

        private void say(long at, String what) {
            lines.add(line(at, now.name(), what));
        }

        private void phase() {
            if (then.filter(before -> before.phase().equals(now.phase())).isEmpty()) {
                String gauges =
                        Stream.of(Channel.INLET, Channel.BOOSTED)
                                .flatMap(channel -> now.gauge(channel).stream())
                                .map(g -> words.channel(g.channel()) + " " + words.value(g))
                                .collect(Collectors.joining(", "));
                say(
                        now.phase().map(p -> p.sinceMicros()).orElse(atMicros),
                        words.phase(now) + ": " + gauges);
            }
        }

        private void gauge(GaugeNow gauge) {
            Showing before =
                    then.flatMap(m -> m.gauge(gauge.channel()))
                            .map(GaugeNow::showing)
                            .orElse(Showing.NOW);
            if (before != gauge.showing()) {
                String why = words.whyNot(gauge);
                say(
                        atMicros,
                        words.channel(gauge.channel())
                                + ": "
                                + words.value(gauge)
                                + (why.isEmpty() ? "" : ", " + why));
            }
        }

        private void start() {
            Optional<Long> before = then.flatMap(MachineNow::lastStart).map(Changes::number);
            now.lastStart()
                    .filter(start -> !before.equals(Optional.of(number(start))))
                    .ifPresent(
                            start ->
                                    say(
                                            start.startup().startup().measuredAtMicros(),
                                            words.start(start.startup())));
        }

        private void alarms() {
            Map<Long, AlarmNow> before =
                    then.stream()
                            .flatMap(m -> Stream.concat(m.alarms().stream(), m.aside().stream()))
                            .collect(Collectors.toMap(a -> a.alarm().number(), a -> a));
            for (AlarmNow alarm : now.alarms()) {
                if (!alarm.equals(before.get(alarm.alarm().number()))) {
                    say(
                            alarm.alarm().change().atMicros(),
                            words.alarm(alarm) + ". " + words.check(alarm));
                }
            }
            for (AlarmNow gone : before.values()) {
                boolean stood = gone.alarm().isActive();
                if (stood && now.alarms().stream().noneMatch(a -> isSame(a, gone))) {
                    say(atMicros, words.gone(gone));
                }
            }
        }
    }

    private static boolean isSame(AlarmNow one, AlarmNow other) {
        return one.alarm().number() == other.alarm().number();
    }

    private static long number(StartNow start) {
        return start.startup().number();
    }
}
