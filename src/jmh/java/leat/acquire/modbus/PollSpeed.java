package leat.acquire.modbus;

import java.io.BufferedReader;
import java.io.File;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import leat.json.RecordJson;
import leat.service.RunFigures;

/**
 * Measures what polling costs beside C clients and a bare timer, alternately in one run, for a
 * computer is never the same for long: many connections, two registers each, 20 times a second, to
 * one simulated device in C. Prints figures and judges nothing: run it by hand at the top of the
 * sources, with the number of connections (512), of rounds (3) and of seconds of each (8). Needs
 * {@code cc} and {@code /proc}.
 */
final class PollSpeed {

    private static final int WARM_UP_SECONDS = 5;
    private static final double MICROS_PER_TICK = 10_000;

    /** Who polls. */
    private enum Who {
        C_THREADS("C, a thread for each connection"),
        C_EXACT("C, one thread for all"),
        C_ONE("C, one thread, waits of whole ms"),
        TIMER("bare timer, nobody is asked"),
        LEAT_POLLS("leat, the polling alone"),
        LEAT("leat, judging and storing too");

        private final String words;

        Who(String words) {
            this.words = words;
        }
    }

    /** What one run has brought; lateness counts from the start for leat. */
    private record Run(long polls, long missed, double cpuMicros, long p99Micros, long maxMicros) {

        double microsPerPoll() {
            return cpuMicros / polls;
        }
    }

    private final int connections;
    private final int seconds;
    private final Path folder;
    private final Path poll;

    private PollSpeed(int connections, int seconds) throws IOException, InterruptedException {
        this.connections = connections;
        this.seconds = seconds;
        this.folder = Files.createTempDirectory("leat-polls");
        this.poll = folder.resolve("poll");
        Process cc =
                new ProcessBuilder(
                                "cc", "-O2", "-pthread", "-o", poll.toString(), "src/jmh/c/poll.c")
                        .inheritIO()
                        .start();
        if (cc.waitFor() != 0) {
            throw new IOException("src/jmh/c/poll.c does not compile");
        }
    }

    public static void main(String[] args) throws IOException, InterruptedException {
        int connections = args.length > 0 ? Integer.parseInt(args[0]) : 512;
        int rounds = args.length > 1 ? Integer.parseInt(args[1]) : 3;
        int seconds = args.length > 2 ? Integer.parseInt(args[2]) : 8;
        PollSpeed speed = new PollSpeed(connections, seconds);
        Map<Who, List<Run>> runs = new EnumMap<>(Who.class);
        for (int round = 0; round < rounds; round++) {
            for (Who who : Who.values()) {
                Run run = speed.run(who, round);
                runs.computeIfAbsent(who, key -> new ArrayList<>()).add(run);
                System.out.printf("%-32s %s%n", who.words, run);
            }
        }
        print(runs);
    }

    private static void print(Map<Who, List<Run>> runs) {
        System.out.printf(
                "%nmedians of %d runs%n%-32s %9s %9s %9s %9s %9s %9s%n",
                runs.get(Who.LEAT).size(),
                "",
                "us/poll",
                "to C thr.",
                "to C one",
                "to C ms",
                "missed",
                "p99 us");
        for (Map.Entry<Who, List<Run>> entry : runs.entrySet()) {
            double micros = cost(entry.getValue());
            System.out.printf(
                    "%-32s %9.1f %9.2f %9.2f %9.2f %9.0f %9.0f%n",
                    entry.getKey().words,
                    micros,
                    micros / cost(runs.get(Who.C_THREADS)),
                    micros / cost(runs.get(Who.C_EXACT)),
                    micros / cost(runs.get(Who.C_ONE)),
                    median(entry.getValue().stream().mapToDouble(Run::missed).toArray()),
                    median(entry.getValue().stream().mapToDouble(Run::p99Micros).toArray()));
        }
    }

    private static double cost(List<Run> runs) {
        return median(runs.stream().mapToDouble(Run::microsPerPoll).toArray());
    }

    private static double median(double[] values) {
        Arrays.sort(values);
        return values[values.length / 2];
    }

    private Run run(Who who, int round) throws IOException, InterruptedException {
        Process device =
                new ProcessBuilder(poll.toString(), "serve")
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        try {
            String port = firstLine(device);
            return switch (who) {
                case C_THREADS -> printed(command(poll.toString(), "threads", port));
                case C_EXACT -> printed(command(poll.toString(), "exact", port));
                case C_ONE -> printed(command(poll.toString(), "one", port));
                case TIMER -> printed(command(poll.toString(), "timer", port));
                case LEAT_POLLS -> {
                    List<String> java = java(System.getProperty("java.class.path"));
                    java.addAll(command(PollClient.class.getName(), port));
                    yield printed(java);
                }
                case LEAT -> whole(port, folder.resolve("run-" + round));
            };
        } finally {
            device.destroy();
            device.waitFor();
        }
    }

    private List<String> command(String... first) {
        List<String> command = new ArrayList<>(List.of(first));
        command.addAll(
                List.of(
                        Integer.toString(connections),
                        Integer.toString(WARM_UP_SECONDS),
                        Integer.toString(seconds)));
        return command;
    }

    /** With the options that DEVELOPERS.md gives for the daemon. */
    private static List<String> java(String classPath) {
        String java = Path.of(System.getProperty("java.home"), "bin", "java").toString();
        return new ArrayList<>(
                List.of(
                        java,
                        "-Xmx64m",
                        "-XX:TieredStopAtLevel=1",
                        "-XX:+UseSerialGC",
                        "-cp",
                        classPath));
    }

    private static Run printed(List<String> command) throws IOException, InterruptedException {
        Process client =
                new ProcessBuilder(command).redirectError(ProcessBuilder.Redirect.INHERIT).start();
        String[] figures = firstLine(client).split(" ");
        client.waitFor();
        return new Run(
                Long.parseLong(figures[0]),
                Long.parseLong(figures[1]),
                Double.parseDouble(figures[2]),
                Long.parseLong(figures[4]),
                Long.parseLong(figures[5]));
    }

    /** The daemon; polls and missed ones are those since its start, scaled to the time measured. */
    private Run whole(String port, Path data) throws IOException, InterruptedException {
        Files.createDirectories(data);
        Path site = data.resolve("site.yaml");
        Path figures = data.resolve("figures.json");
        Files.writeString(site, siteText(port));
        List<String> command = java(System.getProperty("java.class.path"));
        command.addAll(
                List.of("leat.cli.Main", "run", site.toString(), "--figures", figures.toString()));
        File log = data.resolve("leat.log").toFile();
        Process leat =
                new ProcessBuilder(command).redirectErrorStream(true).redirectOutput(log).start();
        try {
            if (leat.waitFor(2L * WARM_UP_SECONDS, TimeUnit.SECONDS)) {
                throw new IOException("leat ended early; see " + log);
            }
            double before = cpuMicros(leat.pid());
            leat.waitFor(seconds, TimeUnit.SECONDS);
            double cpu = cpuMicros(leat.pid()) - before;
            leat.destroy();
            leat.waitFor();
            RunFigures run = RecordJson.read(RunFigures.class, Files.readString(figures));
            return new Run(
                    20L * connections * seconds,
                    run.missedPolls(),
                    cpu,
                    run.jitterP99Micros(),
                    run.jitterMaxMicros());
        } finally {
            leat.destroy();
        }
    }

    private static double cpuMicros(long pid) throws IOException {
        String stat = Files.readString(Path.of("/proc", Long.toString(pid), "stat"));
        String[] afterName = stat.substring(stat.lastIndexOf(')') + 2).split(" ");
        return (Long.parseLong(afterName[11]) + Long.parseLong(afterName[12])) * MICROS_PER_TICK;
    }

    private static String firstLine(Process process) throws IOException {
        var output = new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8);
        return Optional.ofNullable(new BufferedReader(output).readLine())
                .orElseThrow(() -> new IOException("it has said nothing"));
    }

    private String siteText(String port) {
        StringBuilder connected = new StringBuilder("site: { name: Polls }\nconnections:\n");
        StringBuilder machines = new StringBuilder("machines:\n");
        for (int i = 1; i <= connections; i++) {
            connected.append(
                    "  cabinet-%d: { modbus_tcp: { host: 127.0.0.1, port: %s, poll: 50 ms } }%n"
                            .formatted(i, port));
            machines.append("  jet-%d:%n    channels:%n".formatted(i));
            machines.append(channel("inlet", i, 0)).append(channel("boosted", i, 1));
        }
        return connected.append("routes: { log: { log: { at_least: ADVISORY } } }\n")
                + machines.toString();
    }

    private static String channel(String role, int cabinet, int address) {
        return """
                      %s:
                        from: cabinet-%d
                        register: { unit_id: 1, table: input_register, address: %d, type: uint16 }
                        loop: [ { raw: 0, current: 0 mA }, { raw: 4095, current: 20.5 mA } ]
                        scale: [ { at: 4 mA, reads: 0 psi }, { at: 20 mA, reads: 200 psi } ]
                """
                .formatted(role, cabinet, address);
    }
}
