package leat.cli;

import java.util.List;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.words.Saying;

/**
 * The number of a stored startup as {@code leat startups} shows it: {@code jet-1/17}, or {@code 17}
 * where there is one machine.
 *
 * @param machine empty where none was typed
 * @param number 1 or more
 */
record StartupNumber(Optional<String> machine, long number) {

    private static final Pattern FORM = Pattern.compile("(?:([^/]+)/)?([1-9][0-9]{0,17})");

    /** Empty when the word is no such number. */
    static Optional<StartupNumber> of(String word) {
        Matcher matcher = FORM.matcher(word);
        if (!matcher.matches()) {
            return Optional.empty();
        }
        return Optional.of(
                new StartupNumber(
                        Optional.ofNullable(matcher.group(1)), Long.parseLong(matcher.group(2))));
    }

    StoredStartup in(StoreReader reader) {
        String name = machine.orElseGet(() -> onlyMachine(reader));
        return reader.startup(name, number)
                .orElseThrow(
                        () ->
                                new CommandFailure.Expected(
                                        ExitCode.WRONG, "cli.no-startup", name + "/" + number));
    }

    private String onlyMachine(StoreReader reader) {
        List<String> machines = reader.machines();
        if (machines.size() != 1) {
            throw new CommandFailure.Expected(
                    ExitCode.WRONG,
                    machines.isEmpty() ? "cli.no-startup-yet" : "cli.startup-of-which",
                    Saying.either(machines.stream().map(name -> name + "/" + number).toList()));
        }
        return machines.get(0);
    }
}
