package leat;

import static java.util.stream.Collectors.joining;
import static java.util.stream.Collectors.toSet;

import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.regex.Pattern;
import java.util.stream.Stream;

/**
 * The threads of this program that are alive. Immutable.
 *
 * @param threads all of them
 */
record LiveThreads(Set<Thread> threads) {

    private static final int SHOWN_FRAMES = 5;
    private static final Pattern OF_THE_JDK = Pattern.compile("(java|jdk|sun)\\.");

    /** Threads that nobody can close, each with the reason. */
    private static final Map<Pattern, String> OF_THE_RUNTIME =
            Map.of(
                    Pattern.compile("ForkJoinPool\\.commonPool-worker-.*"),
                    "the runtime's common pool; they end when they have been idle",
                    Pattern.compile("process reaper.*"),
                    "wait for child processes and stay a minute for the next one",
                    Pattern.compile("HttpClient-.*"),
                    "Java 17 cannot close a HttpClient; they end when it is collected",
                    Pattern.compile("CompletableFutureDelayScheduler"),
                    "one for all time-outs of futures, for ever",
                    Pattern.compile("Keep-Alive-Timer"),
                    "closes the idle connections of URLConnection, then ends",
                    Pattern.compile("(Common-)?Cleaner.*|Finalizer|Reference Handler"),
                    "the collector's",
                    Pattern.compile("Signal Dispatcher|Attach Listener|Notification Thread"),
                    "the virtual machine's",
                    Pattern.compile("junit-.*|surefire-.*"),
                    "of the program that runs the tests");

    LiveThreads {
        threads = Set.copyOf(threads);
    }

    static LiveThreads now() {
        ThreadGroup all = Thread.currentThread().getThreadGroup();
        while (all.getParent() != null) {
            all = all.getParent();
        }
        Thread[] room = new Thread[2 * all.activeCount() + 16];
        int count = all.enumerate(room, true);
        return new LiveThreads(
                Stream.of(room).limit(count).filter(Thread::isAlive).collect(toSet()));
    }

    /** Those that have begun since, in words. */
    List<String> since(LiveThreads before) {
        return threads.stream()
                .filter(thread -> !before.threads.contains(thread))
                .filter(thread -> !isOfTheRuntime(thread.getName()))
                .map(LiveThreads::words)
                .sorted()
                .toList();
    }

    private static boolean isOfTheRuntime(String name) {
        return OF_THE_RUNTIME.keySet().stream().anyMatch(known -> known.matcher(name).matches());
    }

    private static String words(Thread thread) {
        return "thread "
                + thread.getName()
                + ", "
                + thread.getState()
                + " at "
                + Arrays.stream(thread.getStackTrace())
                        .dropWhile(frame -> OF_THE_JDK.matcher(frame.getClassName()).lookingAt())
                        .limit(SHOWN_FRAMES)
                        .map(StackTraceElement::toString)
                        .collect(joining(" < "));
    }
}
