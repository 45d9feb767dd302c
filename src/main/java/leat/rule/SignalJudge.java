package leat.rule;

import java.util.List;
import java.util.Set;
import leat.phase.Phase;
import leat.rule.Finding.Quantity;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.SensorClock;
import leat.wire.State;

/** One channel's own health: silent, BAD, stuck, or of another time. Never judged as a pressure. */
final class SignalJudge implements Judge {

    /**
     * Ticks come each second. Where they did not, leat was not running, and a silence that nobody
     * watched is no fault of the channel.
     */
    private static final long MOST_BETWEEN_TICKS_MICROS = 2_500_000;

    /** In a vacuum the inlet transmitter stands at its lower stop, which is constant by nature. */
    private static final double INLET_STOP_PSI = 0;

    private static final double BOOSTED_STOP_PSI = -2;

    private final Channel channel;
    private final MissingJudge missing;
    private final LostReadings lost;
    private final Belief belief;
    private final FullScale fullScale = new FullScale();
    private final long risenMicros;
    private long tickMicros = Gauge.NEVER;
    private long watchedMicros = Gauge.NEVER;
    private boolean runs;
    private final GradedLimit badBar;
    private final GradedLimits bad;
    private final GradedLimit clockLimit;
    private final GradedLimits clock;
    private final Stuck stuck;
    private final GradedLimit stuckLimit;
    private final GradedLimits stuckLimits;

    SignalJudge(Channel channel, Limits limits) {
        this.channel = channel;
        missing = new MissingJudge(channel, limits);
        lost = new LostReadings(limits);
        belief = new Belief(limits);
        risenMicros = limits.micros(Limit.RISE_CRITICAL);
        badBar = warning(Limit.SIGNAL_MISSING, limits.micros(Limit.SIGNAL_MISSING), limits);
        bad = new GradedLimits(Rule.SIGNAL_BAD, channel, Quantity.TIME_SECONDS, List.of(badBar));
        clockLimit =
                limit(
                        Grade.ADVISORY,
                        Limit.SIGNAL_CLOCK,
                        limits.micros(Limit.SIGNAL_MISSING),
                        limits);
        clock =
                new GradedLimits(
                        Rule.SIGNAL_CLOCK, channel, Quantity.TIME_SECONDS, List.of(clockLimit));
        boolean inlet = channel == Channel.INLET;
        stuck = new Stuck(inlet ? INLET_STOP_PSI : BOOSTED_STOP_PSI, !inlet, limits);
        stuckLimit = warning(Limit.SIGNAL_STUCK, 0, limits);
        stuckLimits =
                new GradedLimits(
                        Rule.SIGNAL_STUCK, channel, Quantity.TIME_SECONDS, List.of(stuckLimit));
    }

    private static GradedLimit warning(Limit limit, long onMicros, Limits limits) {
        return limit(Grade.WARNING, limit, onMicros, limits);
    }

    private static GradedLimit limit(Grade grade, Limit limit, long onMicros, Limits limits) {
        double seconds = limits.get(limit);
        long off = limits.micros(Limit.SIGNAL_OFF_DELAY);
        return GradedLimit.atMost(grade, seconds, seconds, onMicros, off);
    }

    /** This pressure was read, BAD or usable. */
    void read(Reading reading) {
        boolean usable = reading.quality().isUsable();
        lost.read(reading.atMicros(), usable);
        if (usable) {
            belief.read(reading.value());
            fullScale.read(reading);
            if (channel != Channel.FILTERED) {
                stuck.read(reading.atMicros(), reading.value(), !isStuck());
            }
        } else {
            belief.readBad();
            fullScale.forget();
        }
    }

    /** Nobody wrote a new value, which is none lost. */
    void held(long atMicros) {
        lost.read(atMicros, true);
    }

    /** The other pressure was read. */
    void otherRead(double psi) {
        stuck.otherRead(psi);
    }

    /** True while the channel's reading is held to be stuck and says nothing of the pressure. */
    boolean isStuck() {
        return stuckLimit.latch().isActive();
    }

    /** True while the channel's readings are not held for pressures. */
    boolean isDoubted() {
        return belief.isDoubted() || fullScale.isStanding();
    }

    /** Event time has jumped. */
    void forget() {
        tickMicros = Gauge.NEVER;
        stuck.forget();
        belief.forget();
        fullScale.forget();
        lost.forget();
        pause();
    }

    @Override
    public Set<Channel> restsOn() {
        return Set.of(channel);
    }

    @Override
    public void pause() {
        missing.pause();
        bad.pause();
        clock.pause();
        stuckLimits.pause();
    }

    @Override
    public void tick(Situation situation, CriticalFindings findings) {
        if (tickMicros == Gauge.NEVER
                || situation.atMicros() - tickMicros > MOST_BETWEEN_TICKS_MICROS) {
            watchedMicros = situation.atMicros();
            lost.forget();
        }
        tickMicros = situation.atMicros();
        Gauge gauge = situation.gauges().of(channel);
        belief.tick();
        if (situation.phase() != Phase.BLIND) {
            runs = situation.phase().isRunning();
        }
        lost.tick(runs);
        if (badBar.latch().isActive() || missing.isSilent()) {
            lost.forget(); // that is told already
        }
        missing.tick(situation, gauge, watchedMicros, lost.share(), findings);
        tickBad(situation, gauge, findings);
        tickClock(situation, gauge, findings);
        if (channel == Channel.INLET || channel == Channel.BOOSTED) {
            tickStuck(situation, findings);
        }
    }

    private void tickBad(Situation situation, Gauge gauge, Findings findings) {
        long since = gauge.isLost() ? Gauge.NEVER : badSinceMicros(situation, gauge);
        boolean nothing =
                since == Gauge.NEVER
                        && !gauge.isLost()
                        && belief.isNothing()
                        && situation.hasRunFor(risenMicros);
        if (nothing) {
            since = situation.startMicros();
        }
        long lasted = since == Gauge.NEVER ? 0 : situation.atMicros() - since;
        boolean good = since == Gauge.NEVER && !gauge.isLost() && !belief.isNothing();
        badBar.latch().look(situation.atMicros(), since, good);
        bad.tell(
                situation,
                lasted / 1e6,
                () -> whyBad(gauge, nothing),
                GradedLimits.NOTHING,
                findings);
    }

    private long badSinceMicros(Situation situation, Gauge gauge) {
        long bad = gauge.badSinceMicros(situation.atMicros());
        return bad == Gauge.NEVER ? fullScale.sinceMicros() : bad;
    }

    private List<Remark> whyBad(Gauge gauge, boolean nothing) {
        if (nothing) {
            return List.of(Remark.of(Remark.Kind.NEVER_MOVED, belief.firstPsi()));
        }
        if (fullScale.isStanding()) {
            return List.of(Remark.about(Quality.AT_TOP));
        }
        Remark quality = Remark.about(gauge.badQuality());
        return belief.isNever()
                ? List.of(quality, Remark.of(Remark.Kind.NEVER_RIGHT))
                : List.of(quality);
    }

    private void tickClock(Situation situation, Gauge gauge, Findings findings) {
        SensorClock sensor = gauge.clock();
        long since = gauge.isLost() ? Gauge.NEVER : sensor.offSinceMicros(situation.atMicros());
        boolean good = since == Gauge.NEVER && !gauge.isLost();
        clockLimit.latch().look(situation.atMicros(), since, good);
        Remark.Kind way =
                sensor.offMicros() > 0 ? Remark.Kind.CLOCK_AHEAD : Remark.Kind.CLOCK_BEHIND;
        clock.tell(
                situation,
                Math.abs(sensor.offMicros() / 1e6),
                () -> List.of(Remark.of(way)),
                GradedLimits.NOTHING,
                findings);
    }

    private void tickStuck(Situation situation, Findings findings) {
        long now = situation.atMicros();
        if (!situation.phase().isRunning()) {
            stuck.idles(now);
        }
        stuck.rests(situation.phase() == Phase.REST);
        boolean stands = stuck.isStuck(now) && !belief.isNothing() && !fullScale.isStanding();
        long since = stands ? stuck.sinceMicros() : Gauge.NEVER;
        stuckLimit.latch().look(now, since, stuck.moves(now));
        stuckLimits.tell(
                situation,
                stuck.stillMicros(now) / 1e6,
                this::whyStuck,
                GradedLimits.NOTHING,
                findings);
    }

    private List<Remark> whyStuck() {
        return stuck.isStillAlone()
                ? List.of(Remark.of(Remark.Kind.NEVER_SO_STILL, stuck.longestStillMicros() / 1e6))
                : List.of(Remark.of(Remark.Kind.STANDS_STILL));
    }

    @Override
    public void letGo(Rule rule, Situation situation, Findings findings) {
        // a channel is as it is, whoever works on the machine
    }

    @Override
    public void keep(State state) {
        tickMicros = state.keep("tickMicros", tickMicros);
        watchedMicros = state.keep("watchedMicros", watchedMicros);
        runs = state.keep("runs", runs);
        state.part("stuck", stuck::keep);
        missing.keep(state);
        state.part("lost", lost::keep);
        state.part("belief", belief::keep);
        state.part("fullScale", fullScale::keep);
        bad.keep(state);
        clock.keep(state);
        stuckLimits.keep(state);
    }
}
