package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import leat.live.MachineNow;
import leat.report.Columns;
import leat.signal.Channel;

/**
 * All machines of a site, a line each, in the order of the site; of many those around the chosen
 * one. Immutable.
 *
 * @param words the words
 * @param columns of the terminal
 */
record Overview(NowWords words, int columns) {

    private static final int KEYS = 9;

    /** The mark of the chosen one, its key and a blank. */
    private static final int KEY = 3;

    private static final int LONGEST_NAME = 20;
    private static final int PRESSURE = 10;

    /** From this width on there is room for both pressures beside what stands. */
    private static final int WIDE = 70;

    Overview {
        requireNonNull(words, "words");
    }

    /** What stands below it. */
    Row head(List<MachineNow> machines) {
        int name = nameWidth(machines);
        Row row =
                Row.of(Ink.FAINT, " ".repeat(KEY))
                        .and(Ink.FAINT, said("machine", name))
                        .and(Ink.FAINT, "  " + said("phase", phaseWidth(machines)));
        if (columns >= WIDE) {
            row = row.and(Ink.FAINT, right(words.channel(Channel.INLET)));
        }
        return row.and(Ink.FAINT, right(words.channel(Channel.BOOSTED)) + "  ")
                .and(Ink.FAINT, words.shown().say("live.column.stands"))
                .cut(columns);
    }

    private String said(String column, int width) {
        String title = words.shown().say("live.column." + column);
        return Columns.padded(Columns.cut(title, width), width);
    }

    /**
     * @param lines so many there are, 2 or more
     */
    List<Row> rows(List<MachineNow> machines, int chosen, int lines) {
        int shown = machines.size() <= lines ? machines.size() : lines - 1;
        int first = Math.max(0, Math.min(chosen - shown / 2, machines.size() - shown));
        int name = nameWidth(machines);
        int phase = phaseWidth(machines);
        List<Row> rows = new ArrayList<>();
        for (int i = first; i < first + shown; i++) {
            rows.add(row(machines.get(i), i, i == chosen, name, phase).cut(columns));
        }
        int more = machines.size() - shown;
        if (more > 0) {
            rows.add(Row.of(Ink.FAINT, more(machines, first, shown, more)).cut(columns));
        }
        return rows;
    }

    private String more(List<MachineNow> machines, int first, int shown, int more) {
        long alarmed =
                machines.stream()
                        .filter(each -> !each.alarms().isEmpty())
                        .filter(
                                each -> {
                                    int at = machines.indexOf(each);
                                    return at < first || at >= first + shown;
                                })
                        .count();
        String words = "   " + words().shown().say("live.more-machines", more);
        return alarmed == 0
                ? words
                : words + ", " + words().shown().say("live.with-alarms", alarmed);
    }

    private int nameWidth(List<MachineNow> machines) {
        int longest = machines.stream().mapToInt(m -> Columns.of(m.name())).max().orElse(0);
        int title = Columns.of(words.shown().say("live.column.machine"));
        int most = columns < WIDE ? columns / 4 : LONGEST_NAME;
        return Math.min(Math.max(longest, title), most);
    }

    private int phaseWidth(List<MachineNow> machines) {
        return machines.stream().mapToInt(m -> Columns.of(words.phase(m))).max().orElse(0);
    }

    private Row row(MachineNow machine, int index, boolean isChosen, int name, int phase) {
        String key = index < KEYS ? Integer.toString(index + 1) : " ";
        Row row =
                Row.of((isChosen ? ">" : " ") + key + " ")
                        .and(
                                isChosen ? Ink.STRONG : Ink.PLAIN,
                                Columns.padded(Columns.cut(machine.name(), name), name))
                        .and("  " + Columns.padded(words.phase(machine), phase));
        if (columns >= WIDE) {
            row = row.and(pressure(machine, Channel.INLET));
        }
        return stands(row.and(pressure(machine, Channel.BOOSTED)).and("  "), machine);
    }

    private String pressure(MachineNow machine, Channel channel) {
        return right(words.value(machine, channel));
    }

    private static String right(String value) {
        return " ".repeat(Math.max(1, PRESSURE - Columns.of(value))) + value;
    }

    private Row stands(Row row, MachineNow machine) {
        Ink ink =
                machine.alarms().stream()
                        .findFirst()
                        .map(worst -> Ink.of(worst.alarm().change().finding().grade()))
                        .orElse(Ink.PLAIN);
        return row.and(ink, words.stands(machine));
    }
}
