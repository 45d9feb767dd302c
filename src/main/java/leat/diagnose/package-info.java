/**
 * Why a machine is as it is: causes ranked by what was seen, with the evidence for and against each
 * and the check that decides; the words for it are in room {@code words}.
 *
 * <p>Core room: uses {@code signal}, {@code measure}, {@code rule}, {@code wire} and {@code
 * java.base}; no I/O. A diagnosis is a function of its arguments; only {@link
 * leat.diagnose.Observations} has a state.
 */
package leat.diagnose;
