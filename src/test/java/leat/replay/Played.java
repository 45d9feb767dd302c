package leat.replay;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Set;
import java.util.concurrent.ConcurrentHashMap;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Sample;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioRun;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Quality;
import leat.signal.Reading;
import leat.signal.Tick;
import leat.watch.WatchSettings;

/** One machine of a bench scenario at 20 Hz, for tests: as inputs, and as the CSV of a logger. */
public final class Played {

    /** 2000-01-01T00:00:00Z, where a file that counts its own seconds is placed. */
    public static final long START = 946_684_800_000_000L;

    private static final double HZ = 20;
    private static final double LOW_PSI = -15;

    public static final Set<Channel> WIRED =
            EnumSet.of(Channel.INLET, Channel.BOOSTED, Channel.RUNNING);

    /**
     * What was solved before in this JVM: a line is the slowest part of most tests that play one.
     */
    private static final Map<String, Played> SOLVED = new ConcurrentHashMap<>();

    private final List<Sample> samples;

    private Played(List<Sample> samples) {
        this.samples = samples;
    }

    public static Played of(String scenario, String machine) {
        return SOLVED.computeIfAbsent(
                scenario + " " + machine,
                key -> new Played(solved(Catalogue.find(scenario).orElseThrow(), machine)));
    }

    private static List<Sample> solved(Scenario scenario, String machine) {
        ScenarioRun run = new ScenarioRun(scenario, HZ, ScenarioRun.USUAL_START, List.of(machine));
        List<Sample> samples = new ArrayList<>();
        while (run.nextMicros() * 1000 < scenario.duration().toNanos()) {
            samples.add(run.next().get(0));
        }
        return List.copyOf(samples);
    }

    public static WatchSettings settings(String machine) {
        return new WatchSettings(machine, WIRED, Limits.DEFAULTS);
    }

    public List<Input> inputs(long startMicros) {
        List<Input> inputs = new ArrayList<>();
        for (Sample sample : samples) {
            long at = startMicros + sample.micros();
            inputs.add(pressure(Channel.INLET, at, sample.inletPsi()));
            inputs.add(pressure(Channel.BOOSTED, at, sample.boostedPsi()));
            inputs.add(Reading.good(Channel.RUNNING, at, sample.running() ? 1 : 0));
            if (at % Tick.PERIOD_MICROS == 0) {
                inputs.add(new Tick(at));
            }
        }
        return inputs;
    }

    private static Reading pressure(Channel channel, long at, double psi) {
        return psi < LOW_PSI
                ? Reading.bad(channel, at, Quality.OUT_OF_RANGE)
                : Reading.good(channel, at, psi);
    }

    public void writeCsv(Path file) throws IOException {
        StringBuilder text = new StringBuilder("time_s,inlet_psi,boosted_psi,running\n");
        for (Sample sample : samples) {
            text.append(
                    String.format(
                            Locale.ROOT,
                            "%.3f,%s,%s,%d%n",
                            sample.seconds(),
                            sample.inletPsi(),
                            sample.boostedPsi(),
                            sample.running() ? 1 : 0));
        }
        Files.writeString(file, text);
    }
}
