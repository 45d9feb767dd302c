package leat.cli;

import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.report.Shown;
import leat.report.TextTable;
import leat.signal.Channel;
import leat.signal.Order;
import leat.store.JournalLine;
import leat.store.StoreReader;
import leat.wiring.CorrectionNote;

/**
 * What was corrected on one channel over the years, and how fast its zero wanders.
 *
 * @param machine name of the machine
 * @param channel a pressure
 * @param shown how pressures and days are shown
 * @param width of the list
 */
record CorrectionHistory(String machine, Channel channel, Shown shown, TableWidth width) {

    private static final double DAY_MICROS = 86_400e6;
    private static final double YEAR_MICROS = 365.25 * DAY_MICROS;

    /** Sooner after the last one an offset is no drift. */
    private static final double TELLING_DAYS = 30;

    private record Entry(long atMicros, String by, CorrectionNote note) {}

    void print(StoreReader reader) {
        List<Entry> entries = entries(reader);
        if (entries.isEmpty()) {
            width.say(shown.say("cli.zero.never", machine, channel.key()));
        } else {
            list(entries);
        }
        long waits =
                reader.waiting().stream()
                        .filter(left -> left.machine().equals(machine))
                        .filter(
                                left ->
                                        left.instruction().order() instanceof Order.Journal journal
                                                && note(journal).isPresent())
                        .count();
        if (waits > 0) {
            width.say(shown.say("cli.zero.wait", waits));
        }
    }

    private Optional<CorrectionNote> note(Order.Journal entry) {
        return CorrectionNote.read(entry.text())
                .filter(note -> entry.entry() == Order.Entry.TRANSDUCER_CHANGED)
                .filter(note -> note.channel() == channel);
    }

    /** The oldest first. */
    private List<Entry> entries(StoreReader reader) {
        List<Entry> entries = new ArrayList<>();
        for (JournalLine line : reader.journal(Optional.of(machine), Integer.MAX_VALUE)) {
            note(line.entry())
                    .ifPresent(n -> entries.add(new Entry(line.atMicros(), line.by(), n)));
        }
        Collections.reverse(entries);
        return entries;
    }

    private void list(List<Entry> entries) {
        TextTable table =
                new TextTable(shown.say("cli.zero.day"))
                        .firm(shown.say("cli.column.what"))
                        .firm(shown.say("cli.zero.too-high"))
                        .firm(shown.say("cli.zero.a-year"))
                        .soft(shown.say("cli.column.by"), 6);
        OptionalLong lastZero = OptionalLong.empty();
        for (Entry entry : entries) {
            table.row(
                    shown.day(entry.atMicros()),
                    shown.say(entry.note().isZero() ? "cli.zero.zero" : "cli.zero.gain"),
                    shown.pressure(entry.note().offPsi()),
                    entry.note().isZero() ? aYear(entry, lastZero) : "",
                    entry.by());
            if (entry.note().isZero()) {
                lastZero = OptionalLong.of(entry.atMicros());
            }
        }
        boolean whole = width.print(table);
        width.more(whole, shown.phrases());
    }

    /** An offset has come since the zero before; of the first one nobody knows since when. */
    private String aYear(Entry entry, OptionalLong lastZero) {
        if (lastZero.isEmpty()) {
            return "-";
        }
        double micros = entry.atMicros() - lastZero.getAsLong();
        return micros < TELLING_DAYS * DAY_MICROS
                ? "-"
                : shown.pressure(entry.note().offPsi() * YEAR_MICROS / micros);
    }
}
