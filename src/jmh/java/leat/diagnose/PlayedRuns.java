package leat.diagnose;

import java.io.DataInputStream;
import java.io.DataOutputStream;
import java.io.EOFException;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.zip.GZIPInputStream;
import java.util.zip.GZIPOutputStream;
import leat.wire.StateBytes;

/**
 * Played runs in a file, machine after machine, so that fitting and judging can be done again and
 * again without playing again. Thread-confined.
 */
public final class PlayedRuns implements AutoCloseable {

    private static final int FORMAT = 1;
    private static final int END = -1;

    private final DataOutputStream out;

    public PlayedRuns(Path file) throws IOException {
        out = new DataOutputStream(new GZIPOutputStream(Files.newOutputStream(file)));
    }

    /** The runs of one machine. */
    public synchronized void add(List<PlayedRun> runs) throws IOException {
        byte[] bytes = StateBytes.of(FORMAT, state -> state.keep("runs", PlayedRun.class, runs));
        out.writeInt(bytes.length);
        out.write(bytes);
    }

    @Override
    public void close() throws IOException {
        out.writeInt(END);
        out.close();
    }

    /** Those that the options name, of the machines that they name. */
    static List<PlayedRun> of(Options options) throws IOException {
        int from = (int) options.number("--from", 0);
        int until = (int) options.number("--until", Integer.MAX_VALUE);
        return of(options.files()).stream()
                .filter(run -> run.machine() >= from && run.machine() < until)
                .toList();
    }

    static List<PlayedRun> of(Path... files) throws IOException {
        List<PlayedRun> all = new ArrayList<>();
        for (Path file : files) {
            try (DataInputStream in =
                    new DataInputStream(new GZIPInputStream(Files.newInputStream(file)))) {
                for (int length = in.readInt(); length != END; length = in.readInt()) {
                    byte[] bytes = in.readNBytes(length);
                    StateBytes.into(
                            FORMAT,
                            bytes,
                            state -> all.addAll(state.keep("runs", PlayedRun.class, List.of())));
                }
            } catch (EOFException stillWritten) {
                System.out.println(file + " ends early: only what is whole is taken");
            }
        }
        return all;
    }
}
