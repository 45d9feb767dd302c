package leat.screen;

/**
 * How large a window is.
 *
 * @param columns characters in a line
 * @param lines lines
 */
public record Size(int columns, int lines) {}
