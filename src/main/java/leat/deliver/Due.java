package leat.deliver;

import java.util.List;
import leat.store.Owed;

/**
 * What a route is to be told now. Immutable.
 *
 * @param owed undelivered messages in the order of their numbers
 * @param isAll false when the store cannot be read now: then what waits there is left out, though
 *     its numbers are smaller
 */
public record Due(List<Owed> owed, boolean isAll) {

    public Due {
        owed = List.copyOf(owed);
    }
}
