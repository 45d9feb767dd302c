package leat.measure.fit;

import static java.util.Objects.requireNonNull;

import java.util.Optional;
import java.util.function.Function;
import leat.measure.Absence;

/**
 * Something that was read out of the readings, or the reason why it could not be. Immutable.
 *
 * @param <T> what was sought
 * @param result empty when absent
 * @param absence why it could not be; empty when the result is there
 */
public record Attempt<T>(Optional<T> result, Optional<Absence> absence) {

    public Attempt {
        requireNonNull(result, "result");
        requireNonNull(absence, "absence");
        if (result.isPresent() == absence.isPresent()) {
            throw new IllegalArgumentException(
                    "an attempt has either a result or a reason for its absence");
        }
    }

    public static <T> Attempt<T> of(T result) {
        return new Attempt<>(Optional.of(result), Optional.empty());
    }

    public static <T> Attempt<T> absent(Absence because) {
        return new Attempt<>(Optional.empty(), Optional.of(because));
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

    /**
     * @throws java.util.NoSuchElementException when the result is there
     */
    public Absence absentBecause() {
        return absence.orElseThrow();
    }

    public <R> Attempt<R> then(Function<T, Attempt<R>> next) {
        return result.map(next).orElseGet(() -> absent(absentBecause()));
    }
}
