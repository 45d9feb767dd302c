package leat.cli;

import java.io.PrintWriter;
import leat.report.Fold;
import leat.report.TextTable;
import leat.words.Phrases;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Model.UsageMessageSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** How wide what a command lists may be: as the terminal, unless all is wanted. */
final class TableWidth {

    private static final int NARROWEST = 55;

    /** No terminal, or one that does not tell. */
    private static final int UNKNOWN = 80;

    private static final int WIDEST = 10_000;

    @Option(
            names = "--wide",
            description = "every column in full, however wide (default: as wide as the terminal)")
    private boolean wide;

    @Spec(Spec.Target.MIXEE)
    private CommandSpec spec;

    /** So many columns there are. */
    int columns() {
        return wide ? WIDEST : spec.root().usageMessage().width();
    }

    /** Prints as much as there is room for; returns whether that is all. */
    boolean print(TextTable table) {
        out().print(table.within(columns()));
        return table.fits(columns());
    }

    /** Prints sentences in lines that do not wrap. */
    void say(String words) {
        out().print(Fold.of(columns(), words));
    }

    /** Says how to see what was left out, if anything was. */
    void more(boolean whole, Phrases phrases) {
        if (!whole) {
            say(phrases.say("cli.wide"));
        }
    }

    private PrintWriter out() {
        return spec.root().commandLine().getOut();
    }

    /** Of the terminal: as the environment tells it, else as the terminal does. */
    static int ofTerminal() {
        String told = System.getenv("COLUMNS");
        if (told != null && told.matches("[0-9]{1,4}")) {
            return Math.max(NARROWEST, Integer.parseInt(told));
        }
        return System.console() == null ? UNKNOWN : new UsageMessageSpec().autoWidth(true).width();
    }
}
