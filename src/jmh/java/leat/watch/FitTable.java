package leat.watch;

import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeMap;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Scenario;
import leat.measure.Absence;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.report.Json;
import leat.watch.BenchFeed.Wiring;

/**
 * How many starts of the bench's scenarios have a fitted first-order curve, why the others have
 * none, and of how many of these no remark says so. Of a scenario of weeks the first days are
 * played. Run {@link #main} for the table.
 */
final class FitTable {

    private static final Duration LONGEST = Duration.ofDays(2);

    private FitTable() {}

    /** Every start of every machine of a scenario, as leat measures it. */
    static List<Startup> starts(Scenario scenario) {
        List<Startup> starts = new ArrayList<>();
        Duration length =
                scenario.duration().compareTo(LONGEST) < 0 ? scenario.duration() : LONGEST;
        for (String machine : scenario.machineNames()) {
            starts.addAll(
                    BenchFeed.of(scenario)
                            .machine(machine)
                            .wiring(Wiring.RUNNING)
                            .length(length)
                            .told()
                            .startups);
        }
        return starts;
    }

    /** Why a start has no first-order curve; empty when it has one. */
    static String why(Startup start) {
        return start.figure(Measurand.TIME_CONSTANT).absence().map(Json.IN_PSI::absence).orElse("");
    }

    /** Whether it has one, or a remark says why not. */
    static boolean isExplained(Startup start) {
        Optional<Absence> why = start.figure(Measurand.TIME_CONSTANT).absence();
        return why.isEmpty()
                || start.remarks().stream().anyMatch(remark -> remark.because().equals(why));
    }

    /** Prints a line a scenario and reason, and the sums. */
    public static void main(String[] args) {
        Map<String, Integer> sums = new TreeMap<>();
        System.out.printf("%-26s %6s %5s %9s  without, because%n", "", "starts", "fit", "unsaid");
        for (Scenario scenario : Catalogue.all()) {
            List<Startup> starts = starts(scenario);
            Map<String, Integer> reasons = new TreeMap<>();
            starts.forEach(start -> reasons.merge(why(start), 1, Integer::sum));
            reasons.forEach((why, count) -> sums.merge(why, count, Integer::sum));
            Integer fitted = reasons.remove("");
            System.out.printf(
                    Locale.ROOT,
                    "%-26s %6d %5d %9d  %s%n",
                    scenario.name(),
                    starts.size(),
                    fitted == null ? 0 : fitted,
                    starts.stream().filter(start -> !isExplained(start)).count(),
                    reasons);
        }
        sums.forEach((why, count) -> System.out.printf("%6d %s%n", count, why));
    }
}
