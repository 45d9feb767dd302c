package leat.day;

import java.time.Duration;
import java.util.regex.Pattern;

/**
 * One trouble of one part, in two halves.
 *
 * @param atLeast real time that it must last, so that time-outs run out in it
 * @param firstWords to be found in what the route says of itself in the first half; matches
 *     anything where it need not complain
 * @param secondWords likewise in the second half
 */
record Spell(Ailment trouble, Duration atLeast, Pattern firstWords, Pattern secondWords) {

    Spell(Ailment trouble, Duration atLeast, String firstWords, String secondWords) {
        this(trouble, atLeast, Pattern.compile(firstWords), Pattern.compile(secondWords));
    }

    /** That shows one face. */
    Spell(Ailment trouble, Duration atLeast, String words) {
        this(trouble, atLeast, words, words);
    }
}
