package leat.acquire.recording;

import java.util.Arrays;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.signal.Reading;
import leat.signal.SourceBack;
import leat.signal.SourceLost;
import leat.signal.Tick;

/** Inputs that are no readings, as words in the last column. */
final class EventCell {

    static final String TICK = "tick";

    private static final String ALLOWED =
            "allowed are: tick; lost CHANNEL: REASON; back CHANNEL; clock from TIME;"
                    + " acknowledge, reset, unshelve or restore ALARM by NAME; remove ALARM by NAME:"
                    + " TEXT; shelve ALARM until TIME by NAME: TEXT; "
                    + entries()
                    + " by NAME: TEXT or by NAME found KEY: TEXT";

    private static final Pattern SAID =
            Pattern.compile("by (.*?)(?: found ([a-z-]+))?: (.*)", Pattern.DOTALL);

    private EventCell() {}

    static String write(Input input) {
        Words words = new Words();
        input.to(words);
        return words.text;
    }

    /**
     * @throws BadCell for words that {@link #write} never writes
     */
    static Input read(String cell, long atMicros) {
        if (cell.equals(TICK)) {
            return tick(atMicros);
        }
        int blank = cell.indexOf(' ');
        if (blank < 0) {
            throw unknown(cell);
        }
        String rest = cell.substring(blank + 1);
        return switch (cell.substring(0, blank)) {
            case "lost" -> lost(rest, atMicros);
            case "back" -> new SourceBack(channel(rest), atMicros);
            case "clock" -> new ClockStep(atMicros, formerTime(rest));
            case "acknowledge", "reset", "unshelve", "restore", "remove", "shelve" ->
                    AlarmCell.read(cell.substring(0, blank), rest, atMicros)
                            .orElseThrow(() -> unknown(cell));
            default ->
                    Order.Entry.byKey(cell.substring(0, blank))
                            .map(entry -> journal(rest, atMicros, entry))
                            .orElseThrow(() -> unknown(cell));
        };
    }

    private static String entries() {
        return Arrays.stream(Order.Entry.values())
                .map(Order.Entry::key)
                .collect(Collectors.joining(", "));
    }

    private static Tick tick(long atMicros) {
        if (Math.floorMod(atMicros, Tick.PERIOD_MICROS) != 0) {
            throw new BadCell(
                    "a tick stands at a fraction of a second", "allowed is a whole second");
        }
        return new Tick(atMicros);
    }

    private static SourceLost lost(String rest, long atMicros) {
        int colon = rest.indexOf(": ");
        if (colon < 0) {
            throw unknown("lost " + rest);
        }
        return new SourceLost(
                channel(rest.substring(0, colon)),
                atMicros,
                Escape.undo(rest.substring(colon + 2)));
    }

    private static Channel channel(String key) {
        return Channel.byKey(key).orElseThrow(() -> unknown(key));
    }

    private static long formerTime(String rest) {
        if (!rest.startsWith("from ")) {
            throw unknown("clock " + rest);
        }
        return IsoTime.parse(rest.substring("from ".length()))
                .orElseThrow(() -> unknown("clock " + rest));
    }

    private static Instruction journal(String rest, long atMicros, Order.Entry entry) {
        Matcher words = SAID.matcher(rest);
        if (!words.matches()) {
            throw unknown(rest);
        }
        String by = Escape.undo(words.group(1));
        String found = words.group(2) == null ? "" : words.group(2);
        if (by.isBlank() || entry == Order.Entry.ANSWER && found.isEmpty()) {
            throw unknown(rest);
        }
        String text = Escape.undo(words.group(3));
        return new Instruction(atMicros, by, new Order.Journal(entry, text, found));
    }

    private static BadCell unknown(String cell) {
        return new BadCell("event " + BadCell.quoted(cell) + " is not known", ALLOWED);
    }

    /** The words of one input; empty for a reading. */
    private static final class Words implements Input.Receiver {

        private String text = "";

        @Override
        public void reading(Reading reading) {
            throw new IllegalArgumentException("a reading has columns of its own: " + reading);
        }

        @Override
        public void tick(Tick tick) {
            text = TICK;
        }

        @Override
        public void sourceLost(SourceLost lost) {
            text = "lost " + lost.channel().key() + ": " + Escape.text(lost.reason());
        }

        @Override
        public void sourceBack(SourceBack back) {
            text = "back " + back.channel().key();
        }

        @Override
        public void clockStep(ClockStep step) {
            text = "clock from " + IsoTime.text(step.fromMicros());
        }

        @Override
        public void instruction(Instruction instruction) {
            text =
                    instruction.order() instanceof Order.Journal journal
                            ? said(instruction.by(), journal)
                            : AlarmCell.write(
                                    instruction.by(), (Order.AboutAlarm) instruction.order());
        }

        private static String said(String by, Order.Journal journal) {
            String found = journal.found().isEmpty() ? "" : " found " + journal.found();
            return journal.entry().key()
                    + " by "
                    + Escape.word(by)
                    + found
                    + ": "
                    + Escape.text(journal.text());
        }
    }
}
