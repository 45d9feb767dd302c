package leat.wire;

import java.util.Arrays;

/** Where the fields of one part stand in the bytes. Thread-confined. */
final class Fields {

    private int[] names = new int[16];
    private int[] positions = new int[16];
    private int count;
    private int next;
    private int found;

    /** Looks over the fields from here until {@code end}, of which each must end in the part. */
    Fields(Taken from, int end) {
        while (from.isBefore(end)) {
            if (count == names.length) {
                names = Arrays.copyOf(names, 2 * count);
                positions = Arrays.copyOf(positions, 2 * count);
            }
            names[count] = from.nameNumber();
            positions[count++] = from.position();
            from.skip();
        }
    }

    /** Where the value stands; -1 when there is none. Those asked for in their order cost least. */
    int find(String name, String[] table) {
        for (int tried = 0; tried < count; tried++) {
            int i = next;
            next = next + 1 == count ? 0 : next + 1;
            if (table[names[i]].equals(name)) {
                table[names[i]] = name; // the next comparison is one of references
                found++;
                return positions[i];
            }
        }
        return -1;
    }

    /** How many nobody asked for. */
    int left() {
        return count - found;
    }
}
