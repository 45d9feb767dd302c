package leat.bench.recording;

import java.io.IOException;
import java.io.Writer;
import java.time.LocalDateTime;
import java.time.ZoneOffset;

/**
 * Writes rows as CSV: time in ISO 8601 UTC, pressures in psi with three decimals, contacts 0 or 1;
 * that of the jet only where asked. By hand, as a long recording has more than a hundred million
 * rows. Thread-confined.
 */
final class CsvRows {

    private static final int FLUSH_CHARS = 1 << 15;
    private static final long SECOND = 1_000_000;
    private static final int MINUTE_LENGTH = "2026-01-05T06:00".length();

    private final Writer out;
    private final long zeroMicros;
    private final int decimals;
    private final boolean cutting;
    private final StringBuilder buffer = new StringBuilder(FLUSH_CHARS + 256);
    private long cachedSecond = Long.MIN_VALUE;
    private String cachedText = "";
    private long rows;
    private long chars;

    /**
     * Writes the head.
     *
     * @param periodMicros time between two rows: it decides how many decimals a time has
     * @param cutting whether the contact of the jet has a column
     */
    CsvRows(Writer out, LocalDateTime zero, long periodMicros, boolean cutting, String comment) {
        this.out = out;
        zeroMicros = zero.toEpochSecond(ZoneOffset.UTC) * SECOND + zero.getNano() / 1_000;
        decimals = periodMicros % 1_000 == 0 && zeroMicros % 1_000 == 0 ? 3 : 6;
        buffer.append("# ").append(comment).append('\n');
        buffer.append("time,inlet_psi,boosted_psi,filtered_psi,running,valve");
        buffer.append(cutting ? ",cutting\n" : "\n");
        this.cutting = cutting;
    }

    void write(LoggedSample row) throws IOException {
        time(zeroMicros + row.micros());
        psi(row.inletPsi());
        psi(row.boostedPsi());
        psi(row.filteredPsi());
        buffer.append(row.running() ? ",1" : ",0").append(row.valveOpen() ? ",1" : ",0");
        if (cutting) {
            buffer.append(row.cutting() ? ",1" : ",0");
        }
        buffer.append('\n');
        rows++;
        if (buffer.length() >= FLUSH_CHARS) {
            flush();
        }
    }

    private void time(long micros) {
        long second = Math.floorDiv(micros, SECOND);
        if (second != cachedSecond) {
            cachedSecond = second;
            String text = LocalDateTime.ofEpochSecond(second, 0, ZoneOffset.UTC).toString();
            cachedText = text.length() == MINUTE_LENGTH ? text + ":00" : text;
        }
        buffer.append(cachedText).append('.');
        int fraction = (int) (micros - second * SECOND);
        int unit = 100_000;
        for (int i = 0; i < decimals; i++) {
            buffer.append((char) ('0' + fraction / unit % 10));
            unit /= 10;
        }
        buffer.append('Z');
    }

    private void psi(double psi) {
        long thousandths = Math.round(psi * 1_000);
        buffer.append(thousandths < 0 ? ",-" : ",");
        long size = Math.abs(thousandths);
        buffer.append(size / 1_000).append('.');
        int fraction = (int) (size % 1_000);
        buffer.append((char) ('0' + fraction / 100));
        buffer.append((char) ('0' + fraction / 10 % 10));
        buffer.append((char) ('0' + fraction % 10));
    }

    private void flush() throws IOException {
        chars += buffer.length();
        out.append(buffer);
        buffer.setLength(0);
    }

    /** Rows so far. */
    long rows() {
        return rows;
    }

    /** Bytes so far, but for what waits to be written. */
    long bytes() {
        return chars;
    }

    /** Writes what waits; leaves the writer open. */
    void end() throws IOException {
        flush();
    }
}
