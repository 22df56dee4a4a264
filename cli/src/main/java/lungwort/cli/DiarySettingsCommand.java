package lungwort.cli;

import java.io.PrintWriter;
import java.util.Locale;
import java.util.Objects;
import java.util.concurrent.Callable;
import lungwort.diary.Diary;
import lungwort.diary.Settings;
import lungwort.guidance.EmergencyNumber;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** What holds for all persons. */
@Command(
        name = "settings",
        mixinStandardHelpOptions = true,
        description = "Show or set the emergency number and the units.",
        footer = {"", "Example: lungwort diary settings --emergency-number NUMBER"})
final class DiarySettingsCommand implements Callable<Integer> {
    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final DiaryOption diaryOption = new DiaryOption();

    @Option(
            names = "--emergency-number",
            paramLabel = "NUMBER",
            description = "The number to call in an emergency where you live. It is never assumed.")
    private @Nullable String emergencyNumber;

    @Option(
            names = "--temperature-unit",
            paramLabel = "celsius|fahrenheit",
            description = "How temperatures are shown.")
    private @Nullable TemperatureUnit unit;

    /** As typed. */
    private enum TemperatureUnit {
        celsius,
        fahrenheit
    }

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        try (Diary diary = diaryOption.open()) {
            if (emergencyNumber != null) {
                diary.settings().setEmergencyNumber(new EmergencyNumber(emergencyNumber));
            }
            if (unit != null) {
                diary.settings()
                        .setTemperatureUnit(
                                Settings.TemperatureUnit.valueOf(unit.name().toUpperCase(Locale.ROOT)));
            }
            out.printf(
                    "emergency number: %s%n",
                    diary.settings()
                            .emergencyNumber()
                            .map(EmergencyNumber::digits)
                            .orElse("not known yet; give it with --emergency-number NUMBER"));
            out.printf(
                    "temperatures in: %s%n",
                    diary.settings().temperatureUnit().name().toLowerCase(Locale.ROOT));
            out.printf("diary: %s%n", diary.folder());
            out.flush();
            return 0;
        }
    }
}
