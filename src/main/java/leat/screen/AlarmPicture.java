package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import leat.alarm.ServiceChange;
import leat.live.AlarmNow;
import leat.live.MachineNow;
import leat.report.Fold;
import leat.report.Shown;
import leat.signal.PlainText;

/**
 * What stands on a machine: the worst alarm with what to do first, the others a line each.
 * Immutable.
 *
 * @param words the words
 * @param columns of the terminal
 */
record AlarmPicture(NowWords words, int columns) {

    private static final int LONGEST_NAME = 80;
    private static final String INDENT = "  ";

    AlarmPicture {
        requireNonNull(words, "words");
    }

    /**
     * @param lines at most so many for all of them; the worst is told in full whatever it takes
     */
    List<Row> rows(MachineNow machine, int lines) {
        List<Row> rows = new ArrayList<>();
        machine.service().ifPresent(change -> rows.addAll(folded(Ink.STRONG, service(change))));
        List<AlarmNow> alarms = machine.alarms();
        if (alarms.isEmpty()) {
            rows.addAll(folded(Ink.PLAIN, shown().say("live.no-alarm")));
        } else {
            rows.addAll(worst(alarms.get(0)));
            int room = Math.max(0, lines - rows.size() - 1);
            int told = Math.min(room, alarms.size() - 1);
            alarms.subList(1, 1 + told)
                    .forEach(
                            alarm -> rows.add(Row.of(ink(alarm), words.alarm(alarm)).cut(columns)));
            int more = alarms.size() - 1 - told;
            if (more > 0) {
                rows.addAll(
                        folded(
                                Ink.STRONG,
                                shown().say("live.more", more) + ": " + shown().say("live.list")));
            }
        }
        int aside = machine.aside().size();
        if (aside > 0) {
            rows.addAll(
                    folded(
                            Ink.FAINT,
                            shown().say("live.aside", aside) + ": " + shown().say("live.list")));
        }
        return rows;
    }

    private List<Row> worst(AlarmNow alarm) {
        List<Row> rows = new ArrayList<>(folded(ink(alarm), words.alarm(alarm)));
        Fold.of(columns - INDENT.length(), words.check(alarm))
                .lines()
                .forEach(line -> rows.add(Row.of(INDENT).and(Ink.STRONG, line)));
        rows.addAll(folded(Ink.FAINT, shown().say("live.caution")));
        return rows;
    }

    private static Ink ink(AlarmNow alarm) {
        return Ink.of(alarm.alarm().change().finding().grade());
    }

    private String service(ServiceChange change) {
        return shown().say(
                        "live.service",
                        PlainText.harmless(change.by(), LONGEST_NAME),
                        words.clock(change.untilMicros()));
    }

    private List<Row> folded(Ink ink, String text) {
        return Fold.of(columns, text).lines().map(line -> Row.of(ink, line)).toList();
    }

    private Shown shown() {
        return words.shown();
    }
}
