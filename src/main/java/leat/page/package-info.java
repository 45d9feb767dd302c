/**
 * The status page: what is so now, for people with a browser and programs that ask, over the JDK's
 * own HTTP server. Read only; off unless {@code site.yaml} has a {@code page}.
 *
 * <p>May use {@code config}, {@code live}, {@code store}, {@code replay}, {@code report}, {@code
 * words}, {@code json}, {@code tls}, {@code work}, and of {@code acquire} and {@code deliver} how
 * they go. One worker makes a snapshot a second, one minds who is slow; a bounded number of threads
 * serves whoever calls. Each class says its thread rule.
 */
package leat.page;
