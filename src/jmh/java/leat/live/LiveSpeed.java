package leat.live;

import java.io.IOException;
import java.lang.management.ManagementFactory;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.stream.Collectors;
import java.util.stream.IntStream;
import leat.replay.Played;
import leat.signal.Input;
import leat.signal.Reading;
import leat.store.StoreReader;

/**
 * What a look once a second costs: milliseconds of CPU of the first one, and of those after each
 * commit of a second. Run {@link #main}; the arguments are an empty folder, machines, and seconds
 * that are stored before.
 */
final class LiveSpeed {

    private static final int LOOKS = 95;

    private LiveSpeed() {}

    public static void main(String[] args) throws IOException {
        int machines = Integer.parseInt(args[1]);
        int before = Integer.parseInt(args[2]);
        List<List<Input>> seconds = seconds();
        double[] looks = new double[LOOKS];
        try (StoredNow stored = StoredNow.of(Files.createDirectories(Path.of(args[0])), machines)) {
            for (int second = 0; second < before; second++) {
                stored.commit(each(machines, seconds, second));
            }
            try (StoreReader reader = stored.reader()) {
                Live live = Live.over(reader, stored.site());
                for (int look = 0; look < LOOKS; look++) {
                    stored.commit(each(machines, seconds, before + look));
                    long now = StoredNow.SIX + (before + look + 1) * StoredNow.SECOND;
                    long began = cpuNanos();
                    live.now(now);
                    looks[look] = (cpuNanos() - began) / 1e6;
                }
            }
        }
        double first = looks[0];
        Arrays.sort(looks);
        System.out.printf(
                Locale.ROOT,
                "%d machines after %d s: first look %.1f ms, then median %.1f, 95 %% below %.1f%n",
                machines,
                before,
                first,
                looks[LOOKS / 2],
                looks[LOOKS * 95 / 100]);
    }

    private static long cpuNanos() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    /** The demo of a worn booster by its seconds, to be lived over and over. */
    private static List<List<Input>> seconds() {
        Map<Long, List<Input>> seconds =
                Played.of("demo", "jet-2").inputs(0).stream()
                        .filter(i -> !(i instanceof Reading r) || r.channel().isPressure())
                        .collect(Collectors.groupingBy(i -> i.atMicros() / StoredNow.SECOND));
        return new ArrayList<>(seconds.values());
    }

    /** The same second of each machine, some of them later in the story than others. */
    private static Map<String, List<Input>> each(
            int machines, List<List<Input>> seconds, int second) {
        Map<String, List<Input>> each = new HashMap<>();
        IntStream.rangeClosed(1, machines)
                .forEach(
                        i -> {
                            int place = (second + i) % seconds.size();
                            long by = StoredNow.SIX + (second - place) * StoredNow.SECOND;
                            each.put(
                                    "jet-" + i,
                                    seconds.get(place).stream()
                                            .map(input -> input.at(input.atMicros() + by))
                                            .toList());
                        });
        return each;
    }
}
