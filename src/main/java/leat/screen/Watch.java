package leat.screen;

import static java.util.Objects.requireNonNull;

import java.io.PrintWriter;
import java.util.Optional;
import java.util.function.LongSupplier;
import leat.live.SiteNow;
import leat.store.StoreException;

/**
 * Shows a site as it is, until it is ended: as a picture where there is a terminal, else in lines.
 *
 * @param view the site
 * @param picture how it is shown
 * @param nowMicros the time, microseconds UTC
 */
public record Watch(SiteView view, Picture picture, LongSupplier nowMicros) {

    private static final long LOOK_MILLIS = 1_000;

    public Watch {
        requireNonNull(view, "view");
        requireNonNull(picture, "picture");
        requireNonNull(nowMicros, "nowMicros");
    }

    /**
     * @param inColour whether the terminal may show colours
     * @return false where there is no terminal to paint on
     */
    public boolean onTerminal(boolean inColour) {
        Optional<LiveTerminal> found = LiveTerminal.open(picture.glyphs(), inColour);
        found.ifPresent(
                terminal -> {
                    try (terminal) {
                        new Watching(terminal, view, picture, nowMicros).untilEnded();
                    }
                });
        return found.isPresent();
    }

    /** A line for each change, until nobody reads them any more. */
    public void inLines(PrintWriter out) throws InterruptedException {
        Changes changes = new Changes(picture.shown());
        Optional<SiteNow> before = Optional.empty();
        Optional<String> trouble = Optional.empty();
        while (!out.checkError()) {
            try {
                SiteNow now = view.now(nowMicros.getAsLong());
                changes.between(before, now).forEach(out::println);
                before = Optional.of(now);
                trouble = Optional.empty();
            } catch (StoreException e) {
                if (!trouble.equals(Optional.of(e.getMessage()))) {
                    out.println(changes.trouble(nowMicros.getAsLong(), e.getMessage()));
                }
                trouble = Optional.of(e.getMessage());
            }
            Thread.sleep(LOOK_MILLIS);
        }
    }
}
