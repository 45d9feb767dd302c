package leat.acquire.recording;

import de.siegmar.fastcsv.reader.CsvCallbackHandler;
import de.siegmar.fastcsv.reader.RecordType;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Consumer;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.PressureUnit;
import leat.signal.Quality;
import leat.signal.Reading;

/**
 * The line at hand, taken apart as the library finds its cells. One object is filled again for each
 * line, so that a long file makes no garbage but its readings. Thread-confined.
 */
final class CsvLine extends CsvCallbackHandler<CsvLine> {

    /** What a line is. */
    enum Content {
        EMPTY,
        COMMENT,
        HEADER,
        DATA
    }

    private static final double LOW_PSI = -15;
    private static final double HIGH_PSI = 500;
    private static final char BROKEN = '\ufffd';

    private final boolean isOwn;
    private final ColumnNames names;
    private final int headerLine;
    private final TimeCell time;
    private final List<String> header = new ArrayList<>();

    private Layout layout;
    private Channel[] channelOf = {};
    private PressureUnit[] unitOf = {};
    private ContactCell[] contactOf = {};
    private double[] values = {};
    private Quality[] qualities = {};
    private OptionalLong[] claims = {};

    private long line;
    private Content kind = Content.EMPTY;
    private int cells;
    private boolean hasTime;
    private boolean isTooWide;
    private long atMicros;
    private String text = "";
    private final List<BadCell> wrong = new ArrayList<>();
    private long outOfRange;

    CsvLine(FileStart start, ColumnNames names, ZoneId zone) {
        isOwn = start.isOwn();
        headerLine = start.headerLine();
        this.names = names;
        time = new TimeCell(zone);
    }

    @Override
    protected void beginRecord(long startingLine) {
        line = startingLine;
        kind = layout == null ? Content.HEADER : Content.DATA;
        cells = 0;
        hasTime = false;
        isTooWide = false;
        text = "";
        wrong.clear();
        for (int i = 0; i < qualities.length; i++) {
            qualities[i] = null;
            claims[i] = OptionalLong.empty();
        }
    }

    @Override
    protected void addField(char[] buffer, int offset, int length, boolean quoted) {
        if (quoted) {
            requireOneLine(buffer, offset, length);
        }
        int column = cells++;
        if (kind == Content.HEADER) {
            header.add(new String(buffer, offset, length));
            return;
        }
        if (column == layout.event()) {
            text = new String(buffer, offset, length);
            return;
        }
        int from = offset;
        int end = offset + length;
        while (from < end && buffer[from] == ' ') {
            from++;
        }
        while (end > from && buffer[end - 1] == ' ') {
            end--;
        }
        if (from == end) {
            return;
        }
        try {
            cell(column, buffer, from, end);
        } catch (BadCell e) {
            wrong.add(e.in(column));
        }
    }

    private void cell(int column, char[] buffer, int from, int end) {
        if (column >= layout.width()) {
            if (isTooWide) {
                return; // said once of a line
            }
            isTooWide = true;
            throw new BadCell(
                    "there are more cells than the " + layout.width() + " of the header",
                    "put a cell that holds the separator in quotes");
        }
        if (column == layout.time()) {
            hasTime = true; // one that cannot be read is told as such
            atMicros = time.parse(buffer, from, end - from);
        } else if (channelOf[column] != null) {
            value(column, buffer, from, end);
        }
    }

    private static void requireOneLine(char[] buffer, int offset, int length) {
        for (int i = offset; i < offset + length; i++) {
            if (buffer[i] == '\n' || buffer[i] == '\r') {
                throw new BadCell(
                        "a quote is not closed on its line",
                        "a quote in a cell is written twice, and the cell in quotes");
            }
        }
    }

    private void value(int column, char[] buffer, int from, int end) {
        Channel channel = channelOf[column];
        try {
            if (isOwn) {
                ownValue(column, buffer, from, end);
            } else if (channel.isPressure()) {
                pressure(column, Decimal.parse(buffer, from, end - from));
            } else {
                values[column] = contactOf[column].isClosed(buffer, from, end) ? 1 : 0;
                qualities[column] = Quality.GOOD;
            }
        } catch (BadCell e) {
            throw new BadCell(channel.key() + " " + e.getMessage(), e.allowed());
        }
    }

    private void ownValue(int column, char[] buffer, int from, int end) {
        int claim = ReadingCell.claim(buffer, from, end);
        int mark = ReadingCell.mark(buffer, from, claim);
        Quality quality =
                mark == claim
                        ? Quality.GOOD
                        : ReadingCell.quality(new String(buffer, mark, claim - mark));
        boolean hasNumber = quality.isUsable() || mark > from;
        double value = hasNumber ? Decimal.parse(buffer, from, mark - from) : 0;
        if (!Double.isFinite(value) || (!quality.isUsable() && value != 0)) {
            throw new BadCell(
                    BadCell.quoted(new String(buffer, from, end - from)) + " is no reading",
                    "allowed is a finite number, or a BAD quality without one");
        }
        values[column] = value;
        qualities[column] = quality;
        if (claim < end) {
            String time = new String(buffer, claim + 1, end - claim - 1);
            claims[column] = OptionalLong.of(ReadingCell.claimed(time));
        }
    }

    private void pressure(int column, double value) {
        double psi = unitOf[column].toPsi(value);
        boolean isPossible = psi >= LOW_PSI && psi <= HIGH_PSI;
        values[column] = isPossible ? psi : 0;
        qualities[column] = isPossible ? Quality.GOOD : Quality.OUT_OF_RANGE;
        outOfRange += isPossible ? 0 : 1;
    }

    @Override
    protected void setComment(char[] buffer, int offset, int length) {
        kind = Content.COMMENT;
        text = new String(buffer, offset, length);
    }

    @Override
    protected void setEmpty() {
        kind = Content.EMPTY;
    }

    @Override
    protected CsvLine buildRecord() {
        if (kind == Content.HEADER) {
            if (line < headerLine) {
                header.clear(); // a line that only names the separator
                kind = Content.EMPTY;
            } else {
                begin(new Layout(header, names, isOwn));
            }
        } else if (kind == Content.DATA && isOwn && text.indexOf(BROKEN) >= 0) {
            throw new BadCell(
                    "the text is not UTF-8",
                    "take the file as leat wrote it, not as another program saved it");
        }
        return this;
    }

    private void begin(Layout found) {
        layout = found;
        channelOf = new Channel[layout.width()];
        unitOf = new PressureUnit[layout.width()];
        contactOf = new ContactCell[layout.width()];
        values = new double[layout.width()];
        qualities = new Quality[layout.width()];
        claims = new OptionalLong[layout.width()];
        Arrays.fill(claims, OptionalLong.empty());
        for (Channel channel : layout.channels()) {
            channelOf[layout.column(channel)] = channel;
            if (channel.isPressure()) {
                unitOf[layout.column(channel)] = layout.unit(channel);
            } else {
                contactOf[layout.column(channel)] = layout.contact(channel);
            }
        }
    }

    @Override
    protected RecordType getRecordType() {
        return switch (kind) {
            case EMPTY -> RecordType.EMPTY;
            case COMMENT -> RecordType.COMMENT;
            case HEADER, DATA -> RecordType.DATA;
        };
    }

    @Override
    protected int getFieldCount() {
        return cells;
    }

    Content kind() {
        return kind;
    }

    long line() {
        return line;
    }

    int cells() {
        return cells;
    }

    /** Known once the header has passed. */
    Layout layout() {
        return layout;
    }

    /** What is wrong with the cells of the line, and with a line that has no time. */
    List<BadCell> mistakes() {
        if (!hasTime && layout.time() >= 0) {
            wrong.add(new BadCell("there is no time", "each row has one").in(layout.time()));
            hasTime = true; // said once
        }
        return wrong;
    }

    /**
     * @throws BadCell for the first thing that is wrong with the line
     */
    void requireSound() {
        for (BadCell bad : mistakes()) {
            throw bad;
        }
    }

    /** Whether the line has a reading of this channel. */
    boolean has(Channel channel) {
        return layout.channels().contains(channel) && qualities[layout.column(channel)] != null;
    }

    long atMicros() {
        return atMicros;
    }

    /** The comment, or the event; empty when there is none. */
    String text() {
        return text;
    }

    /** Hands out the readings of the line, from left to right. */
    void feed(Consumer<Input> into) {
        for (int i = 0; i < qualities.length; i++) {
            if (qualities[i] != null) {
                into.accept(
                        new Reading(channelOf[i], atMicros, values[i], qualities[i], claims[i]));
            }
        }
    }

    /** Pressures so far that no gauge in this line can show. */
    long outOfRange() {
        return outOfRange;
    }

    boolean isTimeOf(TimeCell.Form form) {
        return time.isOf(form);
    }
}
