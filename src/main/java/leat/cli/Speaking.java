package leat.cli;

import java.util.Optional;
import java.util.stream.Stream;
import leat.words.Language;
import picocli.CommandLine.Model.CommandSpec;

/** A part of a command that can tell in which language people are to be answered. */
interface Speaking {

    /** Empty where nobody asked for one and no site is known. */
    Optional<Language> language();

    /** Of a whole command; English where none of its parts knows. */
    static Language of(CommandSpec command) {
        return parts(command)
                .filter(Speaking.class::isInstance)
                .flatMap(part -> ((Speaking) part).language().stream())
                .findFirst()
                .orElse(Language.ENGLISH);
    }

    private static Stream<Object> parts(CommandSpec spec) {
        return Stream.concat(
                Stream.of(spec.userObject()),
                spec.mixins().values().stream().flatMap(Speaking::parts));
    }
}
