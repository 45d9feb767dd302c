package leat.screen;

import static java.util.Objects.requireNonNull;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.function.LongSupplier;
import leat.live.MachineNow;
import leat.live.SiteNow;
import leat.report.Fold;
import leat.store.StoreException;
import leat.store.StoredAlarm;

/**
 * Watches a site on a terminal until somebody ends it: looks once a second, and paints what it sees
 * in the window as large as it is then. Thread-confined.
 */
final class Watching {

    private static final int LOOK_MILLIS = 1_000;

    /** So soon a new size of the window is seen. */
    private static final int NOTICE_MILLIS = 100;

    private final LiveTerminal terminal;
    private final SiteView view;
    private final Picture picture;
    private final LongSupplier nowMicros;
    private int chosen = -1;
    private int machines;

    Watching(LiveTerminal terminal, SiteView view, Picture picture, LongSupplier nowMicros) {
        this.terminal = requireNonNull(terminal, "terminal");
        this.view = requireNonNull(view, "view");
        this.picture = requireNonNull(picture, "picture");
        this.nowMicros = requireNonNull(nowMicros, "nowMicros");
    }

    void untilEnded() {
        boolean goesOn = true;
        while (goesOn) {
            goesOn = show() && waitASecond();
        }
    }

    private boolean show() {
        Size window = terminal.size();
        try {
            SiteNow site = view.now(nowMicros.getAsLong());
            if (chosen < 0) {
                chosen = worst(site.machines());
            }
            machines = site.machines().size();
            return terminal.paint(picture.rows(site, chosen, window));
        } catch (StoreException e) {
            List<Row> rows = new ArrayList<>();
            Fold.of(window.columns(), e.getMessage())
                    .lines()
                    .forEach(line -> rows.add(Row.of(Ink.CRITICAL, line)));
            return terminal.paint(rows.subList(0, Math.min(rows.size(), window.lines())));
        }
    }

    /** The one with the worst alarm; the first where there is none. */
    private static int worst(List<MachineNow> machines) {
        return machines.stream()
                .filter(machine -> !machine.alarms().isEmpty())
                .min(
                        Comparator.comparing(
                                machine -> machine.alarms().get(0).alarm(),
                                StoredAlarm.WORST_FIRST))
                .map(machines::indexOf)
                .orElse(0);
    }

    /** Sooner where a key changes the picture, or the window is another one; false at the end. */
    private boolean waitASecond() {
        for (int waited = 0; waited < LOOK_MILLIS && !terminal.isOther(); waited += NOTICE_MILLIS) {
            Key key = terminal.key(NOTICE_MILLIS);
            switch (key.kind()) {
                case END -> {
                    return false;
                }
                case UP, DOWN, NUMBER -> {
                    choose(key);
                    return true;
                }
                case NONE, OTHER -> {}
            }
        }
        return true;
    }

    private void choose(Key key) {
        int wanted =
                switch (key.kind()) {
                    case UP -> chosen - 1;
                    case DOWN -> chosen + 1;
                    case NUMBER -> key.number() - 1;
                    case NONE, END, OTHER -> chosen;
                };
        if (wanted >= 0 && wanted < machines) {
            chosen = wanted;
        }
    }
}
