package lungwort.cli;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.io.PrintWriter;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Objects;
import java.util.concurrent.Callable;
import lungwort.diary.Day;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Trend;
import lungwort.diary.TrendPicture;
import lungwort.examine.Examination;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.Vital;
import lungwort.json.Json;
import lungwort.picture.Words;
import lungwort.round.Noise;
import lungwort.round.RoundJson;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

/** How a person's numbers went from day to day. */
@Command(
        name = "trend",
        mixinStandardHelpOptions = true,
        description =
                "Follow wheeze share, crackles, breathing rate, SpO2, flow of oxygen, peak flow and weight from day to day; days without a round stay gaps.",
        footer = {"", "Example: lungwort diary trend --person Mia --days 30 --picture trend.png"})
final class DiaryTrendCommand implements Callable<Integer> {
    @Spec
    private @Nullable CommandSpec spec;

    @Mixin
    private final DiaryShowCommand.Span span = new DiaryShowCommand.Span();

    @Option(names = "--picture", paramLabel = "FILE.png", description = "Write a picture too.")
    private @Nullable Path picture;

    @Option(names = "--json", description = "Print JSON instead of text.")
    private boolean json;

    @Override
    public Integer call() {
        PrintWriter out = Objects.requireNonNull(spec).commandLine().getOut();
        try (Diary diary = span.open()) {
            Person person = span.person(diary);
            Trend trend = Trend.of(diary, person.id(), span.first(diary, person), span.last(diary, person));
            if (picture != null) {
                TrendPicture.write(trend, person.nickname(), Noise::words, Noise.CAUTION, picture);
            }
            if (json) {
                ObjectNode node = RoundJson.toJson(trend);
                node.put("person", person.nickname());
                node.put("caution", Examination.CAUTION);
                out.println(Json.pretty(node));
            } else {
                text(trend, person, out);
            }
            out.flush();
            return 0;
        }
    }

    private static void text(Trend trend, Person person, PrintWriter out) {
        out.printf("%s, day by day (- : no value)%n%n", person.nickname());
        boolean blown = trend.measures().contains(Trend.Measure.PEAK_FLOW);
        boolean flows = trend.measures().contains(Trend.Measure.OXYGEN_FLOW);
        boolean weighed = trend.measures().contains(Trend.Measure.WEIGHT);
        out.printf(
                "%-12s %12s %18s %14s %16s%s%s%s%n",
                "day",
                "wheeze share",
                "crackles a breath",
                "breaths/min",
                "SpO2",
                flows ? "   oxygen l/min" : "",
                blown ? "   peak flow l/min" : "",
                weighed ? "   weight kg" : "");
        int gap = 0;
        for (Day day : trend.days()) {
            if (day.rounds() == 0) {
                gap++;
                continue;
            }
            gap(gap, out);
            gap = 0;
            out.printf(
                    "%-12s %12s %18s %14s %16s%s%s%s%n",
                    day.day(),
                    cell(Trend.Measure.WHEEZE_SHARE.of(day), "%.0f %% (" + day.wheezePlaces() + ")"),
                    cell(day.cracklesPerBreath(), "%.1f (" + day.cracklePlaces() + ")"),
                    cell(day.ratePerMinute(), "%.0f") + (day.rateHeard() ? " heard" : ""),
                    cell(
                            Trend.Measure.SPO2.of(day),
                            Boolean.TRUE.equals(day.spo2OnOxygen()) ? "%.0f %% on oxygen" : "%.0f %%"),
                    flows ? "   %12s".formatted(cell(day.oxygenLitresPerMinute())) : "",
                    blown ? "   %15s".formatted(cell(Trend.Measure.PEAK_FLOW.of(day), "%.0f")) : "",
                    weighed ? "   %9s".formatted(cell(day.weightKg(), "%.1f")) : "");
        }
        gap(gap, out);
        usual(trend, person.limits().usualSpo2(), out);
        trend.slowChanges().forEach(change -> out.printf("OVER MONTHS: %s%n", change.words()));
        out.println();
        List<String> highest = new ArrayList<>(List.of("Rate"));
        if (flows) {
            highest.add("flow of oxygen");
        }
        if (weighed) {
            highest.add("weight");
        }
        out.println(
                "Sounds: mean over the places that have a number, how many in brackets; of each the first take that suggests a sound, else the first that could be judged. %s: the highest of the day. SpO2%s: the lowest of the day."
                        .formatted(Words.list(highest), blown ? " and peak flow" : ""));
        out.println(
                "The usual is made of days before that of the newest round: of those on which nothing asked for a clinician, up to a year back; where too few of them are known, of all of the last %d days. They too can be days of illness: a value within it does not mean well."
                        .formatted(Trend.RECENT_DAYS));
        if (!trend.placesWords().isEmpty()) {
            out.println(trend.placesWords());
        }
        out.println(Noise.CAUTION);
        out.println(Examination.CAUTION);
    }

    private static void gap(int days, PrintWriter out) {
        if (days > 0) {
            out.printf("%-12s no round on %s%n", "", days == 1 ? "1 day" : days + " days");
        }
    }

    private static void usual(Trend trend, @Nullable StatedUsual stated, PrintWriter out) {
        out.println();
        for (Trend.Measure measure : trend.measures()) {
            if (!measure.hasUsual()) {
                out.printf("%s: %s%n    %s%n", measure.words(), told(trend, measure), Noise.words(measure));
                continue;
            }
            Trend.Usual usual = trend.usual(measure);
            out.printf(
                    "usual %s: %s%n",
                    measure.words(),
                    usual == null
                            ? "not known yet (needs %d earlier days)".formatted(Trend.MIN_DAYS_OF_USUAL)
                            : "%s %s, from %s to %s over %s"
                                    .formatted(
                                            Words.number(usual.median()),
                                            measure.unit(),
                                            Words.number(usual.lowest()),
                                            Words.number(usual.highest()),
                                            usual.daysWords()));
            if (measure == Trend.Measure.SPO2 && !trend.newestFlowWords().isEmpty()) {
                out.printf("    %s%n", trend.newestFlowWords());
            }
            if (measure == Trend.Measure.SPO2 && stated != null) {
                out.printf("    %s stated %s; days until then make none any more.%n", stated.setBy(), stated.words());
            }
            out.printf("    %s%n", Noise.words(measure));
        }
    }

    private static String told(Trend trend, Trend.Measure measure) {
        String words = trend.toldWords(measure);
        return words.isEmpty() ? "one day is known; nothing can be told of it alone" : words;
    }

    /** With all its decimals: babies have thousandths. */
    private static String cell(@Nullable Double litres) {
        return litres == null ? "-" : Vital.number(litres);
    }

    private static String cell(@Nullable Double value, String format) {
        return value == null ? "-" : format.formatted(value);
    }
}
