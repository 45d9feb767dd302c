package leat.page;

import static java.nio.charset.StandardCharsets.UTF_8;

import java.io.IOException;
import java.io.InputStream;

/** A text that the program brings along. */
final class Resource {

    private Resource() {}

    /**
     * @throws IllegalStateException when the program is not whole
     */
    static String text(String name) {
        try (InputStream in = Resource.class.getResourceAsStream(name)) {
            if (in == null) {
                throw new IllegalStateException(name + " is missing from the program");
            }
            return new String(in.readAllBytes(), UTF_8);
        } catch (IOException e) {
            throw new IllegalStateException(name + " cannot be read from the program", e);
        }
    }
}
