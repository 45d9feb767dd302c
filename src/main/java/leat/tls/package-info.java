/**
 * Whom leat trusts when it speaks TLS, who it is to those that call it, and what went wrong in
 * plain words. Certificates and host names are always checked; there is no setting that turns
 * either off.
 *
 * <p>Uses {@code files} and nothing else of leat. Immutable throughout.
 */
package leat.tls;
