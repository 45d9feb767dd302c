package leat.store;

import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.files.GivenFile;
import leat.segment.Kinds;
import leat.signal.Channel;
import leat.signal.Quality;
import leat.words.FaultWords;
import leat.words.Language;
import leat.words.Phrases;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * The tables, and how an older file becomes a newer one: numbered steps, each in a transaction of
 * its own, never a step back. The file carries its version in {@code user_version}. Views hold no
 * data: whoever writes makes them as this leat has them, without a step.
 *
 * @param fresh SQL of a new file; every table and index only where there is none, so that a step
 *     may run it too
 * @param views SQL of the views, one statement each
 * @param steps SQL of each step, the first from version {@value #OLDEST} on; {@code {fresh}} stands
 *     for all of the above
 */
record Schema(String fresh, String views, List<String> steps) {

    private static final Pattern VIEW =
            Pattern.compile("^CREATE VIEW (\\w+) AS[^;]+", Pattern.MULTILINE);

    private static final Logger LOG = LoggerFactory.getLogger(Schema.class);

    /** Marks a file as ours: "leat" in ASCII. */
    private static final long APPLICATION_ID = 0x6c656174;

    /** The oldest version that can still be brought up to date. */
    static final int OLDEST = 3;

    /** Read once: a command opens a store several times, a test many times. */
    private static final Schema CURRENT =
            new Schema(
                    resource("schema.sql"),
                    resource("views.sql"),
                    List.of(
                            resource("schema-3-to-4.sql"),
                            resource("said-before-5.sql") + resource("schema-4-to-5.sql"),
                            resource("schema-5-to-6.sql"),
                            resource("schema-6-to-7.sql")));

    Schema {
        steps = List.copyOf(steps);
    }

    static Schema current() {
        return CURRENT;
    }

    int version() {
        return OLDEST + steps.size();
    }

    /**
     * Refuses a file that is newer or not ours before it is opened for writing or with its
     * write-ahead log: that alone would change it. What only the log tells, {@link #migrate} and
     * {@link #require} find.
     *
     * @throws StoreException.Unavailable also for what is no regular file
     */
    void glance(Path file) {
        if (!Files.exists(file)) {
            return;
        }
        try {
            new GivenFile(file).requireRegular();
        } catch (IOException e) {
            throw new StoreException.Unavailable(file, e.getMessage(), e);
        }
        try (Db db = Db.glancing(file)) {
            refuseNewerOrForeign(db);
        } catch (StoreException.WrongSchema e) {
            throw e;
        } catch (StoreException | IllegalStateException e) {
            LOG.debug("{}: whoever opens it says what is wrong", file, e);
        }
    }

    /** Brings it to this version and hands it back, or closes it. */
    Db migrated(Db db) {
        try {
            migrate(db);
            return db;
        } catch (RuntimeException e) {
            db.close();
            throw e;
        }
    }

    private int refuseNewerOrForeign(Db db) {
        int found = versionOf(db);
        if (found > version()) {
            throw tooNew(db, found);
        }
        if (found == 0 && db.number("SELECT count(*) FROM sqlite_schema") > 0) {
            throw foreign(db);
        }
        return found;
    }

    /**
     * Brings the file to this version and refuses one that is newer or not ours.
     *
     * @return what was carried over and what was lost, with counts; empty for a file of this
     *     version
     */
    List<String> migrate(Db db) {
        List<String> carried = new ArrayList<>();
        int found = refuseNewerOrForeign(db);
        if (found == 0) {
            reach(db, version(), fresh);
        } else if (found < OLDEST) {
            throw new StoreException.WrongSchema(
                    db.file(),
                    "the store is of version "
                            + found
                            + ", this leat can take up one of "
                            + OLDEST
                            + " or later. Name another folder under store in site.yaml. Nothing"
                            + " was changed");
        }
        for (int reached = Math.max(found, OLDEST); found != 0 && reached < version(); reached++) {
            reach(db, reached + 1, steps.get(reached - OLDEST).replace("{fresh}", fresh));
            carried.addAll(carried(db));
        }
        db.inOneTransaction(
                () -> {
                    nameCodes(db);
                    renewViews(db);
                });
        carried.forEach(line -> LOG.info("store brought up to date: {}", line));
        return carried;
    }

    private static void reach(Db db, int version, String sql) {
        String expanded = StepWords.expand(sql);
        db.inOneTransaction(
                () -> {
                    db.run(expanded);
                    db.run("PRAGMA application_id = " + APPLICATION_ID);
                    db.run("PRAGMA user_version = " + version);
                });
    }

    /** A step may leave in a temporary table what it carried over, and what it could not. */
    private static List<String> carried(Db db) {
        if (db.number("SELECT count(*) FROM temp.sqlite_schema WHERE name = 'carried'") == 0) {
            return List.of();
        }
        List<String> lines =
                db.list(
                        "SELECT what, rows FROM temp.carried WHERE rows > 0",
                        row -> row.text() + ": " + row.number());
        db.run("DROP TABLE temp.carried");
        return lines;
    }

    /** Refuses a file that is not of this very version. */
    void require(Db db) {
        int found = refuseNewerOrForeign(db);
        if (found < version()) {
            throw new StoreException.WrongSchema(
                    db.file(),
                    found == 0
                            ? FaultWords.english("store.empty")
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

    /** Nothing is written when all are as they should be: the disk may be full. */
    private void renewViews(Db db) {
        Matcher view = VIEW.matcher(StepWords.expand(views));
        while (view.find()) {
            String name = view.group(1);
            String found = "SELECT count(*) FROM sqlite_schema WHERE name = ? AND sql = ?";
            if (db.number(found, name, view.group()) == 0) {
                db.run("DROP VIEW IF EXISTS " + name);
                db.run(view.group());
            }
        }
    }

    private static void nameCodes(Db db) {
        Write kind =
                db.write("INSERT OR IGNORE INTO input_kind (kind, word, channel) VALUES (?, ?, ?)");
        for (Channel channel : Channel.values()) {
            kind.number(InputTable.readingKind(channel)).text("reading").text(channel.key()).now();
            kind.number(Kinds.lost(channel)).text("source lost").text(channel.key()).now();
            kind.number(Kinds.back(channel)).text("source back").text(channel.key()).now();
        }
        kind.number(Kinds.TICK).text("tick").text("").now();
        kind.number(Kinds.CLOCK_STEP).text("clock step").text("").now();
        kind.number(Kinds.INSTRUCTION).text("instruction").text("").now();
        Write word =
                db.write(
                        "INSERT OR IGNORE INTO quality (code, word, trust, reason) VALUES (?, ?, ?, ?)");
        Phrases english = Phrases.in(Language.ENGLISH);
        for (Quality quality : Quality.values()) {
            word.number(quality.code())
                    .word(quality)
                    .word(quality.trust())
                    .text(english.say("quality." + quality.key()))
                    .now();
        }
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
