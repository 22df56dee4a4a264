package lungwort.diary;

import java.time.Clock;
import java.util.Optional;
import lungwort.guidance.EmergencyNumber;

/** What holds for all persons of a diary. */
public final class Settings {
    /** Longest setting, in characters. */
    private static final int MAX_LENGTH = 4_000;

    private static final String EMERGENCY_NUMBER = "emergency-number";
    private static final String TEMPERATURE_UNIT = "temperature-unit";

    /** Units of temperature that can be shown; stored values are always degrees Celsius. */
    public enum TemperatureUnit {
        CELSIUS,
        FAHRENHEIT;

        /** No body is so warm in degrees Celsius, and one that lives is in degrees Fahrenheit: whoever writes such a number as °C mistook the unit. Common practice. */
        public static final double LOWEST_LIKE_FAHRENHEIT = 90;

        /** 45 °C: the upper end of that. */
        public static final double HIGHEST_LIKE_FAHRENHEIT = 113;

        /** True of a number that was written for degrees Celsius and looks like degrees Fahrenheit. */
        public static boolean likeFahrenheit(double written) {
            return written >= LOWEST_LIKE_FAHRENHEIT && written <= HIGHEST_LIKE_FAHRENHEIT;
        }
    }

    private final Database database;
    private final Clock clock;

    Settings(Database database, Clock clock) {
        this.database = database;
        this.clock = clock;
    }

    /** The number to call in an emergency; empty until the user has given it, for it is never assumed. */
    public Optional<EmergencyNumber> emergencyNumber() {
        return get(EMERGENCY_NUMBER).map(EmergencyNumber::new);
    }

    /** Keeps the number to call in an emergency. */
    public void setEmergencyNumber(EmergencyNumber number) {
        set(EMERGENCY_NUMBER, number.digits());
    }

    /** The unit temperatures are shown in. */
    public TemperatureUnit temperatureUnit() {
        return get(TEMPERATURE_UNIT).map(TemperatureUnit::valueOf).orElse(TemperatureUnit.CELSIUS);
    }

    /** Sets the unit temperatures are shown in. */
    public void setTemperatureUnit(TemperatureUnit unit) {
        set(TEMPERATURE_UNIT, unit.name());
    }

    /** Any setting, by its name; for what a part of the program keeps for itself, such as the result of an equipment check. */
    public Optional<String> get(String name) {
        return database.read(
                c -> Sql.first(c, row -> row.getString(1), "select content from setting where name = ?", name));
    }

    /**
     * Keeps any setting.
     *
     * @param name lower-case words joined by hyphens
     * @param content up to {@value #MAX_LENGTH} characters
     */
    public void set(String name, String content) {
        Words.check(name, "a setting's name", 1, 60);
        Words.check(content, "the setting " + name, 0, MAX_LENGTH);
        database.write(c -> Sql.update(
                c,
                "insert into setting (name, content, changed_at) values (?, ?, ?)"
                        + " on conflict (name) do update set content = excluded.content, changed_at = excluded.changed_at",
                name,
                content,
                clock.instant()));
    }
}
