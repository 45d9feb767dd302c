package leat.acquire.recording;

import de.siegmar.fastcsv.reader.CommentStrategy;
import de.siegmar.fastcsv.reader.CsvReader;
import de.siegmar.fastcsv.reader.FieldMismatchStrategy;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.channels.Channels;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.time.Duration;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.Set;
import java.util.function.Consumer;
import leat.files.GivenFile;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.PressureUnit;
import leat.words.FaultWords;

/**
 * A CSV file as the inputs of one machine. It can be read any number of times, each time as a
 * stream in flat memory. Thread-confined.
 *
 * <p>A file that leat wrote gives exactly the inputs that were written. A file of another logger
 * gives the readings of each row from left to right, in the order of the rows, with a tick at every
 * whole second: after all rows stamped at or before that second, before all later ones. A pressure
 * outside -15 to 500 psi becomes a BAD reading.
 *
 * <p>Whatever is wrong with the file is a {@link RecordingException}.
 */
public final class Recording {

    private static final int LONGEST_LINE = 1 << 20;

    private final Path file;
    private final ColumnNames names;
    private final Optional<ZoneId> zone;
    private final Optional<Duration> hold;
    private final FileStart start;
    private final HeadLines head = new HeadLines();
    private final Layout layout;
    private final LastLine lastLine;
    private final boolean isCut;
    private List<String> notes = List.of();
    private long headerLine;
    private boolean countsOwnSeconds;

    private Recording(
            Path file, ColumnNames names, Optional<ZoneId> zone, Optional<Duration> hold) {
        this.file = file;
        this.names = names;
        this.zone = zone;
        this.hold = hold;
        start = FileStart.of(file, names);
        layout = readHeader();
        lastLine = readLastLine();
        isCut =
                start.isOwn()
                        ? lastLine.isRow()
                        : lastLine.lacksCells(start.separator(), layout.width());
        if (!layout.mistakes().isEmpty()) {
            read(input -> {}); // what is wrong with the rows is told with it
        }
    }

    private LastLine readLastLine() {
        try {
            return LastLine.of(file, start.charset());
        } catch (IOException e) {
            throw RecordingException.unreadable(file, e);
        }
    }

    /**
     * Looks at a file and reads its head.
     *
     * @param names of columns that differ from leat's own
     * @param zone of local times; UTC is taken where none is given, and said
     */
    public static Recording open(Path file, ColumnNames names, Optional<ZoneId> zone) {
        return open(file, names, zone, Optional.empty());
    }

    /**
     * Likewise.
     *
     * @param hold how long a value holds at most in a log of another logger that writes only what
     *     changes
     */
    public static Recording open(
            Path file, ColumnNames names, Optional<ZoneId> zone, Optional<Duration> hold) {
        return new Recording(file, names, zone, hold);
    }

    /** The unit that the boosted pressure has in a file of another logger. */
    public Optional<PressureUnit> unit() {
        return start.isOwn() ? Optional.empty() : Optional.of(layout.unit(Channel.BOOSTED));
    }

    /** What leat wrote above the rows; empty for a file of another logger. */
    public Optional<RecordingHead> head() {
        return start.isOwn() ? head.head() : Optional.empty();
    }

    /** The channels that have a column. */
    public Set<Channel> channels() {
        return layout.channels();
    }

    /** Hands out every input, in order. */
    public void read(Consumer<Input> into) {
        CsvLine row = newRow();
        FileMistakes mistakes = new FileMistakes(file);
        layout.mistakes().forEach(bad -> mistakes.header(headerLine, bad));
        try (CsvReader<CsvLine> rows = csv(row, whole())) {
            if (start.isOwn() && mistakes.isEmpty()) {
                readOwn(row, rows, into);
            } else {
                readForeign(row, rows, mistakes, into);
            }
        } catch (BadCell e) {
            if (start.isOwn() && mistakes.isEmpty()) {
                throw RecordingException.at(file, row.line(), e);
            }
            mistakes.row(row.line(), e);
            throw mistakes.exception();
        } catch (IOException | UncheckedIOException e) {
            throw RecordingException.unreadable(file, e);
        }
    }

    /** What a person should know of the last reading of the file; whole sentences. */
    public List<String> notes() {
        return notes;
    }

    /**
     * Time of second 0 where the file counts its own seconds, microseconds UTC; known once it has
     * been read.
     */
    public OptionalLong zeroMicros() {
        return countsOwnSeconds ? OptionalLong.of(TimeCell.ORIGIN) : OptionalLong.empty();
    }

    private Layout readHeader() {
        CsvLine row = newRow();
        try (CsvReader<CsvLine> rows = csv(row, opened())) {
            Iterator<CsvLine> lines = rows.iterator();
            while (Lines.next(lines)) {
                if (row.kind() == CsvLine.Content.COMMENT && start.isOwn()) {
                    head.take(row.text());
                } else if (row.kind() == CsvLine.Content.HEADER) {
                    headerLine = row.line();
                    return row.layout();
                }
            }
        } catch (BadCell e) {
            throw RecordingException.at(file, row.line(), e);
        } catch (IOException | UncheckedIOException e) {
            throw RecordingException.unreadable(file, e);
        }
        throw RecordingException.of(
                file, "there is no header", "allowed is a line that names the columns");
    }

    private CsvLine newRow() {
        return new CsvLine(start, names, zone.orElse(ZoneOffset.UTC));
    }

    private InputStream whole() throws IOException {
        return isCut ? lastLine.without(opened()) : opened();
    }

    private InputStream opened() throws IOException {
        return Channels.newInputStream(new GivenFile(file).open());
    }

    private CsvReader<CsvLine> csv(CsvLine row, InputStream in) throws IOException {
        in.skipNBytes(start.skipBytes());
        return CsvReader.builder()
                .fieldSeparator(start.separator())
                .commentStrategy(CommentStrategy.READ)
                .skipEmptyLines(true)
                .extraFieldStrategy(FieldMismatchStrategy.IGNORE)
                .missingFieldStrategy(FieldMismatchStrategy.IGNORE)
                .maxBufferSize(LONGEST_LINE)
                .build(row, in, start.charset());
    }

    private void readOwn(CsvLine row, CsvReader<CsvLine> rows, Consumer<Input> into) {
        long count = 0;
        HeadLines end = new HeadLines();
        Iterator<CsvLine> lines = rows.iterator();
        while (Lines.next(lines)) {
            if (row.kind() == CsvLine.Content.COMMENT) {
                end.take(row.text());
            } else if (row.kind() == CsvLine.Content.DATA) {
                requireWhole(row);
                row.feed(into);
                if (!row.text().isEmpty()) {
                    into.accept(EventCell.read(row.text(), row.atMicros()));
                }
                count++;
            }
        }
        notes =
                isCut || !end.isComplete(count)
                        ? List.of(
                                "The recording has been cut off or changed: its last line does not"
                                        + " say that it is whole.")
                        : List.of();
    }

    private static void requireWhole(CsvLine row) {
        if (row.cells() != row.layout().width()) {
            throw new BadCell(
                    "there are " + row.cells() + " cells",
                    "the header has " + row.layout().width());
        }
        row.requireSound();
    }

    private void readForeign(
            CsvLine row, CsvReader<CsvLine> rows, FileMistakes mistakes, Consumer<Input> into) {
        ForeignRows foreign = new ForeignRows(row, mistakes, hold, into);
        long count = foreign.read(rows.iterator());
        if (!mistakes.isEmpty()) {
            throw mistakes.exception();
        }
        if (count == 0) {
            throw RecordingException.of(
                    file, "there is a header and no row", "allowed is a row for each sample");
        }
        countsOwnSeconds = row.isTimeOf(TimeCell.Form.SECONDS);
        List<String> found = new ArrayList<>();
        if (start.charset() != StandardCharsets.UTF_8) {
            found.add(FaultWords.english("recording.charset", start.charset().toString()));
        }
        found.addAll(foreign.notes());
        if (row.isTimeOf(TimeCell.Form.LOCAL) && zone.isEmpty()) {
            found.add(FaultWords.english("recording.no-zone"));
        }
        if (isCut) {
            found.add(FaultWords.english("recording.half-line"));
        }
        notes = List.copyOf(found);
    }
}
