package leat.system;

/** Where between finding and delivery a kill fell. */
enum Stretch {
    STARTING("while it started"),
    DECIDING("a second was over, its findings not yet committed"),
    COMMITTING("the commit half written"),
    UNTOLD("committed, none of it heard"),
    TELLING("some of it heard, some not"),
    UNMARKED("all of it heard, not yet marked as delivered"),
    NOTHING("nothing under way");

    private final String words;

    Stretch(String words) {
        this.words = words;
    }

    String words() {
        return words;
    }
}
