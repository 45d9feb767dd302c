package leat.store;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class NonceBookTest {

    private static final int KEPT = 5;

    private record Taken(String person, String nonce, long signedSeconds) {}

    @TempDir private Path folder;
    private Path file;

    @BeforeEach
    void a_store() {
        file = folder.resolve("leat.db");
        Store.open(file).close();
    }

    @Test
    void nonce_is_taken_once_even_if_the_book_was_closed_in_between() {
        boolean first;
        try (NonceBook book = NonceBook.open(file)) {
            first = book.take("anna", "n1", 100);
        }

        try (NonceBook book = NonceBook.open(file)) {
            assertThat(first).isTrue();
            assertThat(book.take("anna", "n1", 100)).isFalse();
            assertThat(book.take("anna", "n1", 101)).isFalse();
            assertThat(book.take("anna", "n2", 100)).isTrue();
        }
    }

    @Test
    void each_person_has_nonces_of_their_own() {
        try (NonceBook book = NonceBook.open(file)) {
            assertThat(book.take("anna", "n1", 100)).isTrue();
            assertThat(book.take("ben", "n1", 100)).isTrue();
        }
    }

    @Test
    void what_was_signed_before_the_oldest_that_is_kept_is_refused_unseen() {
        try (NonceBook book = NonceBook.open(file, KEPT)) {
            assertThat(takeAll(book, 101, 107)).containsOnly(true);

            assertThat(book.take("anna", "new", 103)).isFalse();
            assertThat(book.take("anna", "new", 104)).isTrue();
            assertThat(book.take("ben", "new", 1)).isTrue();
        }
    }

    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5})
    void whatever_was_taken_is_never_taken_again(long seed) {
        List<Taken> taken = new ArrayList<>();
        try (NonceBook book = NonceBook.open(file, KEPT)) {
            takeAtRandom(book, new Random(seed), taken);

            assertThat(taken).as("seed %d", seed).hasSizeGreaterThan(3 * KEPT);
            assertThat(taken)
                    .as("seed %d", seed)
                    .noneMatch(t -> book.take(t.person(), t.nonce(), t.signedSeconds()));
        }
        try (Db db = Db.reading(file)) {
            assertThat(db.number("SELECT count(*) FROM nonce")).isLessThanOrEqualTo(2 * KEPT);
        }
    }

    @Test
    void there_is_no_book_without_a_store() {
        Path none = folder.resolve("none.db");

        assertThatThrownBy(() -> NonceBook.open(none)).isInstanceOf(StoreException.class);
    }

    private static List<Boolean> takeAll(NonceBook book, int from, int to) {
        List<Boolean> taken = new ArrayList<>();
        for (int at = from; at <= to; at++) {
            taken.add(book.take("anna", "n" + at, at));
        }
        return taken;
    }

    /** Times go up, stand still and jump back; each taken one is tried again at once. */
    private static void takeAtRandom(NonceBook book, Random random, List<Taken> taken) {
        long at = 1_000;
        for (int i = 0; i < 200; i++) {
            at += random.nextInt(4) - (random.nextInt(20) == 0 ? 12 : 0);
            Taken next = new Taken(random.nextBoolean() ? "anna" : "ben", "n" + i, at);
            if (book.take(next.person(), next.nonce(), next.signedSeconds())) {
                taken.add(next);
            }
            Taken again = taken.get(random.nextInt(taken.size()));
            assertThat(book.take(again.person(), again.nonce(), again.signedSeconds())).isFalse();
        }
    }
}
