package leat.rule;

import java.util.ArrayList;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.RestSpell;
import leat.measure.Run;
import leat.measure.RunMeter;
import leat.measure.Startup;
import leat.phase.Phase;
import leat.signal.Channel;
import leat.signal.Gauge;
import leat.signal.Gauges;
import leat.signal.Gauges.Switch;
import leat.signal.Reading;
import leat.signal.SecondMeans;
import leat.signal.SourceLost;

/**
 * A rule book under {@link OwnLimits} and the gauges that it looks at, which read what the test
 * says: a level steps from one second to the next, and the phase is as told.
 */
final class Stand implements Findings, Lessons {

    private static final long SECOND = 1_000_000;

    private final RuleBook rules;
    private final SecondMeans means = new SecondMeans();
    private final RunMeter run = new RunMeter(10, true);
    private final Map<Rule, Finding> standing = new EnumMap<>(Rule.class);
    final List<Baseline> learned = new ArrayList<>();
    private Gauges gauges = new Gauges(EnumSet.allOf(Channel.class));
    private Phase phase = Phase.REST;
    private long nowMicros = 1_767_592_800_000_000L;
    private long turnedMicros = nowMicros;

    Stand() {
        this(OwnLimits.ALL, Optional.empty());
    }

    Stand(Limits limits, Optional<Baseline> baseline) {
        rules = new RuleBook(limits, EnumSet.allOf(Channel.class), baseline, this, this);
    }

    RuleBook rules() {
        return rules;
    }

    /** The booster is started or stopped now. */
    Stand turn(Phase to) {
        phase = to;
        turnedMicros = nowMicros;
        return this;
    }

    /** A second passes, at whose end the gauges read this, whatever they read before. */
    void second(double inletPsi, double boostedPsi) {
        gauges = new Gauges(EnumSet.allOf(Channel.class));
        means.add(boostedPsi);
        show(Reading.good(Channel.INLET, nowMicros + SECOND, inletPsi));
        show(Reading.good(Channel.BOOSTED, nowMicros + SECOND, boostedPsi));
        silentSecond();
    }

    /** A second passes in which no channel speaks. */
    void silentSecond() {
        nowMicros += SECOND;
        rules.tick(situation());
    }

    /** A second passes, at whose end a channel says this. */
    void second(Reading reading) {
        show(reading);
        silentSecond();
    }

    /** A reading that the rules take in too, at the end of this second. */
    void read(Channel channel, double psi) {
        read(Reading.good(channel, nowMicros + SECOND, psi));
    }

    void read(Reading reading) {
        show(reading);
        rules.read(reading);
    }

    /** A second passes, at whose end a channel speaks with a clock that is off by so much. */
    void claim(Channel channel, double psi, double offSeconds) {
        Reading reading =
                Reading.good(channel, nextMicros(), psi)
                        .claiming(nextMicros() + Math.round(offSeconds * SECOND));
        second(reading);
    }

    private void show(Reading reading) {
        Gauge gauge = gauges.of(reading.channel());
        long tolerance = OwnLimits.ALL.micros(Limit.SIGNAL_CLOCK);
        gauge.show(reading.at(gauge.clock().timeOf(reading, tolerance)));
    }

    void lose(Channel channel) {
        gauges.of(channel).lose(new SourceLost(channel, nowMicros, "cable cut"));
    }

    long nextMicros() {
        return nowMicros + SECOND;
    }

    /** The clock is set by so many hours. */
    void stepClock(int hours) {
        nowMicros += hours * 3_600 * SECOND;
        gauges.forget(nowMicros);
        rules.forget();
    }

    /** A second passes in which the jet is on, or off, by a contact, at this level. */
    void second(boolean jet, double inletPsi, double boostedPsi) {
        run.read(Reading.good(Channel.INLET, nextMicros(), inletPsi));
        run.read(Reading.good(Channel.BOOSTED, nextMicros(), boostedPsi));
        run.tick(jet ? Switch.ON : Switch.OFF);
        second(inletPsi, boostedPsi);
    }

    /** A run of so many seconds that had these means ends now, or is looked at while it lasts. */
    List<RunVerdict.Part> run(Map<Measurand, Figure> means, double seconds, boolean over) {
        Run seen = new Run(nowMicros - Math.round(seconds * SECOND), nowMicros, over, means);
        return rules.judge(seen, Map.of(), RunVerdict.Mark.GOOD, situation());
    }

    private Situation situation() {
        return new Situation(
                nowMicros, phase, false, turnedMicros, turnedMicros, gauges, means, run.levels());
    }

    /** A start with these numbers is judged, ten minutes after the one before. */
    StartupVerdict start(Map<Measurand, Figure> figures, boolean risen) {
        return rules.judge(startup(figures, risen), false);
    }

    /** The line has come to rest after a stop. */
    void rest(Figure fallSeconds) {
        nowMicros += 600 * SECOND;
        rules.rested(
                new RestSpell(
                        nowMicros - 20 * SECOND,
                        nowMicros,
                        Figure.of(0),
                        Figure.of(42),
                        fallSeconds,
                        true));
    }

    /** A start with these numbers is judged and learned from. */
    void learn(Map<Measurand, Figure> figures) {
        Startup startup = startup(figures, true);
        rules.learn(startup, rules.judge(startup, false), rules.isRelaxed());
    }

    private Startup startup(Map<Measurand, Figure> figures, boolean risen) {
        nowMicros += 600 * SECOND;
        return new Startup(nowMicros - 13 * SECOND, nowMicros, figures, List.of(), risen);
    }

    /** Whether a finding of this rule stands that is so grave or graver. */
    boolean stands(Rule rule, Grade grade) {
        return standing.containsKey(rule) && standing.get(rule).grade().isAtLeast(grade);
    }

    Optional<Finding> finding(Rule rule) {
        return Optional.ofNullable(standing.get(rule));
    }

    @Override
    public void found(Finding finding) {
        standing.put(finding.rule(), finding);
    }

    @Override
    public void cleared(
            Rule rule,
            Channel channel,
            long atMicros,
            Figure inletPsi,
            Figure boostedPsi,
            List<Remark> now) {
        standing.remove(rule);
    }

    @Override
    public void progressed(Learning learning) {
        // only what has been learned is of interest here
    }

    @Override
    public void learned(Baseline baseline) {
        learned.add(baseline);
    }
}
