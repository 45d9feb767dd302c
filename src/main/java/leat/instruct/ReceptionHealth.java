package leat.instruct;

/**
 * What has become of the messages on the topic of instructions since the start. Immutable.
 *
 * @param accepted left in the store for the daemon
 * @param notFollowed rightly signed, but asking for what cannot be done; the sender was told why
 * @param unsigned not signed by a person of the site: garbage, another name, a wrong signature
 * @param stale rightly signed, but too long ago or ahead of time
 * @param repeated rightly signed and seen before
 * @param oversized longer than any instruction
 * @param retained kept by the broker, and so of any age; not answered
 * @param overrun came faster than they could be looked at; not answered
 */
public record ReceptionHealth(
        long accepted,
        long notFollowed,
        long unsigned,
        long stale,
        long repeated,
        long oversized,
        long retained,
        long overrun) {

    /** Those of which nobody knows that a person of the site meant them. */
    public long suspicious() {
        return unsigned + stale + repeated + oversized + retained + overrun;
    }
}
