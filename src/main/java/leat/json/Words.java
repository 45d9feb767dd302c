package leat.json;

import java.util.Locale;

/** The word for a constant: its key where it has one, else its name in lower case. */
final class Words {

    private Words() {}

    /**
     * @param between stands for the underscores of a name
     */
    static String of(Enum<?> constant, char between) {
        try {
            var key = constant.getDeclaringClass().getMethod("key");
            key.setAccessible(true);
            return (String) key.invoke(constant);
        } catch (NoSuchMethodException e) {
            return constant.name().toLowerCase(Locale.ROOT).replace('_', between);
        } catch (ReflectiveOperationException e) {
            throw new IllegalStateException(constant + " does not tell its key", e);
        }
    }
}
