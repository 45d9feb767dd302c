package leat.watch;

import java.io.ByteArrayOutputStream;
import java.nio.ByteBuffer;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.function.Predicate;
import java.util.zip.CRC32;

/**
 * A stored state read by the description of its form, with nothing of the code that leat reads it
 * with: the fields of all parts by path, such as {@code rules.learner.baseline}.
 */
final class StoredForm {

    /** Four letters, the number of the form, a checksum of what follows. */
    static final int HEAD = 9;

    private static final int FIELDS = 8;

    private final ByteBuffer bytes;
    private final List<String> names = new ArrayList<>();
    private final int namesEnd;
    private final List<Field> fields;

    /**
     * @param value what follows the tag; of a part its length is left out, for its fields may
     *     become fewer
     */
    private record Field(int name, byte tag, byte[] value, List<Field> part) {}

    StoredForm(byte[] state) {
        bytes = ByteBuffer.wrap(state).position(HEAD);
        number();
        for (long left = number(); left > 0; left--) {
            long size = number();
            byte[] chars = new byte[(int) (size >> 1)];
            bytes.get(chars);
            names.add(new String(chars, StandardCharsets.ISO_8859_1));
        }
        namesEnd = bytes.position();
        fields = fields(bytes.limit());
    }

    private List<Field> fields(int end) {
        List<Field> found = new ArrayList<>();
        while (bytes.position() < end) {
            int name = (int) number();
            byte tag = bytes.get();
            int from = bytes.position();
            List<Field> part =
                    tag == FIELDS ? fields((int) number() + bytes.position()) : pass(tag);
            found.add(
                    new Field(
                            name,
                            tag,
                            Arrays.copyOfRange(bytes.array(), from, bytes.position()),
                            part));
        }
        return found;
    }

    private List<Field> pass(int tag) {
        switch (tag) {
            case 0, 1, 2 -> {
                // no, yes, nothing
            }
            case 3, 5, 7 -> number();
            case 4 -> bytes.getLong();
            case 6 -> {
                long size = number();
                bytes.position(bytes.position() + (int) ((size >> 1) << (size & 1)));
            }
            default -> bytes.position((int) number() + bytes.position());
        }
        return List.of();
    }

    private long number() {
        long value = 0;
        int shift = 0;
        byte next;
        do {
            next = bytes.get();
            value |= (next & 0x7fL) << shift;
            shift += 7;
        } while (next < 0);
        return value;
    }

    /** Of every field of every part, and of every component of a record that stands alone. */
    List<String> paths() {
        List<String> found = new ArrayList<>();
        gather("", fields, found);
        return found;
    }

    private void gather(String path, List<Field> part, List<String> into) {
        for (Field field : part) {
            into.add(path + names.get(field.name));
            gather(path + names.get(field.name) + ".", field.part, into);
        }
    }

    /** The state as a version would write it that has only some of the fields. */
    byte[] with(Predicate<String> paths) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        out.write(bytes.array(), 0, namesEnd);
        out.writeBytes(written("", fields, paths));
        return sealed(out.toByteArray());
    }

    private byte[] written(String path, List<Field> part, Predicate<String> paths) {
        ByteArrayOutputStream out = new ByteArrayOutputStream();
        for (Field field : part) {
            String name = path + names.get(field.name);
            if (paths.test(name)) {
                put(out, field.name);
                out.write(field.tag);
                byte[] inner = written(name + ".", field.part, paths);
                if (field.tag == FIELDS) {
                    put(out, inner.length);
                }
                out.writeBytes(field.tag == FIELDS ? inner : field.value);
            }
        }
        return out.toByteArray();
    }

    private static void put(ByteArrayOutputStream out, int number) {
        int left = number;
        while (left > 0x7f) {
            out.write(left | 0x80);
            left >>>= 7;
        }
        out.write(left);
    }

    /** The same bytes with the checksum that they should have. */
    static byte[] sealed(byte[] state) {
        CRC32 sum = new CRC32();
        sum.update(state, HEAD, state.length - HEAD);
        return ByteBuffer.wrap(state).putInt(HEAD - Integer.BYTES, (int) sum.getValue()).array();
    }
}
