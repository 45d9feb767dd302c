package leat.files;

import static java.nio.file.attribute.PosixFilePermission.GROUP_EXECUTE;
import static java.nio.file.attribute.PosixFilePermission.GROUP_READ;
import static java.nio.file.attribute.PosixFilePermission.OWNER_EXECUTE;
import static java.nio.file.attribute.PosixFilePermission.OWNER_READ;
import static java.nio.file.attribute.PosixFilePermission.OWNER_WRITE;
import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileAttribute;
import java.nio.file.attribute.GroupPrincipal;
import java.nio.file.attribute.PosixFileAttributeView;
import java.nio.file.attribute.PosixFileAttributes;
import java.nio.file.attribute.PosixFilePermission;
import java.nio.file.attribute.PosixFilePermissions;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;

/**
 * Who may read what leat writes for itself: the user that it runs as, and where one is named, a
 * group. Nobody else ever, and the group only looks. Where a file system knows no such rights,
 * nothing is done. Immutable.
 *
 * @param group that may read too
 */
public record OwnFiles(Optional<String> group) {

    /** For its own user alone. */
    public static final OwnFiles PRIVATE = new OwnFiles(Optional.empty());

    private static final Set<PosixFilePermission> FILE = EnumSet.of(OWNER_READ, OWNER_WRITE);
    private static final Set<PosixFilePermission> FOLDER =
            EnumSet.of(OWNER_READ, OWNER_WRITE, OWNER_EXECUTE);

    public OwnFiles {
        requireNonNull(group, "group");
    }

    /** Makes an empty file that others never could read; leaves one that is there as it is. */
    public static void make(Path file) throws IOException {
        try {
            Files.createFile(file, from(file, FILE));
        } catch (FileAlreadyExistsException e) {
            return; // its rights are given by keep
        }
    }

    /** Makes a folder that others never could enter; leaves one that is there as it is. */
    public static void makeFolder(Path folder) throws IOException {
        Path parent = folder.toAbsolutePath().getParent();
        if (parent != null) {
            Files.createDirectories(parent);
        }
        try {
            Files.createDirectory(folder, from(folder, FOLDER));
        } catch (FileAlreadyExistsException e) {
            if (!Files.isDirectory(folder)) {
                throw e;
            }
        }
    }

    private static FileAttribute<?>[] from(Path file, Set<PosixFilePermission> rights) {
        return view(file).isPresent()
                ? new FileAttribute<?>[] {PosixFilePermissions.asFileAttribute(rights)}
                : new FileAttribute<?>[0];
    }

    private static Optional<PosixFileAttributeView> view(Path file) {
        return Optional.ofNullable(Files.getFileAttributeView(file, PosixFileAttributeView.class));
    }

    /**
     * Gives a file or folder exactly these rights.
     *
     * @return whether more people could read or write it before
     * @throws IOException when it is another user's, or the file system keeps no rights
     */
    public boolean keep(Path file) throws IOException {
        Optional<PosixFileAttributeView> view = view(file);
        return view.isPresent() && keep(file, view.get());
    }

    private boolean keep(Path file, PosixFileAttributeView view) throws IOException {
        PosixFileAttributes before = view.readAttributes();
        Set<PosixFilePermission> wanted = EnumSet.copyOf(before.isDirectory() ? FOLDER : FILE);
        if (group.isPresent()) {
            giveTo(group(file), before, view);
            wanted.add(GROUP_READ);
            if (before.isDirectory()) {
                wanted.add(GROUP_EXECUTE);
            }
        }
        if (!before.permissions().equals(wanted)) {
            view.setPermissions(wanted);
        }
        return !wanted.containsAll(before.permissions());
    }

    /** What the group before it might read, it does not read for a moment as the new one. */
    private static void giveTo(
            GroupPrincipal group, PosixFileAttributes before, PosixFileAttributeView view)
            throws IOException {
        if (!before.group().equals(group)) {
            view.setPermissions(before.isDirectory() ? FOLDER : FILE);
            view.setGroup(group);
        }
    }

    private GroupPrincipal group(Path file) throws IOException {
        return file.getFileSystem()
                .getUserPrincipalLookupService()
                .lookupPrincipalByGroupName(group.orElseThrow());
    }
}
