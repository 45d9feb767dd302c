/**
 * Making a transducer that nobody knows yet a channel, and a channel that reads wrong a right one:
 * what registers and payloads may mean, the lines of {@code site.yaml} for it, zero and gain.
 *
 * <p>Guesses come with their reason and are never taken silently: a person chooses, best with a
 * hand gauge beside. May use {@code signal}, {@code config}, {@code mqtt} and {@code acquire}.
 * Reads nothing itself and keeps nothing; everything is immutable or stateless.
 */
package leat.wiring;
