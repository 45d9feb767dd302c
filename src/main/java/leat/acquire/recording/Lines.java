package leat.acquire.recording;

import de.siegmar.fastcsv.reader.CsvParseException;
import java.util.Iterator;

/** The lines of a file as the library takes them apart. */
final class Lines {

    private Lines() {}

    /**
     * Moves to the next line; what the library wraps is taken out again.
     *
     * @throws BadCell for a line that cannot be read
     */
    static boolean next(Iterator<CsvLine> lines) {
        try {
            if (!lines.hasNext()) {
                return false;
            }
            lines.next();
            return true;
        } catch (CsvParseException e) {
            if (e.getCause() instanceof BadCell bad) {
                throw bad;
            }
            throw new BadCell(
                    "this line cannot be taken apart",
                    "a quote in a cell is written twice, and the cell in quotes;"
                            + " a line has at most 1 MB");
        }
    }
}
