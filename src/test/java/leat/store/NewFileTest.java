package leat.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.io.UncheckedIOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/** The file that takes the place of one that is gone is whole, or does not take it. */
class NewFileTest {

    private static final int SKIPPED = 9;

    @TempDir private Path folder;
    private Path place;
    private Path built;
    private Db old;

    @BeforeEach
    void open_the_old_one() {
        place = folder.resolve("leat.db");
        built = folder.resolve("leat.db.new");
        OneAlarm.store(place);
        old = Db.writing(place);
    }

    @AfterEach
    void close() {
        old.close();
    }

    private static long outcomes(Db db) {
        return db.number("SELECT count(*) FROM outcome");
    }

    @Test
    void what_is_carried_is_in_the_one_file_whoever_looks_at_it_meanwhile() throws IOException {
        try (NewFile fresh = new NewFile(place, Schema.current());
                Db looking = Db.reading(built)) {
            looking.run("BEGIN");
            assertThat(outcomes(looking)).isZero();

            assertThatThrownBy(() -> fresh.carry(old)).isInstanceOf(StoreException.Busy.class);
            looking.run("COMMIT");
            boolean carried = fresh.carry(old);

            assertThat(carried).isTrue();
            try (Db alone = Db.glancing(built)) {
                assertThat(outcomes(alone)).isEqualTo(1);
            }
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"", "no database, but long enough to look like the head of one"})
    void one_that_is_no_store_does_not_take_the_place_and_is_made_anew(String written)
            throws IOException {
        Renewal renewal = new Renewal(place, Schema.current());
        StoreFiles before = StoreFiles.of(place);
        StoreException gone = new StoreException.Gone(place, "deleted", null);
        Files.delete(place);

        assertThatThrownBy(
                        () ->
                                renewal.begin(
                                        gone,
                                        before,
                                        fresh -> overwritten(written),
                                        fresh -> {},
                                        db -> {}))
                .isInstanceOf(StoreException.class);
        for (int i = 0; i < SKIPPED; i++) {
            assertThatThrownBy(
                            () ->
                                    renewal.begin(
                                            gone,
                                            before,
                                            fresh -> fresh.carry(old),
                                            fresh -> {},
                                            db -> {}))
                    .isInstanceOf(StoreException.class);
        }
        assertThat(place).doesNotExist();
        try (Db db =
                renewal.begin(gone, before, fresh -> fresh.carry(old), fresh -> {}, any -> {})
                        .db()) {
            assertThat(outcomes(db)).isEqualTo(1);
        }
    }

    @Test
    void file_that_was_kept_for_an_hour_is_begun_anew_at_once_when_it_is_lost() throws IOException {
        Renewal renewal = new Renewal(place, Schema.current());
        List<Integer> begunAt = new ArrayList<>();
        for (int loss = 0; loss < 12; loss++) {
            if (isBegun(renewal)) {
                begunAt.add(loss);
            }
        }
        IntStream.range(0, 3_600).forEach(second -> renewal.isKept());

        assertThat(begunAt).containsExactly(0, 10);
        assertThat(isBegun(renewal)).isTrue();
    }

    private boolean isBegun(Renewal renewal) throws IOException {
        StoreFiles before = StoreFiles.of(place);
        Files.deleteIfExists(place);
        StoreException gone = new StoreException.Gone(place, "deleted", null);
        try {
            renewal.begin(gone, before, fresh -> fresh.carry(old), fresh -> {}, any -> {})
                    .db()
                    .close();
            return true;
        } catch (StoreException.Gone e) {
            return false;
        }
    }

    private boolean overwritten(String text) {
        try {
            Files.writeString(built, text);
            return true;
        } catch (IOException e) {
            throw new UncheckedIOException(e);
        }
    }
}
