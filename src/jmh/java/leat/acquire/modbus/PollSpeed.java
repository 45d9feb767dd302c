package leat.acquire.modbus;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.EnumMap;
import java.util.List;
import java.util.Map;
import java.util.function.ToDoubleFunction;

/**
 * Measures what polling costs beside C clients, alternately in one run, for a computer is never the
 * same for long: many connections, two registers each, 20 times a second, to one simulated device
 * in C. A bare timer that runs meanwhile tells how many deadlines nobody could have met. Prints
 * figures and judges nothing: run it by hand at the top of the sources, with the number of
 * connections (512), of rounds (3) and of seconds of each (8). Needs {@code cc}.
 */
final class PollSpeed {

    private static final int WARM_UP_SECONDS = 8;

    /** A start is judged up to 20 s after it began. */
    private static final int DAEMON_WARM_UP_SECONDS = 24;

    /** Enough to see a pause of the computer, and few enough to cost nothing. */
    private static final int TIMER_DEADLINES = 32;

    /** Who polls. */
    private enum Who {
        C_THREADS("C, a thread for each connection"),
        C_EXACT("C, one thread for all"),
        C_ONE("C, one thread, waits of whole ms"),
        LEAT_POLLS("leat, the polling alone"),
        LEAT("leat, judging and storing too");

        private final String words;

        Who(String words) {
            this.words = words;
        }
    }

    /** What one run has brought, and the bare timer meanwhile. */
    private record Run(long polls, long missed, double cpuMicros, double timerMissed) {

        double microsPerPoll() {
            return cpuMicros / polls;
        }

        double missedShare() {
            return (double) missed / (polls + missed);
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
                                "cc",
                                "-O2",
                                "-pthread",
                                "-o",
                                poll.toString(),
                                "src/jmh/c/poll.c",
                                "-lm")
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
                "%nmedians of %d runs%n%-32s %9s %9s %9s %9s %10s %10s%n",
                runs.get(Who.LEAT).size(),
                "",
                "us/poll",
                "to C thr.",
                "to C one",
                "to C ms",
                "missed",
                "by timer");
        for (Map.Entry<Who, List<Run>> entry : runs.entrySet()) {
            double micros = cost(entry.getValue());
            System.out.printf(
                    "%-32s %9.1f %9.2f %9.2f %9.2f %9.3f%% %9.3f%%%n",
                    entry.getKey().words,
                    micros,
                    micros / cost(runs.get(Who.C_THREADS)),
                    micros / cost(runs.get(Who.C_EXACT)),
                    micros / cost(runs.get(Who.C_ONE)),
                    100 * median(entry.getValue(), Run::missedShare),
                    100 * median(entry.getValue(), Run::timerMissed));
        }
    }

    private static double cost(List<Run> runs) {
        return median(runs, Run::microsPerPoll);
    }

    private static double median(List<Run> runs, ToDoubleFunction<Run> figure) {
        double[] values = runs.stream().mapToDouble(figure).sorted().toArray();
        return values[values.length / 2];
    }

    private Run run(Who who, int round) throws IOException, InterruptedException {
        Process device =
                new ProcessBuilder(poll.toString(), "serve")
                        .redirectError(ProcessBuilder.Redirect.INHERIT)
                        .start();
        try {
            String port = figures(device);
            return switch (who) {
                case C_THREADS -> run(inC("threads", port), WARM_UP_SECONDS);
                case C_EXACT -> run(inC("exact", port), WARM_UP_SECONDS);
                case C_ONE -> run(inC("one", port), WARM_UP_SECONDS);
                case LEAT_POLLS -> run(leat(port, count()), WARM_UP_SECONDS);
                case LEAT ->
                        run(
                                leat("daemon", site(port, folder.resolve("run-" + round))),
                                DAEMON_WARM_UP_SECONDS);
            };
        } finally {
            device.destroy();
            device.waitFor();
        }
    }

    private List<String> inC(String form, String port) {
        return List.of(poll.toString(), form, port, count());
    }

    private String count() {
        return Integer.toString(connections);
    }

    /** With the options that README.md gives for so many machines. */
    private static List<String> leat(String from, String what) {
        return List.of(
                Path.of(System.getProperty("java.home"), "bin", "java").toString(),
                "-Xmx192m",
                "-Xmn112m",
                "-XX:TieredStopAtLevel=1",
                "-XX:+UseSerialGC",
                "-cp",
                System.getProperty("java.class.path"),
                PollClient.class.getName(),
                from,
                what);
    }

    private Run run(List<String> client, int warmUp) throws IOException, InterruptedException {
        Process timer =
                started(
                        List.of(poll.toString(), "timer", "0", Integer.toString(TIMER_DEADLINES)),
                        warmUp);
        Process polling = started(client, warmUp);
        String[] figures = figures(polling).split(" ");
        String[] deadlines = figures(timer).split(" ");
        polling.waitFor();
        timer.waitFor();
        double missed = Double.parseDouble(deadlines[1]);
        return new Run(
                Long.parseLong(figures[0]),
                Long.parseLong(figures[1]),
                Double.parseDouble(figures[2]),
                missed / (Double.parseDouble(deadlines[0]) + missed));
    }

    private Process started(List<String> command, int warmUp) throws IOException {
        List<String> timed = new ArrayList<>(command);
        timed.add(Integer.toString(warmUp));
        timed.add(Integer.toString(seconds));
        return new ProcessBuilder(timed).redirectError(folder.resolve("log").toFile()).start();
    }

    private String site(String port, Path data) throws IOException {
        Path site = Files.createDirectories(data).resolve("site.yaml");
        Files.writeString(site, siteText(port));
        return site.toString();
    }

    /** The first line of numbers; the daemon logs beside it. */
    private static String figures(Process process) throws IOException {
        var output = new InputStreamReader(process.getInputStream(), StandardCharsets.UTF_8);
        return new BufferedReader(output)
                .lines()
                .filter(line -> line.matches("[0-9 ]+"))
                .findFirst()
                .orElseThrow(() -> new IOException("it has printed no figures"));
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
        return connected.append("tell: { log: { by: { log: { } } } }\n") + machines.toString();
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
