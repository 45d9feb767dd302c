package leat.day;

import java.time.Duration;

/**
 * One trouble of one part, in two halves.
 *
 * @param atLeast real time that it must last, so that time-outs run out in it
 * @param firstWords in what the route says of itself in the first half; empty where it need not
 *     complain
 * @param secondWords likewise in the second half
 */
record Spell(Trouble trouble, Duration atLeast, String firstWords, String secondWords) {

    /** That shows one face. */
    Spell(Trouble trouble, Duration atLeast, String words) {
        this(trouble, atLeast, words, words);
    }
}
