package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Map;
import java.util.concurrent.Callable;
import leat.config.Setting;
import leat.config.SettingsTable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "settings",
        mixinStandardHelpOptions = true,
        description = {
            "Shows what site.yaml may hold: each setting with its unit, default and range, what it is, and"
                    + " where the default comes from.",
            "config/settings.md has the same as tables."
        })
final class SettingsCommand implements Callable<Integer> {

    private static final int WIDTH = 80;
    private static final String INDENT = "    ";

    @Parameters(
            arity = "0..1",
            paramLabel = "GROUP",
            description = "only this group, such as limits; all, if left out")
    private String group;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        Map<String, List<Setting>> groups = SettingsTable.groups();
        if (group != null && !groups.containsKey(group)) {
            throw new Trouble.Expected(
                    Main.WRONG,
                    "There is no group "
                            + group
                            + "; known are "
                            + String.join(", ", groups.keySet())
                            + ".");
        }
        PrintWriter out = spec.commandLine().getOut();
        groups.forEach(
                (name, settings) -> {
                    if (group == null || group.equals(name)) {
                        settings.forEach(setting -> print(setting, out));
                    }
                });
        return Main.DONE;
    }

    private static void print(Setting setting, PrintWriter out) {
        out.println(setting.path());
        wrap(facts(setting), out);
        if (!setting.meaning().equals(setting.unit())) {
            wrap(setting.meaning(), out);
        }
    }

    /** Such as {@code ms, s, min, h, d; default 6 s; 100 ms to 2 min; common practice}. */
    private static String facts(Setting setting) {
        StringBuilder facts = new StringBuilder(setting.unit());
        if (setting.duty().isEmpty()) {
            facts.append("; default ").append(setting.fallback());
        } else if (!setting.duty().equals(setting.unit())) {
            facts.append("; ").append(setting.duty());
        }
        if (!setting.min().isEmpty()) {
            facts.append("; ").append(setting.min()).append(" to ").append(setting.max());
        }
        if (!setting.origin().isEmpty()) {
            facts.append(" (").append(setting.origin()).append(")");
        }
        return facts.toString();
    }

    private static void wrap(String text, PrintWriter out) {
        StringBuilder line = new StringBuilder(INDENT);
        for (String word : text.split(" ")) {
            boolean first = line.length() == INDENT.length();
            if (!first && line.length() + 1 + word.length() > WIDTH) {
                out.println(line);
                line.setLength(INDENT.length());
                first = true;
            }
            line.append(first ? "" : " ").append(word);
        }
        out.println(line);
    }
}
