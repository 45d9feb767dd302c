package leat.rule;

import java.util.List;
import leat.rule.Finding.Quantity;
import leat.rule.Finding.Sense;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.signal.StateReader;
import leat.signal.StateWriter;

/** One channel's own health: silent, BAD, or stuck. Never judged as a pressure. */
final class SignalJudge implements Judge {

    private final Channel channel;
    private final long missingMicros;
    private final Bars missing;
    private final Bar missingBar;
    private final Bars bad;
    private final Bar badBar;
    private final Stuck stuck;
    private final Bars stuckBars;
    private final Bar stuckBar;

    SignalJudge(Channel channel, Limits limits) {
        this.channel = channel;
        missingMicros = limits.micros(Limit.SIGNAL_MISSING);
        double missingSeconds = limits.get(Limit.SIGNAL_MISSING);
        long off = limits.micros(Limit.SIGNAL_OFF_DELAY);
        missingBar = warning(missingSeconds, 0, off);
        missing =
                new Bars(Rule.SIGNAL_MISSING, channel, Quantity.TIME_SECONDS, List.of(missingBar));
        badBar = warning(missingSeconds, 0, off);
        bad = new Bars(Rule.SIGNAL_BAD, channel, Quantity.TIME_SECONDS, List.of(badBar));
        stuck = new Stuck(limits);
        stuckBar = warning(limits.get(Limit.SIGNAL_STUCK), 0, off);
        stuckBars = new Bars(Rule.SIGNAL_STUCK, channel, Quantity.TIME_SECONDS, List.of(stuckBar));
    }

    private static Bar warning(double seconds, long onMicros, long offMicros) {
        return new Bar(
                Grade.WARNING, seconds, seconds, Sense.AT_MOST, new Latch(onMicros, offMicros));
    }

    /** This channel was read. */
    void read(long atMicros, double value) {
        stuck.read(atMicros, value);
    }

    /** The other pressure was read. */
    void otherRead(double psi) {
        stuck.otherRead(psi);
    }

    void forget() {
        stuck.forget();
    }

    @Override
    public void tick(Situation situation, Findings findings) {
        Gauge gauge = situation.gauges().of(channel);
        tickMissing(situation, gauge, findings);
        tickBad(situation, gauge, findings);
        if (channel == Channel.INLET || channel == Channel.BOOSTED) {
            tickStuck(situation, findings);
        }
    }

    private void tickMissing(Situation situation, Gauge gauge, Findings findings) {
        long now = situation.atMicros();
        long silentMicros = 0;
        String why = "";
        if (gauge.isLost()) {
            silentMicros = now - Math.min(gauge.lostSinceMicros(), latestOr(gauge, now));
            why = gauge.lostReason();
        } else if (channel.isPressure() && gauge.latestMicros() != Gauge.NEVER) {
            silentMicros = now - gauge.latestMicros();
            why = "no reading with a present time; check the sender and its clock";
        }
        boolean silent = silentMicros >= missingMicros;
        missing.look(missingBar, situation, silent, !silent && !gauge.isLost());
        missing.tell(situation, silentMicros / 1e6, silent ? why : "", "", findings);
    }

    private static long latestOr(Gauge gauge, long now) {
        return gauge.latestMicros() == Gauge.NEVER ? now : gauge.latestMicros();
    }

    private void tickBad(Situation situation, Gauge gauge, Findings findings) {
        long since = gauge.badSinceMicros();
        long badMicros = since == Gauge.NEVER || gauge.isLost() ? 0 : situation.atMicros() - since;
        boolean isBad = badMicros >= missingMicros;
        bad.look(badBar, situation, isBad, since == Gauge.NEVER && !gauge.isLost());
        bad.tell(situation, badMicros / 1e6, isBad ? gauge.quality().reason() : "", "", findings);
    }

    private void tickStuck(Situation situation, Findings findings) {
        boolean judged = situation.phase().isRunning();
        boolean stands = judged && stuck.isStuck(situation.atMicros());
        stuckBars.look(
                stuckBar, situation, stands, stuck.standsStillMicros(situation.atMicros()) == 0);
        stuckBars.tell(
                situation,
                stuck.standsStillMicros(situation.atMicros()) / 1e6,
                stands ? "the same to the last bit while the other gauge moves" : "",
                "",
                findings);
    }

    @Override
    public void save(StateWriter out) {
        missing.save(out);
        bad.save(out);
        stuck.save(out);
        stuckBars.save(out);
    }

    @Override
    public void load(StateReader in) {
        missing.load(in);
        bad.load(in);
        stuck.load(in);
        stuckBars.load(in);
    }
}
