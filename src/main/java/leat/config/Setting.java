package leat.config;

/**
 * One setting of {@code site.yaml}, in words for people. Immutable.
 *
 * @param path its keys from the top, such as {@code limits.rise.warning}
 * @param unit its units, or what kind of value it is
 * @param fallback what holds if it is left out, as it would be written; empty if nothing does
 * @param duty why nothing does: {@code required}, {@code none} or a choice; empty beside a default
 * @param min lowest value that is taken, or empty
 * @param max highest value that is taken, or empty
 * @param meaning what it is on the machine
 * @param origin where the default comes from, or empty
 */
public record Setting(
        String path,
        String unit,
        String fallback,
        String duty,
        String min,
        String max,
        String meaning,
        String origin) {}
