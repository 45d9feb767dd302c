/**
 * What {@code leat watch} shows: a picture of the site as it is now for a terminal of any size, the
 * same as plain lines where there is none, and the terminal itself.
 *
 * <p>May use {@code signal}, {@code phase}, {@code measure}, {@code rule}, {@code alarm}, {@code
 * words}, {@code config}, {@code store}, {@code live} and {@code report}. A picture is a function
 * of what it shows. Only {@code LiveTerminal} knows the terminal library; it may be closed from any
 * thread.
 */
package leat.screen;
