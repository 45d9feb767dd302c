package leat.service;

import static java.util.Objects.requireNonNull;

import java.nio.file.Path;
import java.util.Optional;
import java.util.function.IntSupplier;
import leat.store.StoreReader;

/**
 * A look into the store that goes on in the new file when one has taken the place of the one that
 * was opened. Confined to one thread at a time.
 */
final class StoreView implements AutoCloseable {

    private final Path file;
    private final IntSupplier generation;
    private Optional<StoreReader> reader = Optional.empty();
    private int opened;

    /**
     * @param generation rises with each new file, as {@link leat.store.Store#generation}
     */
    StoreView(Path file, IntSupplier generation) {
        this.file = requireNonNull(file, "file");
        this.generation = requireNonNull(generation, "generation");
    }

    /**
     * To be asked now, and asked for again before the next question.
     *
     * @throws leat.store.StoreException when the store cannot be opened
     */
    StoreReader reader() {
        int current = generation.getAsInt();
        if (current != opened) {
            close();
        }
        if (reader.isEmpty()) {
            reader = Optional.of(StoreReader.open(file));
            opened = current;
        }
        return reader.get();
    }

    @Override
    public void close() {
        reader.ifPresent(StoreReader::close);
        reader = Optional.empty();
    }
}
