package leat.page;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.TimeUnit;

/**
 * What a thousand slow callers of the page cost the polls of two machines: leat as a process of its
 * own, as the unit runs it, first left alone and then besieged. Prints how late polls were, what
 * was missed, and how those fared that asked once a second meanwhile. Judges nothing. Arguments:
 * seconds of each (30), callers (1000).
 */
final class SlowClientsSpeed {

    private static final int PORT = 18_097;
    private static final int MODBUS = 18_096;

    private SlowClientsSpeed() {}

    public static void main(String[] arguments) throws Exception {
        int seconds = arguments.length > 0 ? Integer.parseInt(arguments[0]) : 30;
        int callers = arguments.length > 1 ? Integer.parseInt(arguments[1]) : 1_000;
        Path folder = Files.createTempDirectory("leat-siege");
        Process bench =
                leat(
                        folder,
                        "simulate",
                        "healthy",
                        "--stay",
                        "--port",
                        "" + MODBUS,
                        "--write-site",
                        "site.yaml");
        try {
            Path site = folder.resolve("site.yaml");
            while (!Files.exists(site) || Files.size(site) == 0) {
                TimeUnit.MILLISECONDS.sleep(100);
            }
            TimeUnit.SECONDS.sleep(1);
            Files.writeString(
                    site, Files.readString(site) + "page: { listen: '127.0.0.1:" + PORT + "' }\n");
            for (int slow : new int[] {0, callers}) {
                System.out.println(slow + " slow callers, " + seconds + " s:");
                run(folder, seconds, slow);
            }
        } finally {
            end(bench);
        }
    }

    private static void run(Path folder, int seconds, int slow) throws Exception {
        Path figures = folder.resolve("figures-" + slow + ".json");
        Process leat = leat(folder, "run", "site.yaml", "--figures", figures.toString());
        try {
            awaitPage();
            Siege siege = Siege.of(slow, PORT);
            askEachSecond(seconds);
            System.out.println("  " + memory(leat.pid()));
            siege.close();
            TimeUnit.SECONDS.sleep(1);
            Call.To.plain(PORT)
                    .get("/metrics")
                    .body()
                    .lines()
                    .filter(line -> line.startsWith("leat_page"))
                    .forEach(line -> System.out.println("  " + line));
        } finally {
            end(leat);
        }
        System.out.println("  " + Files.readString(figures));
    }

    private static void awaitPage() throws InterruptedException {
        while (ask() != 200) {
            TimeUnit.MILLISECONDS.sleep(200);
        }
    }

    private static void askEachSecond(int seconds) throws InterruptedException {
        List<Long> millis = new ArrayList<>();
        List<Integer> statuses = new ArrayList<>();
        for (int i = 0; i < seconds; i++) {
            long begun = System.nanoTime();
            statuses.add(ask());
            millis.add(TimeUnit.NANOSECONDS.toMillis(System.nanoTime() - begun));
            TimeUnit.MILLISECONDS.sleep(Math.max(0, 1_000 - millis.get(i)));
        }
        List<Long> sorted = millis.stream().sorted().toList();
        System.out.printf(
                "  asked %d times: 200 %d, 503 %d, closed %d; median %d ms, longest %d ms%n",
                seconds,
                count(statuses, 200),
                count(statuses, 503),
                count(statuses, 0),
                sorted.get(seconds / 2),
                sorted.get(seconds - 1));
    }

    private static long count(List<Integer> statuses, int status) {
        return statuses.stream().filter(each -> each == status).count();
    }

    private static int ask() {
        try {
            return Call.To.plain(PORT).get("/").status();
        } catch (IOException e) {
            return 0;
        }
    }

    private static String memory(long pid) throws IOException {
        return Files.readAllLines(Path.of("/proc/" + pid + "/status")).stream()
                .filter(line -> line.startsWith("VmHWM") || line.startsWith("Threads"))
                .map(line -> line.replaceAll("\\s+", " "))
                .toList()
                .toString();
    }

    private static Process leat(Path folder, String... words) throws IOException {
        List<String> command = new ArrayList<>();
        command.add(Path.of(System.getProperty("java.home"), "bin", "java").toString());
        command.addAll(List.of("-Xmx64m", "-XX:+UseSerialGC", "-XX:TieredStopAtLevel=1"));
        command.addAll(List.of("-cp", absolute(), "leat.cli.Main"));
        command.addAll(List.of(words));
        return new ProcessBuilder(command)
                .directory(folder.toFile())
                .redirectErrorStream(true)
                .redirectOutput(folder.resolve(words[0] + ".log").toFile())
                .start();
    }

    private static String absolute() {
        List<String> entries = new ArrayList<>();
        for (String entry :
                System.getProperty("java.class.path").split(java.io.File.pathSeparator)) {
            entries.add(Path.of(entry).toAbsolutePath().toString());
        }
        return String.join(java.io.File.pathSeparator, entries);
    }

    private static void end(Process process) throws InterruptedException {
        process.destroy();
        process.waitFor(20, TimeUnit.SECONDS);
    }
}
