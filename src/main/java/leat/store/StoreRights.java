package leat.store;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import leat.files.OwnFiles;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Gives the files of a store their rights: {@code site.yaml} is inside, and people's names and
 * notes. SQLite makes log and index with the rights of the database. Whatever cannot be done is
 * said and stops nothing. Thread-confined.
 */
final class StoreRights {

    private static final Logger LOG = LoggerFactory.getLogger(StoreRights.class);

    private final Path database;
    private final OwnFiles own;

    StoreRights(Path database, OwnFiles own) {
        this.database = database;
        this.own = own;
    }

    /**
     * Of all that is there while the database is open. A folder that holds anything else is not
     * leat's to close.
     */
    void keep() {
        Set<Path> wider = new LinkedHashSet<>();
        List<Path> shared = new ArrayList<>();
        Path folder = database.toAbsolutePath().getParent();
        if (holdsNothingElse(folder)) {
            shared.add(folder);
        }
        for (String suffix : List.of("", "-wal", "-shm")) {
            shared.add(StoreFiles.beside(database, suffix));
        }
        try {
            keep(OwnFiles.PRIVATE, List.of(StoreFiles.beside(database, ".lock")), wider);
            keepForGroup(shared, wider);
        } catch (IOException e) {
            LOG.warn("{}: who may read it cannot be set: {}", database, e.toString());
        }
        if (!wider.isEmpty()) {
            LOG.warn("others could read or write {}: they no longer can", wider);
        }
    }

    private void keepForGroup(List<Path> files, Set<Path> wider) throws IOException {
        try {
            keep(own, files, wider);
        } catch (IOException e) {
            if (own.group().isEmpty()) {
                throw e;
            }
            LOG.warn(
                    "{}: the group {} cannot be let in, only the user that leat runs as reads it. Is"
                            + " there such a group, and is that user in it? ({})",
                    database,
                    own.group().get(),
                    e.toString());
            keep(OwnFiles.PRIVATE, files, wider);
        }
    }

    private static void keep(OwnFiles rights, List<Path> files, Set<Path> wider)
            throws IOException {
        for (Path file : files) {
            if (Files.exists(file) && rights.keep(file)) {
                wider.add(file);
            }
        }
    }

    private boolean holdsNothingElse(Path folder) {
        String name = database.getFileName().toString();
        try (Stream<Path> all = Files.list(folder)) {
            return all.map(each -> each.getFileName().toString())
                    .allMatch(each -> each.startsWith(name) || each.equals(NativeLibrary.FOLDER));
        } catch (IOException | UncheckedIOException e) {
            return false;
        }
    }
}
