package leat.config;

import java.time.LocalTime;
import java.util.Map;
import java.util.Optional;
import java.util.regex.Pattern;

/** Two times of the day on the site's clock, such as {@code 22:00-06:00}. */
record QuietHoursForm() implements Form<QuietHours> {

    private static final String TIME = "([01][0-9]|2[0-3]):[0-5][0-9]";
    private static final TextForm TEXT =
            new TextForm(
                    "HH:MM-HH:MM",
                    Pattern.compile(TIME + "-" + TIME),
                    "two times of the day from 00:00 to 23:59, such as 22:00-06:00");

    @Override
    public Optional<QuietHours> read(Cursor at) {
        Optional<String> text = TEXT.read(at);
        if (text.isEmpty()) {
            return Optional.empty();
        }
        String[] ends = text.get().split("-");
        if (ends[0].equals(ends[1])) {
            at.wrong(Cursor.quote(text.get()) + " begins when it ends", TEXT.allowed());
            return Optional.empty();
        }
        return Optional.of(new QuietHours(LocalTime.parse(ends[0]), LocalTime.parse(ends[1])));
    }

    @Override
    public String print(QuietHours value) {
        return value.from() + "-" + value.to();
    }

    @Override
    public String unit() {
        return TEXT.unit();
    }

    @Override
    public Map<String, Object> schema() {
        return TEXT.schema();
    }
}
