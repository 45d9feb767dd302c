package leat.service;

import java.util.Optional;
import java.util.function.Consumer;
import leat.config.MachineSettings;
import leat.signal.ClockStep;
import leat.signal.Gauge;
import leat.signal.Input;
import leat.signal.Reading;
import leat.store.Snapshot;
import leat.watch.Glance;
import leat.watch.Outcome;
import leat.watch.Watch;
import leat.watch.WatchSettings;

/** One machine under watch, and how far it has been fed. Confined to the engine thread. */
final class Watched {

    /** 2026-01-01T00:00:00Z, microseconds UTC. */
    private static final long NO_LEAT_YET = 1_767_225_600_000_000L;

    private final MachineSettings settings;
    private final Watch watch;
    private final boolean afresh;
    private long seq;
    private long lastReadingMicros;
    private volatile Glance glance;

    /**
     * @param seq number of the last input of the machine; 0 for none
     * @param afresh true when {@code watch} knows nothing of those inputs
     */
    Watched(MachineSettings settings, Watch watch, long seq, boolean afresh) {
        this.settings = settings;
        this.watch = watch;
        this.seq = seq;
        this.afresh = afresh;
        glance = watch.glance();
    }

    static WatchSettings watchSettings(MachineSettings machine) {
        return new WatchSettings(machine.name(), machine.byChannel().keySet(), machine.limits());
    }

    String name() {
        return settings.name();
    }

    /** True when the watch started without the machine's past, though it has one. */
    boolean isAfresh() {
        return afresh;
    }

    MachineSettings settings() {
        return settings;
    }

    /** Feeds the next input; returns its number. */
    long feed(Input input, Consumer<Outcome> outcomes) {
        if (input instanceof Reading reading) {
            lastReadingMicros = reading.atMicros();
        }
        watch.feed(input, outcomes);
        return ++seq;
    }

    long seq() {
        return seq;
    }

    /** Time of the newest reading fed, to tell how long an alarm took from it. */
    long lastReadingMicros() {
        return lastReadingMicros;
    }

    /** How its watch stands, to be taken up from later. */
    Snapshot snapshot(long nowMicros) {
        return new Snapshot(name(), seq, nowMicros, Watch.FORMAT, watch.snapshot());
    }

    /**
     * The step that event time makes when this machine's goes on at {@code nowMicros}: back, or on
     * from a time at which no leat can have run, as a computer has that lost its clock's battery.
     */
    Optional<ClockStep> stepTo(long nowMicros) {
        long past = watch.glance().tickMicros();
        boolean isStep =
                past != Gauge.NEVER
                        && (nowMicros <= past || past < NO_LEAT_YET && nowMicros >= NO_LEAT_YET);
        return isStep ? Optional.of(new ClockStep(nowMicros, past)) : Optional.empty();
    }

    void refreshGlance() {
        glance = watch.glance();
    }

    /** What its gauges showed at the last tick; readable from any thread. */
    Glance glance() {
        return glance;
    }
}
