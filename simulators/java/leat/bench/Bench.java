package leat.bench;

import static java.util.Objects.requireNonNull;

import java.time.Clock;
import java.time.Duration;
import java.time.Instant;
import java.util.List;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.TimeUnit;
import leat.bench.panel.Panel;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Plays a scenario on panels, with one thread for the model. After the end of a scenario that does
 * not loop the panels go on showing the last samples until the bench is closed. Thread-safe.
 */
public final class Bench implements AutoCloseable {

    /** Samples a second that a transducer's converter makes. */
    public static final double SAMPLE_HZ = 20;

    private static final Logger LOG = LoggerFactory.getLogger(Bench.class);
    private static final long JOIN_MILLIS = 2_000;

    private final Scenario scenario;
    private final List<Panel> panels;
    private final Pace pace;
    private final Clock clock;
    private final ScenarioRun run;
    private final CountDownLatch over = new CountDownLatch(1);
    private final Thread thread = new Thread(this::play, "bench");
    private volatile List<Sample> present;

    private Bench(Scenario scenario, List<Panel> panels, Pace pace, Clock clock) {
        this.scenario = requireNonNull(scenario, "scenario");
        this.panels = List.copyOf(panels);
        this.pace = requireNonNull(pace, "pace");
        this.clock = requireNonNull(clock, "clock");
        run = new ScenarioRun(scenario, SAMPLE_HZ);
        present = run.next();
    }

    /** The scenarios that come with the bench, {@code demo} first. */
    public static List<Scenario> scenarios() {
        return Catalogue.all();
    }

    /**
     * Begins to play in real time.
     *
     * @param panels show the samples; the bench closes them in the end
     */
    public static Bench start(Scenario scenario, List<Panel> panels) {
        return start(scenario, panels, Pace.realTime(), Clock.systemUTC());
    }

    /**
     * Begins to play.
     *
     * @param panels show the samples; the bench closes them in the end
     * @param pace what it waits for between two samples
     * @param clock what the samples are stamped by
     */
    public static Bench start(Scenario scenario, List<Panel> panels, Pace pace, Clock clock) {
        Bench bench = new Bench(scenario, panels, pace, clock);
        bench.show(bench.present);
        bench.thread.setDaemon(true);
        bench.thread.start();
        return bench;
    }

    private void play() {
        try {
            while (!run.isOver()) {
                pace.await(Duration.ofNanos(run.nextMicros() * 1_000));
                show(run.next());
            }
            over.countDown();
        } catch (InterruptedException e) {
            LOG.debug("bench: {} was ended before its time", scenario.name());
            Thread.currentThread().interrupt();
        } catch (RuntimeException e) {
            LOG.error("bench: {} broke off", scenario.name(), e);
        }
    }

    private void show(List<Sample> samples) {
        Instant at = clock.instant();
        panels.forEach(panel -> panel.show(at, samples));
        present = samples;
    }

    /** What it plays. */
    public Scenario scenario() {
        return scenario;
    }

    /** What is true and shown now: one sample of each machine in the order of the scenario. */
    public List<Sample> now() {
        return present;
    }

    /** How far it is. */
    public Duration elapsed() {
        return Duration.ofNanos(present.get(0).micros() * 1_000);
    }

    /** Whether the scenario has come to its end; never so for one that loops. */
    public boolean isOver() {
        return over.getCount() == 0;
    }

    /**
     * Waits for the end of the scenario.
     *
     * @return false if it is not over within {@code longest}
     */
    public boolean awaitEnd(Duration longest) throws InterruptedException {
        return over.await(longest.toNanos(), TimeUnit.NANOSECONDS);
    }

    /** The text of a {@code site.yaml} that reads every machine of this bench. */
    public String siteYaml() {
        return new SiteText("Boatyard", panels.stream().map(Panel::wiring).toList()).text();
    }

    /** Ends the play, then the panels; may be called again. */
    @Override
    public void close() {
        thread.interrupt();
        try {
            thread.join(JOIN_MILLIS);
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        if (thread.isAlive()) {
            LOG.warn("bench: thread {} does not end", thread.getName());
        }
        panels.forEach(Panel::close);
    }
}
