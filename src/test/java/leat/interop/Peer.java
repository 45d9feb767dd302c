package leat.interop;

import static org.junit.jupiter.api.Assertions.fail;

import java.io.File;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.stream.Stream;
import org.opentest4j.TestAbortedException;

/**
 * Programs that we did not write, for interop tests. Where one is missing the test is skipped,
 * unless the environment variable {@code LEAT_INTEROP_REQUIRED} is true: then the test fails. Call
 * it in {@code @BeforeAll} or first in the test.
 */
public final class Peer {

    private static final String REQUIRED = "LEAT_INTEROP_REQUIRED";

    private Peer() {}

    /**
     * Finds a program on the path, or in the folders for daemons, which a user's path often leaves
     * out.
     *
     * @param program its file name, such as {@code mosquitto}
     * @return the executable
     */
    public static Path require(String program) {
        return orSkip(find(program), "program " + program, isRequired());
    }

    /**
     * Finds a shared library where Debian puts it.
     *
     * @param name with its folder under that of the architecture, such as {@code
     *     faketime/libfaketimeMT.so.1}
     */
    public static Path requireLibrary(String name) {
        return orSkip(findLibrary(name), "library " + name, isRequired());
    }

    /**
     * Finds a Python interpreter that can import {@code module}; the system's own one first, as
     * that is where distribution packages go.
     *
     * @param module such as {@code pymodbus}
     * @return the interpreter
     */
    public static Path requirePython(String module) {
        return orSkip(findPython(module), "Python module " + module, isRequired());
    }

    private static boolean isRequired() {
        return Boolean.parseBoolean(System.getenv(REQUIRED));
    }

    static Path orSkip(Optional<Path> found, String what, boolean required) {
        if (found.isPresent()) {
            return found.get();
        }
        if (required) {
            return fail(what + " is missing, and " + REQUIRED + "=true asks for it");
        }
        throw new TestAbortedException(what + " is missing: interop test skipped");
    }

    static Optional<Path> find(String program) {
        Stream<String> path =
                Stream.of(System.getenv().getOrDefault("PATH", "").split(File.pathSeparator));
        return Stream.concat(path, Stream.of("/usr/sbin", "/usr/local/sbin"))
                .filter(folder -> !folder.isEmpty())
                .map(folder -> Path.of(folder, program))
                .filter(Files::isExecutable)
                .findFirst();
    }

    /** As {@link #requireLibrary}; empty where it is missing. */
    public static Optional<Path> findLibrary(String name) {
        try (Stream<Path> architectures = Files.list(Path.of("/usr/lib"))) {
            return architectures
                    .map(folder -> folder.resolve(name))
                    .filter(Files::isReadable)
                    .findFirst();
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    static Optional<Path> findPython(String module) {
        Stream<Path> system = Stream.of(Path.of("/usr/bin/python3")).filter(Files::isExecutable);
        return Stream.concat(system, find("python3").stream())
                .filter(python -> imports(python, module))
                .findFirst();
    }

    private static boolean imports(Path python, String module) {
        try {
            Process process =
                    new ProcessBuilder(python.toString(), "-c", "import " + module)
                            .redirectErrorStream(true)
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .start();
            if (!process.waitFor(20, TimeUnit.SECONDS)) {
                process.destroyForcibly();
                return false;
            }
            return process.exitValue() == 0;
        } catch (IOException e) {
            return false;
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
