package leat.bench.line;

import java.lang.management.ManagementFactory;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;

/**
 * How many times faster than real time a line is computed, at rest, running, and in a day's mix,
 * read 50 times a second; and what share of a core 64 lines take in real time. Counts the processor
 * time of its thread. Run by hand.
 */
final class LumpedLineSpeed {

    private static final double STEP = 0.02;
    private static final int ROUNDS = 5;
    private static final int LINES = 64;

    private LumpedLineSpeed() {}

    public static void main(String[] arguments) {
        for (int round = 0; round < ROUNDS; round++) {
            print("rest", 1, play(0, 600));
            print("running", 1, play(600, 600));
            print("30 s running, 30 s rest", 1, play(30, 1800));
        }
        for (int round = 0; round < ROUNDS; round++) {
            farm(60);
        }
    }

    /** Seconds of computing for a line that runs and rests by turns. */
    private static double play(int runSeconds, int seconds) {
        LumpedLine line = new LumpedLine(LineSettings.USUAL, 1);
        long began = cpuNanos();
        double sum = 0;
        for (int second = 0; second < seconds; second++) {
            turn(line, runSeconds, second);
            for (int i = 0; i < 50; i++) {
                line.advance(STEP);
                sum += line.state().boostedPsi();
            }
        }
        require(sum);
        return (cpuNanos() - began) / 1e9 / seconds;
    }

    private static void turn(LumpedLine line, int runSeconds, int second) {
        if (runSeconds > 0 && second % (2 * runSeconds) == 0) {
            line.start();
        } else if (runSeconds > 0 && second % (2 * runSeconds) == runSeconds) {
            line.stop();
        }
    }

    /** All of them second by second, as a bench in real time would. */
    private static void farm(int seconds) {
        List<LumpedLine> lines = new ArrayList<>();
        for (int i = 0; i < LINES; i++) {
            lines.add(new LumpedLine(LineSettings.USUAL, i));
        }
        long began = cpuNanos();
        double sum = 0;
        for (int second = 0; second < seconds; second++) {
            for (LumpedLine line : lines) {
                turn(line, 20, second);
            }
            for (int i = 0; i < 50; i++) {
                for (LumpedLine line : lines) {
                    line.advance(STEP);
                    sum += line.state().boostedPsi();
                }
            }
        }
        require(sum);
        print("20 s running, 20 s rest", LINES, (cpuNanos() - began) / 1e9 / seconds);
    }

    private static void print(String what, int lines, double share) {
        System.out.printf(
                Locale.ROOT,
                "%2d lines, %-24s %,7.0f x real time a line, %.2f %% of a core in real time%n",
                lines,
                what,
                lines / share,
                100 * share);
    }

    /** What other work on the machine does not stretch. */
    private static long cpuNanos() {
        return ManagementFactory.getThreadMXBean().getCurrentThreadCpuTime();
    }

    private static void require(double sum) {
        if (!Double.isFinite(sum)) {
            throw new IllegalStateException("a pressure is not a number");
        }
    }
}
