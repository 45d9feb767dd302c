/**
 * What leat says to people, in their language and unit: phrases from one file per language, numbers
 * and times as they are read on site, and the words for what the rules found. The JSON for programs
 * stays as it is whatever the language.
 *
 * <p>May use: the core rooms. Everything here is immutable.
 */
package leat.words;
