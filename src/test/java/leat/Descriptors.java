package leat;

import java.io.IOException;
import java.nio.file.DirectoryStream;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.regex.Pattern;

/**
 * What this program has open, where the system tells: on Linux. Elsewhere always empty. Immutable.
 *
 * @param open the target by the descriptor's number
 */
record Descriptors(Map<String, String> open) {

    private static final Path SELF = Path.of("/proc/self/fd");

    /**
     * What the runtime opens once and keeps: its libraries, its source of chance, and the selectors
     * of HttpClients, which Java 17 cannot close.
     */
    private static final Pattern OF_THE_RUNTIME =
            Pattern.compile(
                    ".*\\.(jar|so|class)|.*/lib/modules|/dev/u?random|anon_inode:.*|/proc/.*");

    Descriptors {
        open = Map.copyOf(open);
    }

    static Descriptors now() {
        Map<String, String> open = new HashMap<>();
        if (Files.isDirectory(SELF)) {
            try (DirectoryStream<Path> all = Files.newDirectoryStream(SELF)) {
                for (Path each : all) {
                    put(each, open);
                }
            } catch (IOException e) {
                return new Descriptors(Map.of());
            }
        }
        return new Descriptors(open);
    }

    private static void put(Path descriptor, Map<String, String> open) {
        try {
            String target = Files.readSymbolicLink(descriptor).toString();
            open.put(descriptor.getFileName().toString(), target);
        } catch (IOException e) {
            // closed between the listing and the look
            open.remove(descriptor.getFileName().toString());
        }
    }

    /** Those that have been opened since, in words. */
    List<String> since(Descriptors before) {
        return open.entrySet().stream()
                .filter(each -> !each.getValue().equals(before.open.get(each.getKey())))
                .map(Map.Entry::getValue)
                .filter(target -> !OF_THE_RUNTIME.matcher(target).matches())
                .map(target -> "open " + target)
                .sorted()
                .toList();
    }
}
