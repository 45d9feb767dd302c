package leat.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;

/**
 * What a process has used so far, from Linux's {@code /proc}.
 *
 * @param nanos monotonic time of the look
 * @param cpuTicks user and system time, in hundredths of a second
 * @param peakBytes highest resident set size so far
 */
record ProcessUse(long nanos, long cpuTicks, long peakBytes) {

    private static final double TICKS_PER_SECOND = 100;

    static ProcessUse of(long pid) throws IOException {
        Path proc = Path.of("/proc", Long.toString(pid));
        String stat = Files.readString(proc.resolve("stat"));
        String[] afterName = stat.substring(stat.lastIndexOf(')') + 2).split(" ");
        long ticks = Long.parseLong(afterName[11]) + Long.parseLong(afterName[12]);
        long peak = 0;
        for (String line : Files.readAllLines(proc.resolve("status"))) {
            if (line.startsWith("VmHWM:")) {
                peak = Long.parseLong(line.replaceAll("\\D", "")) * 1024;
            }
        }
        return new ProcessUse(System.nanoTime(), ticks, peak);
    }

    /** Share of one core used between two looks. */
    double shareUntil(ProcessUse later) {
        return (later.cpuTicks - cpuTicks) / TICKS_PER_SECOND / ((later.nanos - nanos) / 1e9);
    }
}
