package leat.cli;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.concurrent.TimeUnit;
import leat.json.RecordJson;
import leat.service.RunFigures;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "measure",
        mixinStandardHelpOptions = true,
        description = {
            "Measures leat under load: simulated machines, each on a Modbus TCP port of its own on the loopback"
                    + " in one process, leat in another, two pressures of each read 20 times a second.",
            "Prints missed polls, jitter, alarm latency, CPU share and memory, beside what a bare timer of this"
                    + " computer does in the same minute. Needs /proc (Linux)."
        })
final class MeasureCommand implements Callable<Integer> {

    /** The limits make alarms come: a sound level of 100 psi is above them. */
    private static final String HEAD =
            """
            site: { name: Load }
            limits:
              level: { advisory: 80 psi, warning: 70 psi, high_advisory: 95 psi, high_delay: 2 s }
            tell: { log: { by: { log: { } } } }
            """;

    private static final long WARM_UP_SECONDS = 5;

    @Option(
            names = "--machines",
            paramLabel = "N",
            defaultValue = "64",
            description = "default: ${DEFAULT-VALUE}")
    private int machines;

    @Option(
            names = "--seconds",
            paramLabel = "N",
            defaultValue = "60",
            description = "default: ${DEFAULT-VALUE}")
    private int seconds;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws IOException, InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        Path folder = Files.createTempDirectory("leat-measure");
        out.printf(
                "%d machines, 2 pressures each at 20 Hz, %d s after %d s of warm-up; data in %s%n",
                machines, seconds, WARM_UP_SECONDS, folder);
        out.flush();
        Process farm =
                java(
                        folder.resolve("farm.log"),
                        true,
                        "leat.bench.Farm",
                        Integer.toString(machines));
        try {
            Path site = folder.resolve("site.yaml");
            Files.writeString(site, siteText(farm));
            return measure(out, folder, site, farm);
        } finally {
            farm.destroy();
        }
    }

    private int measure(PrintWriter out, Path folder, Path site, Process farm)
            throws IOException, InterruptedException {
        Path figures = folder.resolve("figures.json");
        Process leat =
                java(
                        folder.resolve("leat.log"),
                        false,
                        "leat.cli.Main",
                        "run",
                        site.toString(),
                        "--figures",
                        figures.toString());
        try {
            if (leat.waitFor(WARM_UP_SECONDS, TimeUnit.SECONDS)) {
                throw CommandFailure.Expected.worded(
                        ExitCode.FAILED, "leat ended early; see " + folder.resolve("leat.log"));
            }
            ProcessUse before = ProcessUse.of(leat.pid());
            ProcessUse farmBefore = ProcessUse.of(farm.pid());
            TimerYardstick timer = TimerYardstick.run(seconds);
            ProcessUse after = ProcessUse.of(leat.pid());
            ProcessUse farmAfter = ProcessUse.of(farm.pid());
            long ending = System.nanoTime();
            leat.destroy();
            leat.waitFor();
            double endSeconds = (System.nanoTime() - ending) / 1e9;
            print(out, RecordJson.read(RunFigures.class, Files.readString(figures)), timer);
            row(out, "CPU share of leat", "%.1f %% of one core", 100 * before.shareUntil(after));
            row(
                    out,
                    "CPU share of the simulated machines",
                    "%.1f %% of one core",
                    100 * farmBefore.shareUntil(farmAfter));
            row(out, "memory of leat (RSS, peak)", "%.0f MB", after.peakBytes() / 1e6);
            row(out, "time to end after SIGTERM", "%.2f s", endSeconds);
            return ExitCode.DONE;
        } finally {
            leat.destroy();
        }
    }

    private static void print(PrintWriter out, RunFigures run, TimerYardstick timer) {
        row(out, "readings", "%d", run.readings());
        row(out, "polls", "%d", run.polls());
        row(out, "missed polls", "%d", run.missedPolls());
        row(out, "inputs lost", "%d", run.lost());
        row(out, "faults", "%d", run.faults());
        row(
                out,
                "poll jitter p50 / p99 / max",
                "%.2f / %.2f / %.2f ms",
                run.jitterP50Micros() / 1e3,
                run.jitterP99Micros() / 1e3,
                run.jitterMaxMicros() / 1e3);
        row(
                out,
                "a bare 50 ms timer meanwhile",
                "%.2f / %.2f / %.2f ms",
                timer.p50Millis(),
                timer.p99Millis(),
                timer.maxMillis());
        row(
                out,
                "newest reading to committed alarm p50 / max",
                "%.2f / %.2f s",
                run.alarmP50Micros() / 1e6,
                run.alarmMaxMicros() / 1e6);
        row(out, "alarm changes committed", "%d", run.alarms());
    }

    private static void row(PrintWriter out, String what, String format, Object... values) {
        out.printf("  %-45s %s%n", what, String.format(Locale.ROOT, format, values));
    }

    /** A site of two pressures a machine; the farm says first on which ports its machines are. */
    private static String siteText(Process farm) throws IOException {
        BufferedReader lines =
                new BufferedReader(
                        new InputStreamReader(farm.getInputStream(), StandardCharsets.UTF_8));
        String ports = Optional.ofNullable(lines.readLine()).orElse("");
        StringBuilder connections = new StringBuilder("connections:\n");
        StringBuilder machines = new StringBuilder("machines:\n");
        int number = 0;
        for (String port : ports.replaceAll("[^0-9,]", "").split(",")) {
            number++;
            connections.append(
                    String.format(
                            "  cabinet-%d: { modbus_tcp: { host: 127.0.0.1, port: %s, poll: 50 ms } }%n",
                            number, port));
            machines.append(String.format("  jet-%d:%n    channels:%n", number));
            machines.append(channel("inlet", number, 0)).append(channel("boosted", number, 1));
        }
        return HEAD + connections + machines;
    }

    private static String channel(String role, int cabinet, int address) {
        return String.format(
                "      %s: { from: cabinet-%d, register: { unit_id: 1, table: input_register, address: %d,"
                        + " type: uint16 },%n        loop: [ { raw: 0, current: 0 mA }, { raw: 4095, current: 20.5 mA } ],%n"
                        + "        scale: [ { at: 4 mA, reads: 0 psi }, { at: 20 mA, reads: 200 psi } ] }%n",
                role, cabinet, address);
    }

    /** Another JVM on this class path, with the options that DEVELOPERS.md gives for the daemon. */
    private static Process java(Path log, boolean pipeOutput, String mainClass, String... arguments)
            throws IOException {
        String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
        List<String> command =
                new ArrayList<>(
                        List.of(
                                java,
                                "-Xmx64m",
                                "-XX:TieredStopAtLevel=1",
                                "-XX:+UseSerialGC",
                                "-cp",
                                System.getProperty("java.class.path"),
                                mainClass));
        command.addAll(List.of(arguments));
        ProcessBuilder builder = new ProcessBuilder(command).redirectError(log.toFile());
        if (!pipeOutput) {
            builder.redirectErrorStream(true).redirectOutput(log.toFile());
        }
        return builder.start();
    }
}
