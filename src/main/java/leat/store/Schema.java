package leat.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.util.List;
import java.util.regex.Pattern;
import leat.signal.Channel;
import leat.signal.Quality;

/**
 * The tables, and how an older file becomes a newer one: numbered steps, each in a transaction of
 * its own, never a step back. The file carries the number of its last step in {@code user_version}.
 *
 * @param steps SQL of each step; step n leads from version n - 1 to n
 */
record Schema(List<String> steps) {

    /** Marks a file as ours: "leat" in ASCII. */
    private static final long APPLICATION_ID = 0x6c656174;

    private static final Pattern UTC = Pattern.compile("\\{utc ([a-z_.]+)\\}");

    Schema {
        steps = List.copyOf(steps);
    }

    static Schema current() {
        return new Schema(
                List.of(
                        resource("schema-1.sql"),
                        resource("schema-2.sql"),
                        resource("schema-3.sql"),
                        resource("schema-4.sql")));
    }

    int version() {
        return steps.size();
    }

    /** Brings the file to this version and refuses one that is newer or not ours. */
    void migrate(Db db) {
        int found = versionOf(db);
        if (found > version()) {
            throw tooNew(db, found);
        }
        if (found == 0 && db.number("SELECT count(*) FROM sqlite_schema") > 0) {
            throw foreign(db);
        }
        for (int step = found; step < version(); step++) {
            String sql = expand(steps.get(step));
            int reached = step + 1;
            db.inOneTransaction(
                    () -> {
                        db.run(sql);
                        db.run("PRAGMA application_id = " + APPLICATION_ID);
                        db.run("PRAGMA user_version = " + reached);
                    });
        }
        db.inOneTransaction(() -> nameCodes(db));
    }

    /** Refuses a file that is not of this very version. */
    void require(Db db) {
        int found = versionOf(db);
        if (found > version()) {
            throw tooNew(db, found);
        }
        if (found < version()) {
            throw new StoreException.WrongSchema(
                    db.file(),
                    found == 0
                            ? "the store is empty: leat has not run on it yet"
                            : "the store is of version "
                                    + found
                                    + ", this leat reads "
                                    + version()
                                    + ". Start leat once: it brings the store up to date");
        }
    }

    private static int versionOf(Db db) {
        int found = (int) db.number("PRAGMA user_version");
        if (found != 0 && db.number("PRAGMA application_id") != APPLICATION_ID) {
            throw foreign(db);
        }
        return found;
    }

    private StoreException tooNew(Db db, int found) {
        return new StoreException.WrongSchema(
                db.file(),
                "the store is of version "
                        + found
                        + ", this leat knows up to "
                        + version()
                        + ". A newer leat has written it: install that one, or name another folder"
                        + " under store in site.yaml. Nothing was changed");
    }

    private static StoreException foreign(Db db) {
        return new StoreException.WrongSchema(
                db.file(),
                "this is the database of another program. Name another folder under store in"
                        + " site.yaml. Nothing was changed");
    }

    private static void nameCodes(Db db) {
        Write kind =
                db.write("INSERT OR IGNORE INTO input_kind (kind, word, channel) VALUES (?, ?, ?)");
        for (Channel channel : Channel.values()) {
            kind.number(InputTable.readingKind(channel)).text("reading").text(channel.key()).now();
            kind.number(InputTable.lostKind(channel)).text("source lost").text(channel.key()).now();
            kind.number(InputTable.backKind(channel)).text("source back").text(channel.key()).now();
        }
        kind.number(InputTable.TICK).text("tick").text("").now();
        kind.number(InputTable.CLOCK_STEP).text("clock step").text("").now();
        kind.number(InputTable.ACKNOWLEDGE).text("acknowledge").text("").now();
        kind.number(InputTable.SERVICED).text("serviced").text("").now();
        kind.number(InputTable.NOTE).text("note").text("").now();
        kind.number(InputTable.LEARN).text("learn").text("").now();
        kind.number(InputTable.RESET).text("reset").text("").now();
        kind.number(InputTable.SHELVE).text("shelve").text("").now();
        kind.number(InputTable.UNSHELVE).text("unshelve").text("").now();
        kind.number(InputTable.REMOVE).text("out of service").text("").now();
        kind.number(InputTable.RESTORE).text("back in service").text("").now();
        kind.number(InputTable.SERVICE_ON).text("service on").text("").now();
        kind.number(InputTable.SERVICE_OFF).text("service off").text("").now();
        Write word =
                db.write(
                        "INSERT OR IGNORE INTO quality (code, word, trust, reason) VALUES (?, ?, ?, ?)");
        for (Quality quality : Quality.values()) {
            word.number(quality.code())
                    .word(quality)
                    .word(quality.trust())
                    .text(quality.reason())
                    .now();
        }
    }

    /** {@code {utc x}} stands for the time in column x as ISO text with microseconds. */
    private static String expand(String sql) {
        return UTC.matcher(sql)
                .replaceAll(
                        "strftime('%Y-%m-%dT%H:%M:%S', $1 / 1000000, 'unixepoch')"
                                + " || printf('.%06dZ', $1 % 1000000)");
    }

    private static String resource(String name) {
        try (InputStream sql = Schema.class.getResourceAsStream(name)) {
            if (sql == null) {
                throw new IllegalStateException(name + " is missing from the program");
            }
            return new String(sql.readAllBytes(), StandardCharsets.UTF_8);
        } catch (IOException e) {
            throw new UncheckedIOException(name, e);
        }
    }
}
