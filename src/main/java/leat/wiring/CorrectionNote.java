package leat.wiring;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.signal.Channel;

/**
 * What the journal says of a correction, in words that can be read again years later.
 *
 * @param channel that was corrected
 * @param readPsi what it read
 * @param gaugePsi what the hand gauge showed; 0 with no pressure on it
 */
public record CorrectionNote(Channel channel, double readPsi, double gaugePsi) {

    private static final Pattern WORDS =
            Pattern.compile(
                    "([a-z]+) read (-?[0-9.]+) psi (?:vented|where a gauge showed ([0-9.]+) psi);.*");

    public CorrectionNote {
        requireNonNull(channel, "channel");
    }

    /** True of a zero, false of a gain. */
    public boolean isZero() {
        return gaugePsi == 0;
    }

    /** By how much it read too high. */
    public double offPsi() {
        return readPsi - gaugePsi;
    }

    /**
     * The text of the entry.
     *
     * @param before the lines of {@code site.yaml} as they were
     * @param after as they are now
     */
    public String text(String before, String after) {
        String truth =
                isZero()
                        ? "vented"
                        : String.format(Locale.ROOT, "where a gauge showed %.3f psi", gaugePsi);
        return String.format(
                Locale.ROOT,
                "%s read %.3f psi %s; was %s; is now %s",
                channel.key(),
                readPsi,
                truth,
                before,
                after);
    }

    /** Empty for any other entry. */
    public static Optional<CorrectionNote> read(String text) {
        Matcher words = WORDS.matcher(text);
        if (!words.matches()) {
            return Optional.empty();
        }
        double gauge = words.group(3) == null ? 0 : Double.parseDouble(words.group(3));
        double read = Double.parseDouble(words.group(2));
        return Channel.byKey(words.group(1)).map(c -> new CorrectionNote(c, read, gauge));
    }
}
