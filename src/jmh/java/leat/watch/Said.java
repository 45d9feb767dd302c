package leat.watch;

import java.util.List;
import java.util.Locale;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Scenario;
import leat.measure.Figure;
import leat.measure.Startup;
import leat.report.Json;
import leat.watch.BenchFeed.Wiring;

/**
 * What leat says of each scenario of the bench that a person could watch: alarms with their
 * seconds, and the figures of each start. For choosing severities. Run by hand; arguments are names
 * of scenarios.
 */
final class Said {

    private Said() {}

    public static void main(String[] arguments) {
        List<String> names = arguments.length == 0 ? Catalogue.names() : List.of(arguments);
        names.stream()
                .map(name -> Catalogue.find(name).orElseThrow())
                .filter(scenario -> !scenario.isLong())
                .forEach(Said::print);
    }

    private static void print(Scenario scenario) {
        for (String machine : scenario.machineNames()) {
            for (Wiring wiring : Wiring.values()) {
                Told told = BenchFeed.of(scenario).machine(machine).wiring(wiring).told();
                System.out.printf("%s %s %s%n", scenario.name(), machine, wiring);
                told.alarms.forEach(
                        alarm ->
                                System.out.printf(
                                        Locale.ROOT,
                                        "  %5.1f s %s %s %s: %.2f against %.2f %s%n",
                                        (alarm.atMicros() - BenchFeed.START) / 1e6,
                                        alarm.event(),
                                        alarm.finding().rule(),
                                        alarm.finding().grade(),
                                        alarm.finding().measured(),
                                        alarm.finding().limit(),
                                        Json.IN_PSI.remarks(alarm.finding())));
                if (wiring == Wiring.RUNNING) {
                    told.startups.forEach(Said::print);
                }
            }
        }
    }

    private static void print(Startup startup) {
        System.out.printf(
                Locale.ROOT,
                "        start at %.1f s: rise %s, top %s, ratio %s%n",
                (startup.startedAtMicros() - BenchFeed.START) / 1e6,
                words(startup.riseSeconds()),
                words(startup.topPsi()),
                words(startup.ratio()));
    }

    private static String words(Figure figure) {
        return figure.isPresent()
                ? String.format(Locale.ROOT, "%.2f", figure.get())
                : figure.absentBecause().key();
    }
}
