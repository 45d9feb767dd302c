/**
 * The life of each alarm by IEC 62682 / ISA-18.2: a finding or an instruction comes in, a change of
 * state goes out.
 *
 * <p>Core room: uses {@code signal}, {@code rule} and {@code java.base}. Thread-confined to one
 * watch.
 */
package leat.alarm;
