/**
 * {@code site.yaml} to a typed, validated {@code Site}; every mistake with file, line, column, what
 * was read and what is allowed.
 *
 * <p>Each setting is declared once, as a {@code Key} with its {@code Form}, beside the reader that
 * uses it; {@code Block}, {@code Named} and {@code Pair} put keys together. The loader reads by
 * these declarations, and {@code SettingsReference} and {@code SiteSchema} are made from them. A
 * {@code Cursor} is one value with its path and its place, and reports to {@code Problems}. Readers
 * go on after a mistake, so that all are found; what they return counts only if nothing was
 * reported.
 *
 * <p>May use {@code signal}, {@code rule} and {@code tls}. Types of the YAML and JSON libraries
 * stop here. All records are immutable; cursors, fields and findings are confined to the thread
 * that loads.
 */
package leat.config;
