package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import java.util.stream.Collectors;
import leat.config.Setting;
import leat.config.SettingsGroup;
import leat.config.SettingsReference;
import leat.json.Published;
import leat.report.Json;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "settings",
        mixinStandardHelpOptions = true,
        description = {
            "Tells every setting of site.yaml, or those of one group.",
            "Each begins with its key, its default and what may be written."
        })
final class SettingsCommand implements Callable<Integer> {

    @Parameters(
            arity = "0..1",
            paramLabel = "GROUP",
            description = "such as limits, limits.rise, rise or mail; all, if left out")
    private String group;

    @Option(names = "--json", description = "as one JSON document (config/settings.schema.json)")
    private boolean asJson;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        List<SettingsGroup> all = SettingsReference.groups();
        List<SettingsGroup> groups =
                group == null
                        ? all
                        : all.stream().filter(each -> each.isAskedForBy(group)).toList();
        if (groups.isEmpty()) {
            String answer = "There is no group " + group + " of settings. " + known(all);
            throw CommandFailure.Expected.worded(ExitCode.WRONG, SettingsSheet.folded("", answer));
        }
        PrintWriter out = spec.commandLine().getOut();
        if (asJson) {
            out.println(json(groups));
            return ExitCode.DONE;
        }
        out.print(SettingsSheet.text(groups));
        if (group == null) {
            out.println();
            out.print(SettingsSheet.folded("", "One group: leat settings GROUP. " + known(all)));
        }
        return ExitCode.DONE;
    }

    private static String known(List<SettingsGroup> groups) {
        return groups.stream()
                .map(SettingsGroup::name)
                .collect(Collectors.joining(", ", "Groups: ", "."));
    }

    /** The document. */
    @Published("leat.settings/1")
    record Told(List<Group> groups) {}

    /** Settings that stand under one key. */
    record Group(
            String group,
            String path,
            String meaning,
            boolean required,
            List<String> oneOf,
            List<Line> settings) {}

    /** One key. */
    record Line(
            String setting,
            String meaning,
            boolean required,
            List<String> oneOf,
            String kind,
            Optional<String> defaultValue,
            Optional<String> min,
            Optional<String> max,
            Optional<String> origin) {}

    private static String json(List<SettingsGroup> groups) {
        return Json.print(new Told(groups.stream().map(SettingsCommand::group).toList()));
    }

    private static Group group(SettingsGroup group) {
        return new Group(
                group.name(),
                group.path(),
                group.head().meaning(),
                group.head().required(),
                group.head().oneOf(),
                group.settings().stream().map(SettingsCommand::line).toList());
    }

    private static Line line(Setting setting) {
        return new Line(
                setting.name(),
                setting.meaning(),
                setting.required(),
                setting.oneOf(),
                setting.kind(),
                setting.fallback(),
                ifAny(setting.min()),
                ifAny(setting.max()),
                ifAny(setting.origin()));
    }

    private static Optional<String> ifAny(String words) {
        return words.isEmpty() ? Optional.empty() : Optional.of(words);
    }
}
