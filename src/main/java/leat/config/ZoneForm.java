package leat.config;

import java.time.ZoneId;
import java.util.List;
import java.util.Map;
import java.util.Optional;

/** A time zone by its name in the IANA time zone database. */
record ZoneForm() implements Form<ZoneId> {

    private static final String ALLOWED =
            "a name of the IANA time zone database, such as Europe/London or UTC.";

    @Override
    public Optional<ZoneId> read(Cursor at) {
        Optional<String> text = at.text(ALLOWED);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        if (ZoneId.getAvailableZoneIds().contains(text.get())) {
            return Optional.of(ZoneId.of(text.get()));
        }
        List<String> names = ZoneId.getAvailableZoneIds().stream().sorted().toList();
        at.wrong(
                Cursor.quote(text.get()) + " is no time zone",
                ALLOWED + Spelling.didYouMean(text.get(), names));
        return Optional.empty();
    }

    @Override
    public String print(ZoneId value) {
        return value.getId();
    }

    @Override
    public String unit() {
        return "IANA name";
    }

    @Override
    public Map<String, Object> schema() {
        return Map.of("type", "string", "minLength", 1);
    }
}
