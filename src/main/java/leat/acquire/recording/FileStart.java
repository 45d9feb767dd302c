package leat.acquire.recording;

import de.siegmar.fastcsv.reader.CsvParseException;
import de.siegmar.fastcsv.reader.CsvReader;
import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.channels.Channels;
import java.nio.charset.CharacterCodingException;
import java.nio.charset.Charset;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import leat.files.GivenFile;

/**
 * What the first bytes of a file tell: whether it is a text at all, whether leat wrote it, and what
 * separates its cells.
 *
 * @param isOwn whether leat wrote it
 * @param skipBytes length of the byte order mark
 * @param charset of its text
 * @param separator between cells
 * @param headerLine number of the header's line, from 1; 0 where leat's own comments come first
 */
record FileStart(boolean isOwn, int skipBytes, Charset charset, char separator, int headerLine) {

    private static final int LOOK = 1 << 16;
    private static final byte[] UTF8_MARK = {(byte) 0xEF, (byte) 0xBB, (byte) 0xBF};
    private static final char[] SEPARATORS = {';', '\t', ','};
    private static final String ALLOWED = "allowed is a CSV file in UTF-8";

    static FileStart of(Path file, ColumnNames names) {
        byte[] bytes = read(file);
        if (bytes.length == 0) {
            throw RecordingException.of(file, "the file is empty", ALLOWED);
        }
        requireText(file, bytes);
        int skip = startsWith(bytes, UTF8_MARK) ? UTF8_MARK.length : 0;
        Charset charset = charset(bytes, skip);
        String text = new String(bytes, skip, bytes.length - skip, charset);
        boolean isOwn = text.startsWith(HeadLines.MARK);
        if (isOwn) {
            requireVersion(file, text);
            return new FileStart(true, skip, charset, ',', 0);
        }
        return foreign(file, text, skip, charset, names);
    }

    private static FileStart foreign(
            Path file, String text, int skip, Charset charset, ColumnNames names) {
        String[] lines = text.split("\r\n|\r|\n", -1);
        int at = 0;
        while (at < lines.length && (lines[at].isBlank() || lines[at].startsWith("#"))) {
            at++;
        }
        char separator = 0;
        if (at < lines.length && lines[at].strip().matches("(?i)sep=.")) {
            separator = lines[at].strip().charAt(4);
            at++;
        }
        if (at == lines.length) {
            throw RecordingException.of(file, "there is no header and no row", ALLOWED);
        }
        char found = separator != 0 ? separator : separator(lines[at], names);
        return new FileStart(false, skip, charset, found, at + 1);
    }

    /**
     * The one by which the header falls into the most columns that leat knows; where it knows none,
     * the first that parts it at all.
     */
    private static char separator(String header, ColumnNames names) {
        char best = ',';
        int most = 0;
        for (char candidate : SEPARATORS) {
            List<String> cells = cells(header, candidate);
            int known = new Layout(cells, names, false).known();
            if (known > most || most == 0 && best == ',' && cells.size() > 1) {
                most = known;
                best = candidate;
            }
        }
        return best;
    }

    /** The header taken apart; nothing where it does not part this way. */
    private static List<String> cells(String header, char separator) {
        try {
            return CsvReader.builder()
                    .fieldSeparator(separator)
                    .ofSingleCsvRecord(header)
                    .getFields();
        } catch (CsvParseException e) {
            return List.of();
        }
    }

    private static byte[] read(Path file) {
        try (InputStream in = Channels.newInputStream(new GivenFile(file).open())) {
            return in.readNBytes(LOOK);
        } catch (IOException e) {
            throw RecordingException.unreadable(file, e);
        }
    }

    private static void requireText(Path file, byte[] bytes) {
        if (startsWith(bytes, (byte) 0xFF, (byte) 0xFE)
                || startsWith(bytes, (byte) 0xFE, (byte) 0xFF)
                || looksLikeUtf16(bytes)) {
            throw RecordingException.of(
                    file, "this is UTF-16 text", "save it as UTF-8 in the editor or spreadsheet");
        }
        if (startsWith(bytes, (byte) 'P', (byte) 'K', (byte) 3, (byte) 4)) {
            throw RecordingException.of(
                    file,
                    "this is a ZIP archive or a spreadsheet file",
                    "unpack it, or save the sheet as CSV");
        }
        if (startsWith(bytes, (byte) 0x1F, (byte) 0x8B)) {
            throw RecordingException.of(file, "this is a gzip file", "unpack it with gunzip");
        }
        for (byte b : bytes) {
            if (b >= 0 && b < ' ' && b != '\t' && b != '\n' && b != '\r') {
                throw RecordingException.of(file, "this is no text file", ALLOWED);
            }
        }
    }

    /** Latin text in UTF-16 without a mark: every second byte is zero. */
    private static boolean looksLikeUtf16(byte[] bytes) {
        int pairs = Math.min(bytes.length, 200) / 2;
        int[] zeros = new int[2];
        for (int i = 0; i < 2 * pairs; i++) {
            zeros[i % 2] += bytes[i] == 0 ? 1 : 0;
        }
        return pairs >= 2
                && (zeros[0] + zeros[1]) > 0
                && Math.max(zeros[0], zeros[1]) > pairs * 0.8;
    }

    private static boolean startsWith(byte[] bytes, byte... start) {
        return bytes.length >= start.length
                && Arrays.equals(bytes, 0, start.length, start, 0, start.length);
    }

    /** UTF-8, or else what old loggers write. */
    private static Charset charset(byte[] bytes, int skip) {
        int length = bytes.length - skip;
        if (bytes.length == LOOK) {
            length -= 4; // the last character may be cut in two
            while (length > 0 && (bytes[skip + length] & 0xC0) == 0x80) {
                length--;
            }
        }
        try {
            StandardCharsets.UTF_8.newDecoder().decode(ByteBuffer.wrap(bytes, skip, length));
            return StandardCharsets.UTF_8;
        } catch (CharacterCodingException e) {
            return Charset.forName("windows-1252");
        }
    }

    private static void requireVersion(Path file, String text) {
        String version = text.lines().findFirst().orElse("").substring(HeadLines.MARK.length());
        if (!version.strip().equals(Integer.toString(HeadLines.VERSION))) {
            throw RecordingException.of(
                    file,
                    "this is a recording of version " + BadCell.quoted(version.strip()),
                    "this leat reads version " + HeadLines.VERSION);
        }
    }
}
