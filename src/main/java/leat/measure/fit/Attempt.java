package leat.measure.fit;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.function.Function;

/**
 * Something that was read out of the readings, or the reason why it could not be. Immutable.
 *
 * @param <T> what was sought
 * @param result empty when absent
 * @param absentBecause plain words; empty text when the result is there
 */
public record Attempt<T>(Optional<T> result, String absentBecause) {

    public Attempt {
        requireNonNull(result, "result");
        requireNonNull(absentBecause, "absentBecause");
        if (result.isPresent() != absentBecause.isEmpty()) {
            throw new IllegalArgumentException(
                    "an attempt has either a result or a reason for its absence");
        }
    }

    public static <T> Attempt<T> of(T result) {
        return new Attempt<>(Optional.of(result), "");
    }

    public static <T> Attempt<T> absent(String because) {
        return new Attempt<>(Optional.empty(), because);
    }

    public boolean isPresent() {
        return result.isPresent();
    }

    /**
     * @throws java.util.NoSuchElementException when absent
     */
    public T get() {
        return result.orElseThrow();
    }

    public <R> Attempt<R> then(Function<T, Attempt<R>> next) {
        return result.map(next).orElseGet(() -> absent(absentBecause));
    }
}
