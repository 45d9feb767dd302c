package leat.watch;

import java.io.File;
import java.lang.management.ManagementFactory;
import java.lang.reflect.Constructor;
import java.net.MalformedURLException;
import java.net.URL;
import java.net.URLClassLoader;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import java.util.stream.LongStream;
import leat.signal.Input;

/**
 * How large the states of some watches are, and how long it takes to write one down and to take it
 * up. Run {@link #main}; an argument is the folder of another build's core classes, which is then
 * measured in turn with this one: the same inputs, the same loop, the same run.
 */
final class StateSpeed {

    private static final int ROUNDS = 6;

    private StateSpeed() {}

    /** One build's part of a round; made anew in that build's own class loader. */
    static final class Part implements Supplier<String> {

        private static final int TIMES = 300;
        private static final long[] SEEDS = LongStream.rangeClosed(1, 12).toArray();

        private final List<WatchSettings> settings = new ArrayList<>();
        private final List<Watch> watches = new ArrayList<>();

        public Part() {
            for (long seed : SEEDS) {
                Line line = RandomLine.of(seed, 25);
                Watch watch = new Watch(line.settings());
                for (Input input : line.inputs()) {
                    watch.feed(input, outcome -> {});
                }
                settings.add(line.settings());
                watches.add(watch);
            }
        }

        /** Of this thread alone: others may be busy on the machine. */
        private static long cpuNanos() {
            return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
        }

        @Override
        public String get() {
            byte[][] states = watches.stream().map(Watch::snapshot).toArray(byte[][]::new);
            int[] sizes = Arrays.stream(states).mapToInt(state -> state.length).sorted().toArray();
            long began = cpuNanos();
            long bytes = 0;
            for (int i = 0; i < TIMES * SEEDS.length; i++) {
                bytes += watches.get(i % SEEDS.length).snapshot().length;
            }
            long written = cpuNanos();
            long phases = 0;
            for (int i = 0; i < TIMES * SEEDS.length; i++) {
                int which = i % SEEDS.length;
                Watch watch = Watch.restore(settings.get(which), states[which]);
                phases += watch.glance().phase().ordinal();
            }
            long taken = cpuNanos();
            return String.format(
                    Locale.ROOT,
                    "%d to %d bytes, mean %d; written in %.1f us, taken up in %.1f us (%d)",
                    sizes[0],
                    sizes[sizes.length - 1],
                    bytes / TIMES / SEEDS.length,
                    (written - began) / 1e3 / TIMES / SEEDS.length,
                    (taken - written) / 1e3 / TIMES / SEEDS.length,
                    phases);
        }
    }

    public static void main(String[] args) throws ReflectiveOperationException {
        List<Supplier<?>> builds = new ArrayList<>(List.of(new Part()));
        for (String folder : args) {
            builds.add(partOf(folder));
        }
        for (int round = 1; round <= ROUNDS; round++) {
            for (int build = 0; build < builds.size(); build++) {
                String name = build == 0 ? "this build" : args[build - 1];
                System.out.printf("round %d, %s: %s%n", round, name, builds.get(build).get());
            }
        }
    }

    /** The same loop over the classes of another build. */
    private static Supplier<?> partOf(String folder) throws ReflectiveOperationException {
        String path = folder + File.pathSeparator + System.getProperty("java.class.path");
        URL[] urls =
                Arrays.stream(path.split(File.pathSeparator))
                        .map(StateSpeed::url)
                        .toArray(URL[]::new);
        URLClassLoader classes = new URLClassLoader(urls, ClassLoader.getPlatformClassLoader());
        Class<?> part = classes.loadClass(Part.class.getName());
        Constructor<?> make = part.getDeclaredConstructor();
        make.setAccessible(true);
        return (Supplier<?>) make.newInstance();
    }

    private static URL url(String folder) {
        try {
            return new File(folder).toURI().toURL();
        } catch (MalformedURLException e) {
            throw new IllegalArgumentException(folder, e);
        }
    }
}
