package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.List;
import leat.live.DaemonNow;
import leat.live.MachineNow;
import leat.live.SiteNow;
import leat.report.Columns;
import leat.report.Fold;
import leat.report.Glyphs;
import leat.report.Shown;

/**
 * A site as it is now, in a window of a given size: whether leat runs, each machine in a line, and
 * the chosen one in full. The same facts always give the same picture. Immutable.
 *
 * @param name of the site
 * @param shown unit, zone and language
 * @param glyphs what the terminal can show
 */
public record Picture(String name, Shown shown, Glyphs glyphs) {

    /** Below this there is no room for anything that could not be misread. */
    private static final int LEAST_COLUMNS = 30;

    private static final int LEAST_LINES = 8;

    /** From here on there is room for a line above the machines. */
    private static final int ROOMY_LINES = 18;

    public Picture {
        requireNonNull(name, "name");
        requireNonNull(shown, "shown");
        requireNonNull(glyphs, "glyphs");
    }

    /**
     * As many rows as the window has at most, none wider than it.
     *
     * @param chosen place of the machine that is shown in full, from 0 on
     */
    public List<Row> rows(SiteNow site, int chosen, Size window) {
        if (window.columns() < LEAST_COLUMNS || window.lines() < LEAST_LINES) {
            return List.of(Row.of(shown.say("live.too-small")).cut(window.columns()));
        }
        NowWords words = NowWords.of(shown, site);
        List<Row> rows = new ArrayList<>(head(site, words, window));
        boolean isOne = site.machines().size() == 1;
        if (!isOne) {
            int lines = Math.max(2, window.lines() / 4);
            Overview overview = new Overview(words, window.columns());
            if (window.lines() >= ROOMY_LINES) {
                rows.add(overview.head(site.machines()));
            }
            rows.addAll(overview.rows(site.machines(), chosen, lines));
            rows.add(Row.EMPTY);
        }
        int room = window.lines() - 1 - rows.size();
        List<Row> machine = machine(site.machines().get(chosen), words, window.columns(), room);
        rows.addAll(machine.subList(0, Math.min(room, machine.size())));
        while (rows.size() < window.lines() - 1) {
            rows.add(Row.EMPTY);
        }
        rows.add(Row.of(Ink.FAINT, foot(isOne, window.columns())));
        return rows.stream().map(row -> row.cut(window.columns())).toList();
    }

    private List<Row> head(SiteNow site, NowWords words, Size window) {
        DaemonNow daemon = site.daemon();
        String time = shown.time(site.atMicros());
        List<Row> rows = new ArrayList<>();
        if (daemon.isRunning()) {
            Row row = Row.of(Ink.STRONG, name).and("  " + words.daemon(daemon));
            rows.add(
                    row.columns() + 2 + time.length() <= window.columns()
                            ? row.to(window.columns() - time.length()).and(time)
                            : row);
            return rows;
        }
        rows.add(Row.of(Ink.STRONG, name));
        rows.addAll(folded(Ink.CRITICAL, window.columns(), words.daemonInFull(daemon)));
        return rows;
    }

    /** The most needed first: what is drawn last takes the room that is left. */
    private List<Row> machine(MachineNow machine, NowWords words, int columns, int room) {
        List<Row> rows = new ArrayList<>();
        Row head =
                Row.of(Ink.STRONG, machine.name())
                        .and("  ")
                        .and(Ink.STRONG, words.phaseWithTime(machine));
        String read = shown.say("live.read", words.ago(machine.readMicros()));
        rows.add(
                head.columns() + 2 + read.length() <= columns
                        ? head.and("  ").and(Ink.FAINT, read)
                        : head);
        rows.addAll(new GaugePicture(words, glyphs, columns).rows(machine));
        StartPicture start = new StartPicture(words, glyphs, columns);
        List<Row> told = start.head(machine);
        rows.addAll(new AlarmPicture(words, columns).rows(machine, room / 2));
        rows.addAll(told);
        rows.addAll(start.curve(machine, room - rows.size()));
        return rows;
    }

    /** The most needed first; what has no room is left out. */
    private String foot(boolean isOne, int columns) {
        StringBuilder foot = new StringBuilder(shown.say("live.keys"));
        List<String> further =
                isOne ? List.of("live.only-reads") : List.of("live.only-reads", "live.keys.choose");
        for (String key : further) {
            String part = "  " + shown.say(key);
            if (Columns.of(foot.toString() + part) <= columns) {
                foot.append(part);
            }
        }
        return foot.toString();
    }

    private static List<Row> folded(Ink ink, int columns, String text) {
        return Fold.of(columns, text).lines().map(line -> Row.of(ink, line)).toList();
    }
}
