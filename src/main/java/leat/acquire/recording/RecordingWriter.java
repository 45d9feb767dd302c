package leat.acquire.recording;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.io.Writer;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.List;
import java.util.Set;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;

/**
 * Writes inputs as a recording of leat's own, row by row in the order in which they are given.
 * Readings of one stamp share a row where that keeps the order: cells are read from left to right,
 * the event last. Thread-confined; closes the writer that it was given.
 */
public final class RecordingWriter implements AutoCloseable {

    private static final long SECOND = 1_000_000;

    /** Seconds that have four-digit years, and are written without a library. */
    private static final long FIRST_SECOND = -62_135_596_800L;

    private static final long LAST_SECOND = 253_402_300_799L;
    private static final int FLUSH_CHARS = 1 << 15;

    private final Writer out;
    private final List<Channel> channels;
    private final int[] columnOf = new int[Channel.values().length];
    private final StringBuilder buffer = new StringBuilder(FLUSH_CHARS + 4096);
    private long rows;
    private boolean open;
    private long rowMicros;
    private int nextColumn;
    private long cachedSecond = Long.MIN_VALUE;
    private String cachedText = "";

    /**
     * Writes the head.
     *
     * @param channels every channel of which a reading may come
     * @throws UncheckedIOException when it cannot be written; so do all methods
     */
    public RecordingWriter(Writer out, RecordingHead head, Set<Channel> channels) {
        this.out = out;
        this.channels = channels.stream().sorted().toList();
        for (Channel channel : Channel.values()) {
            columnOf[channel.ordinal()] = this.channels.indexOf(channel);
        }
        HeadLines.written(head).forEach(line -> buffer.append(line).append('\n'));
        List<String> header = new ArrayList<>(List.of("time"));
        for (Channel channel : this.channels) {
            header.add(channel.isPressure() ? channel.key() + "_psi" : channel.key());
        }
        header.add(Layout.EVENT);
        buffer.append(String.join(",", header)).append('\n');
    }

    public void write(Input input) {
        if (input instanceof Reading reading) {
            write(reading);
        } else {
            String words = EventCell.write(input);
            if (!open || rowMicros != input.atMicros()) {
                start(input.atMicros());
            }
            skipTo(channels.size());
            quote(words);
            endRow();
        }
        if (buffer.length() >= FLUSH_CHARS) {
            flush();
        }
    }

    private void write(Reading reading) {
        int column = columnOf[reading.channel().ordinal()];
        if (column < 0) {
            throw new IllegalArgumentException("no column for " + reading);
        }
        if (!open || rowMicros != reading.atMicros() || column < nextColumn) {
            start(reading.atMicros());
        }
        skipTo(column);
        ReadingCell.write(reading, buffer);
        nextColumn = column + 1;
        buffer.append(',');
    }

    private void start(long atMicros) {
        if (open) {
            skipTo(channels.size());
            endRow();
        }
        open = true;
        rowMicros = atMicros;
        nextColumn = 0;
        time(atMicros);
        buffer.append(',');
    }

    private void skipTo(int column) {
        for (; nextColumn < column; nextColumn++) {
            buffer.append(',');
        }
    }

    private void endRow() {
        buffer.append('\n');
        open = false;
        rows++;
    }

    private void time(long micros) {
        long second = Math.floorDiv(micros, SECOND);
        if (second < FIRST_SECOND || second > LAST_SECOND) {
            buffer.append(IsoTime.text(micros));
            return;
        }
        if (second != cachedSecond) {
            cachedSecond = second;
            String text = LocalDateTime.ofEpochSecond(second, 0, ZoneOffset.UTC).toString();
            cachedText = text.length() == "2026-01-05T06:00".length() ? text + ":00" : text;
        }
        buffer.append(cachedText).append('.');
        int fraction = (int) (micros - second * SECOND);
        for (int unit = 100_000; unit > 0; unit /= 10) {
            buffer.append((char) ('0' + fraction / unit % 10));
        }
        buffer.append('Z');
    }

    /** RFC 4180: in quotes where it must be, a quote in it doubled. */
    private void quote(String cell) {
        if (cell.indexOf(',') < 0 && cell.indexOf('"') < 0 && cell.equals(cell.strip())) {
            buffer.append(cell);
        } else {
            buffer.append('"').append(cell.replace("\"", "\"\"")).append('"');
        }
    }

    private void flush() {
        try {
            out.append(buffer);
            buffer.setLength(0);
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }

    /** Writes the last line, by which a reader knows that nothing is missing. */
    @Override
    public void close() throws IOException {
        try (out) {
            if (open) {
                skipTo(channels.size());
                endRow();
            }
            buffer.append(HeadLines.end(rows)).append('\n');
            out.append(buffer);
        }
    }
}
