package leat.cli;

import picocli.CommandLine.ITypeConverter;
import picocli.CommandLine.TypeConversionException;

/** A count of rows to show: 1 or more. */
final class AtMost implements ITypeConverter<Integer> {

    @Override
    public Integer convert(String word) {
        if (!word.matches("[1-9][0-9]{0,8}")) {
            throw new TypeConversionException("'" + word + "' is no whole number of 1 or more");
        }
        return Integer.parseInt(word);
    }
}
