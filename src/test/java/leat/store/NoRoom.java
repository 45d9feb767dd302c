package leat.store;

/** A disk that is full, as far as the writer of a store is concerned. */
public final class NoRoom {

    private static final long AS_MANY_AS_SQLITE_CAN = 4_294_967_294L;

    private NoRoom() {}

    /** What needs another page cannot be written from now on. */
    public static void in(Store store) {
        store.limitPages(store.pages());
    }

    /** Somebody made room. */
    public static void noMore(Store store) {
        store.limitPages(AS_MANY_AS_SQLITE_CAN);
    }
}
