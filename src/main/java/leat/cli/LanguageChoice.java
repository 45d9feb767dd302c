package leat.cli;

import java.util.Arrays;
import java.util.stream.Collectors;
import leat.words.Language;
import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A language by its key, such as {@code de}. */
final class LanguageChoice implements ITypeConverter<Language> {

    @Override
    public Language convert(String word) {
        return Language.byKey(word)
                .orElseThrow(
                        () ->
                                new TypeConversionException(
                                        "'"
                                                + word
                                                + "' is no language of leat. Allowed are "
                                                + all()
                                                + "."));
    }

    private static String all() {
        return Arrays.stream(Language.values())
                .map(Language::key)
                .collect(Collectors.joining(" and "));
    }
}
