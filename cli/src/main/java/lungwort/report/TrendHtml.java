package lungwort.report;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.Collectors;
import lungwort.diary.Day;
import lungwort.diary.Trend;
import lungwort.diary.TrendPicture;
import lungwort.guidance.Vital;
import lungwort.picture.Pictures;
import lungwort.picture.Words;
import lungwort.round.AgainstUsual;
import lungwort.round.Noise;
import org.jspecify.annotations.Nullable;

/** This person against this person's own earlier days. */
final class TrendHtml {
    private static final int PAPER_DAYS = 10;

    /** A usual is made of three earlier days: without one there are hardly more. */
    private static final int CLOSE_PAPER_DAYS = 4;

    private final Html html;
    private final ReportContent content;
    private final Medium medium;
    private final boolean paper;

    TrendHtml(Html html, ReportContent content, Medium medium) {
        this.html = html;
        this.content = content;
        this.medium = medium;
        this.paper = medium.paper();
    }

    void write() {
        html.start("section", "class", "trend");
        html.tag("h2", "Against what is usual for this person");
        usual();
        content.newest()
                .view()
                .earlier()
                .slowChanges()
                .forEach(change -> html.start("p")
                        .tag("strong", "Over months: ")
                        .text(change.words())
                        .end());
        if (!content.trend().toldWords(Trend.Measure.WEIGHT).isEmpty() && !medium.tight()) {
            html.start("p")
                    .tag("strong", "Weight: ")
                    .text(content.trend().toldWords(Trend.Measure.WEIGHT))
                    .end();
        }
        List<Day> days =
                content.trend().days().stream().filter(d -> d.rounds() > 0).toList();
        // On close paper the days go, but nobody may be left without any course where no usual stands for it.
        if (showsCourse(content, medium)) {
            days(days.subList(Math.max(0, days.size() - CLOSE_PAPER_DAYS), days.size()));
        }
        if (days.size() > 1 && !medium.tight()) {
            days(paper ? days.subList(Math.max(0, days.size() - PAPER_DAYS), days.size()) : days);
            if (!paper) {
                picture();
            }
        }
        html.end();
    }

    /** True if close paper shows the newest days: where there is room, more than one is known, no usual is yet, and the rounds are not listed with their values elsewhere. */
    static boolean showsCourse(ReportContent content, Medium medium) {
        long days = content.trend().days().stream().filter(d -> d.rounds() > 0).count();
        return medium.course()
                && days > 1
                && content.rounds().size() == 1
                && content.newest().view().usual().isEmpty();
    }

    private void usual() {
        List<AgainstUsual> usual = content.newest().view().usual();
        if (usual.isEmpty()) {
            html.tag(
                    "p",
                    "Not known yet: it needs at least %d earlier days with a value."
                            .formatted(Trend.MIN_DAYS_OF_USUAL));
            return;
        }
        List<List<String>> rows = new ArrayList<>();
        for (AgainstUsual u : usual) {
            rows.add(List.of(
                    ReportWords.capital(u.measure().words()),
                    "%s %s %s"
                            .formatted(Words.number(u.value()), u.measure().unit(), u.how())
                            .strip(),
                    Words.number(u.usual().median()),
                    "%s to %s, %s"
                            .formatted(
                                    Words.number(u.usual().lowest()),
                                    Words.number(u.usual().highest()),
                                    u.usual().daysBrief()),
                    u.outside() ? u.words() : "within this person's earlier days"));
        }
        Tables.write(
                html,
                "The day of the newest round against earlier days; of those that asked for no clinician where enough are known, up to a year back; they too can be days of illness: within them does not mean well",
                List.of("Measure", "This day", "Usual (median)", "Lowest to highest", "This day is"),
                rows);
    }

    private void days(List<Day> days) {
        boolean blown = content.trend().measures().contains(Trend.Measure.PEAK_FLOW);
        boolean flows = content.trend().measures().contains(Trend.Measure.OXYGEN_FLOW);
        boolean weighed = content.trend().measures().contains(Trend.Measure.WEIGHT);
        List<String> names = new ArrayList<>(
                List.of("Day", "Wheeze share of the breath", "Crackles a breath", "Breathing rate a minute", "SpO2"));
        if (flows) {
            names.add("Oxygen, l/min");
        }
        if (blown) {
            names.add("Peak flow, litres a minute");
        }
        if (weighed) {
            names.add("Weight, kg");
        }
        List<List<String>> rows = new ArrayList<>();
        for (Day day : days) {
            List<String> row = new ArrayList<>(List.of(
                    day.day().toString(),
                    cell(Trend.Measure.WHEEZE_SHARE.of(day), " %% (%d)".formatted(day.wheezePlaces())),
                    cell(day.cracklesPerBreath(), " (%d)".formatted(day.cracklePlaces())),
                    cell(day.ratePerMinute(), day.rateHeard() ? " (heard)" : ""),
                    cell(Trend.Measure.SPO2.of(day), Boolean.TRUE.equals(day.spo2OnOxygen()) ? " % on oxygen" : " %")));
            if (flows) {
                Double litres = day.oxygenLitresPerMinute();
                row.add(litres == null ? "no value" : Vital.number(litres));
            }
            if (blown) {
                row.add(cell(Trend.Measure.PEAK_FLOW.of(day), ""));
            }
            if (weighed) {
                row.add(cell(day.weightKg(), ""));
            }
            rows.add(row);
        }
        List<String> highest = new ArrayList<>(List.of("the rate"));
        if (flows) {
            highest.add("the flow of oxygen");
        }
        if (weighed) {
            highest.add("the weight");
        }
        Tables.write(
                html,
                "Day by day (days without a round left out): sounds are means over the sites that have a number (how many in brackets), which can fall while a sound spreads, %s the highest, SpO2%s the lowest of the day"
                        .formatted(
                                Words.list(highest) + (highest.size() == 1 ? " is" : " are"),
                                blown ? " and peak flow" : ""),
                names,
                rows);
        if (!content.trend().placesWords().isEmpty()) {
            html.tag("p", content.trend().placesWords());
        }
    }

    private static String cell(@Nullable Double value, String unit) {
        return value == null ? "no value" : Words.number(value) + unit;
    }

    private void picture() {
        Pictures.requireFont();
        html.start("figure")
                .empty(
                        "img",
                        "src",
                        Media.pngUri(TrendPicture.draw(
                                content.trend(), content.person().nickname(), Noise::words, Noise.CAUTION)),
                        "alt",
                        "%s from %s to %s; the numbers stand in the table above."
                                .formatted(
                                        ReportWords.capital(content.trend().measures().stream()
                                                .map(Trend.Measure::words)
                                                .collect(Collectors.joining(", "))),
                                        content.trend().first(),
                                        content.trend().last()))
                .end();
    }
}
