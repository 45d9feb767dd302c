package leat.files;

import static java.nio.file.attribute.PosixFilePermission.GROUP_READ;
import static java.nio.file.attribute.PosixFilePermission.OTHERS_READ;
import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;

/**
 * A secret that more people can read than need to.
 *
 * @param mode such as {@code 0644}
 * @param remedy what to type
 */
public record Exposure(String mode, String remedy) {

    private static final String ROOT = "root";

    public Exposure {
        requireNonNull(mode, "mode");
        requireNonNull(remedy, "remedy");
    }

    /**
     * Looks who can read a file: everybody, or the group of a file that is this user's own. The
     * group of another's file may be how this user reads it, and that of root's file is who root
     * lets in.
     *
     * @return empty for nobody else, and where it cannot be told
     */
    public static Optional<Exposure> of(Path file) {
        try {
            PosixFileAttributeView view =
                    Files.getFileAttributeView(file, PosixFileAttributeView.class);
            return view == null ? Optional.empty() : of(file, view.readAttributes());
        } catch (IOException e) {
            return Optional.empty();
        }
    }

    private static Optional<Exposure> of(Path file, PosixFileAttributes found) {
        Set<PosixFilePermission> rights = found.permissions();
        boolean alone = isForItsOwnerAlone(file, found);
        if (!rights.contains(OTHERS_READ) && !(alone && rights.contains(GROUP_READ))) {
            return Optional.empty();
        }
        String remedy =
                alone
                        ? "chmod 600 " + file
                        : "chmod 640 " + file + ", in a group of the user that leat runs as";
        return Optional.of(new Exposure(mode(rights), remedy));
    }

    private static boolean isForItsOwnerAlone(Path file, PosixFileAttributes found) {
        boolean lent =
                found.owner().getName().equals(ROOT) && !found.group().getName().equals(ROOT);
        return !lent && isOfThisUser(file, found);
    }

    private static boolean isOfThisUser(Path file, PosixFileAttributes found) {
        try {
            return found.owner()
                    .equals(
                            file.getFileSystem()
                                    .getUserPrincipalLookupService()
                                    .lookupPrincipalByName(System.getProperty("user.name")));
        } catch (IOException e) {
            return false; // a user without a name, as in a container
        }
    }

    /** The rights are declared from the owner's to read, 0400, down to others' to execute, 0001. */
    private static String mode(Set<PosixFilePermission> rights) {
        int bits = 0;
        for (PosixFilePermission right : rights) {
            bits |= 0400 >> right.ordinal();
        }
        return String.format(Locale.ROOT, "%04o", bits);
    }
}
