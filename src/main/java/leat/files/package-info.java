/**
 * Files on the disk: which of those that people name are opened at all, and who may read leat's
 * own.
 *
 * <p>Uses nothing else of leat. Keeps nothing open but what it hands to its caller.
 */
package leat.files;
