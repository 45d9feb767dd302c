package leat.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Duration;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import leat.bench.Bench;
import leat.bench.Pace;
import leat.bench.panel.ModbusPanel;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Scenario;
import leat.config.Site;
import leat.report.Shown;
import leat.rule.Grade;
import leat.rule.RunVerdict;
import leat.service.Daemon;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoreSummary;
import leat.store.StoredAlarm;
import leat.store.StoredStartup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "demo",
        mixinStandardHelpOptions = true,
        description = {
            "Runs two invented machines and leat together over real Modbus TCP, in real time, for about 95 s.",
            "Shown are a healthy start, a worn booster, a shut-off valve that leaks through, and a booster that does not"
                    + " turn, each with the message that maintenance would get."
        })
final class DemoCommand implements Callable<Integer> {

    private static final Duration LONGEST = Duration.ofSeconds(96);
    private static final int NEWEST = 100;

    @Option(
            names = "--folder",
            paramLabel = "FOLDER",
            defaultValue = "leat-demo",
            description = "where the demo keeps its site.yaml and data (default: ${DEFAULT-VALUE})")
    private Path folder;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws IOException, InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        Scenario scenario = Catalogue.find("demo").orElseThrow();
        ModbusPanel cabinet = new ModbusPanel("cabinet-1", 0, scenario.machineNames());
        Path siteFile = folder.resolve("site.yaml");
        CountDownLatch watching = new CountDownLatch(1);
        Pace pace = onceReleased(watching, Pace.realTime());
        try (Bench bench = Bench.start(scenario, List.of(cabinet), pace, Clock.systemUTC())) {
            prepare(siteFile, bench.siteYaml());
            Site site = SiteChoice.load(siteFile);
            introduce(out, site, cabinet.port());
            watch(site, bench, watching, out);
            return conclude(out, site, siteFile);
        }
    }

    /** The data of an earlier demo go; nothing else in the folder is touched. */
    private void prepare(Path siteFile, String yaml) throws IOException {
        Files.createDirectories(folder);
        Files.writeString(siteFile, yaml);
        for (String name : List.of("leat.db", "leat.db-wal", "leat.db-shm")) {
            Files.deleteIfExists(folder.resolve("data").resolve(name));
        }
    }

    private static void introduce(PrintWriter out, Site site, int port) {
        out.println(
                "leat demo: an invented boatyard cuts composite panels with two waterjets, jet-1 and jet-2.");
        out.printf(
                "Their feed water is simulated and read over Modbus TCP on 127.0.0.1:%d, 20 times a second.%n",
                port);
        out.println("What happens in the next 95 seconds:");
        out.println(
                "  jet-1 starts healthy at 4 s and stops at 33 s; then its shut-off valve leaks through.");
        out.println(
                "  jet-2 starts at 3 s with a worn booster; at 65 s it starts again and does not turn.");
        out.println("Messages appear as maintenance would get them. Ctrl-C ends the demo early.");
        out.println();
        out.flush();
    }

    /** On a slow computer the first start would be over before leat looks. */
    private static Pace onceReleased(CountDownLatch release, Pace pace) {
        return sinceStart -> {
            release.await();
            pace.await(sinceStart);
        };
    }

    private static void watch(Site site, Bench bench, CountDownLatch watching, PrintWriter out)
            throws InterruptedException {
        Daemon daemon = RunCommand.daemon(site);
        Thread end = new Thread(daemon::close, "demo-end");
        Runtime.getRuntime().addShutdownHook(end);
        try (LiveLine line = new LiveLine(out, new Shown(site.zone(), site.shownIn()))) {
            daemon.start();
            watching.countDown();
            long deadline = System.nanoTime() + LONGEST.toNanos();
            while (!bench.isOver() && System.nanoTime() < deadline) {
                bench.awaitEnd(Duration.ofSeconds(1));
                line.show(bench.elapsed(), daemon.glances());
            }
        } finally {
            daemon.close();
        }
    }

    private int conclude(PrintWriter out, Site site, Path siteFile) {
        Path database = site.store().file();
        Shown shown = new Shown(site.zone(), site.shownIn());
        try (StoreReader reader = StoreReader.open(database)) {
            StoreSummary summary = reader.summary();
            List<StoredStartup> startups = reader.startups(StartupQuery.newest(NEWEST));
            List<StoredAlarm> alarms = reader.alarms(NEWEST);
            out.println();
            out.printf(
                    "Stored: %d readings, %d startups, %d alarms, in %s (%d kB).%n",
                    summary.samples(),
                    summary.startups(),
                    summary.alarms(),
                    database,
                    summary.bytes() / 1024);
            out.println();
            width.print(StartupsCommand.table(startups, shown));
            out.println();
            AlarmList.of(shown).print(alarms, new OutageChoice(List.of(), shown), width);
            out.println();
            tryNext(out, siteFile, database);
            return verdict(out, reader, startups, alarms);
        }
    }

    private static void tryNext(PrintWriter out, Path siteFile, Path database) {
        out.println("Try next (leat stands for: java -jar target/leat.jar):");
        out.printf(
                "  leat replay --site %s jet-2/1 --report start.html --against jet-1/1%n",
                siteFile);
        out.printf("  leat why --site %s jet-2/1%n", siteFile);
        out.printf("  leat alarms --site %s --history 1%n", siteFile);
        out.printf(
                "  leat ack --site %s 1                      (taken up when leat runs again)%n",
                siteFile);
        out.printf("  sqlite3 %s 'SELECT * FROM sample LIMIT 5'%n", database);
        out.println(
                "  leat simulate                              lists what else the bench can play");
        out.println(
                "  leat check config/boatyard-modbus.yaml     a configuration to start yours from");
    }

    /** The demo's own promise: all three grades for the faults, nothing for the healthy start. */
    private static int verdict(
            PrintWriter out,
            StoreReader reader,
            List<StoredStartup> startups,
            List<StoredAlarm> alarms) {
        Set<Grade> seen = EnumSet.noneOf(Grade.class);
        for (StoredAlarm alarm : alarms) {
            reader.alarmHistory(alarm.change().alarmId()).stream()
                    .filter(a -> a.change().isCall())
                    .forEach(a -> seen.add(a.change().finding().grade()));
        }
        boolean healthyIsGood =
                startups.stream()
                        .filter(s -> s.machine().equals("jet-1"))
                        .allMatch(DemoCommand::isGood);
        out.println();
        if (seen.equals(EnumSet.allOf(Grade.class)) && healthyIsGood) {
            out.println(
                    "The demo went as it should: ADVISORY, WARNING and CRITICAL seen, the healthy start good.");
            return ExitCode.DONE;
        }
        out.println(
                "The demo did not go as it should: seen "
                        + seen
                        + ", healthy start good: "
                        + healthyIsGood
                        + ".");
        return ExitCode.FAILED;
    }

    private static boolean isGood(StoredStartup stored) {
        return stored.run().map(run -> run.verdict().mark()).orElse(stored.verdict().mark())
                == RunVerdict.Mark.GOOD;
    }
}
