package leat.system;

import java.io.IOException;
import java.util.concurrent.TimeUnit;

/** A program of the system that a test needs, such as {@code mount}. */
final class Shell {

    private Shell() {}

    /**
     * Runs a command to its end, 20 s at most; what it says is dropped.
     *
     * @return whether there is such a program and it said that all went well
     */
    static boolean run(String... command) {
        try {
            Process process =
                    new ProcessBuilder(command)
                            .redirectErrorStream(true)
                            .redirectOutput(ProcessBuilder.Redirect.DISCARD)
                            .start();
            return process.waitFor(20, TimeUnit.SECONDS) && process.exitValue() == 0;
        } catch (IOException e) {
            return false; // there is no such program
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
            return false;
        }
    }
}
