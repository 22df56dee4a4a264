package lungwort.report;

import java.util.ArrayList;
import java.util.Arrays;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Collectors;
import lungwort.examine.Examination;
import lungwort.guidance.Breathlessness;
import lungwort.guidance.Citation;
import lungwort.guidance.Condition;
import lungwort.guidance.DangerSign;
import lungwort.guidance.Guidance;
import lungwort.guidance.Outcome;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.Vital;
import lungwort.guidance.VitalLimit;
import lungwort.picture.ChestDrawing;

/**
 * A round on paper, to fill in at the bedside: what to look for, what to measure, what to ask; then where to listen, in which order. It judges nothing: what is written on it is entered afterwards.
 */
final class SheetHtml {
    private static final String BOX = "\u2610";

    /** A box stays on the line of the words that it stands for. */
    private static final String BESIDE = "\u00A0";

    private static final int MONTHS_OF_BLOOD_PRESSURE = 60;

    private final SheetContent sheet;
    private final Html html = new Html();

    private SheetHtml(SheetContent sheet) {
        this.sheet = sheet;
    }

    /**
     * The sheet.
     *
     * @param style of {@code sheet.css}: "large", "middle" or "small"
     */
    static String page(SheetContent sheet, String style) {
        return new SheetHtml(sheet).document(style);
    }

    private String document(String style) {
        String title = sheet.nickname().isEmpty()
                ? "Round on paper, %s".formatted(sheet.age().words())
                : "Round on paper: %s, %s"
                        .formatted(sheet.nickname(), sheet.age().words());
        html.start("html", "lang", "en", "xmlns", "http://www.w3.org/1999/xhtml")
                .start("head");
        html.empty("meta", "charset", "utf-8");
        html.empty("meta", "name", "description", "content", "A sheet to fill in while listening to a chest at home");
        html.tag("title", title).style(HtmlReport.resource("sheet.css")).end();
        html.start("body", "class", style);
        html.tag("h1", title);
        html.tag("p", made(), "class", "small");
        html.tag(
                "p",
                "Date ____________   Time ____________   Who listened ______________________   With which device ______________________");
        look();
        measure();
        ask();
        listen();
        html.end().end();
        return html.finish();
    }

    private String made() {
        String conditions = sheet.conditions().known().stream()
                .map(Condition::words)
                .sorted()
                .collect(Collectors.joining(", "));
        return "Made on %s for this age%s. Print a new one when the age, a known condition or a limit has changed."
                .formatted(sheet.day(), conditions.isEmpty() ? "" : " and for: " + conditions);
    }

    private void look() {
        html.tag("h2", "1. Look first");
        signs(
                Outcome.EMERGENCY_NOW,
                "A yes to any of these: call %s now. Record nothing, measure nothing more. Not sure is not a no."
                        .formatted(number()));
        signs(Outcome.BE_SEEN_TODAY, "A yes to any of these: have a clinician see this person today.");
    }

    private String number() {
        return sheet.emergencyNumber() == null
                ? "the emergency number (write it here: ____________)"
                : sheet.emergencyNumber().digits();
    }

    private void signs(Outcome outcome, String caption) {
        List<List<String>> rows = Guidance.dangerSigns(sheet.age(), sheet.conditions()).stream()
                .filter(s -> s.outcome() == outcome)
                .map(this::sign)
                .toList();
        if (!rows.isEmpty()) {
            Tables.write(html, "signs " + outcome.id(), caption, List.of("Question", "yes", "no", "not sure"), rows);
        }
    }

    private List<String> sign(DangerSign sign) {
        return List.of(sign.question(sheet.age()), BOX, BOX, BOX);
    }

    private void measure() {
        html.tag("h2", "2. Measure");
        List<VitalLimit> limits = sheet.vitalLimits();
        List<List<String>> rows = new ArrayList<>();
        for (Vital vital : Vital.values()) {
            if (vital.entered() && asked(vital)) {
                rows.add(List.of(
                        measured(vital),
                        "",
                        words(limits, vital, Outcome.EMERGENCY_NOW),
                        words(limits, vital, Outcome.BE_SEEN_TODAY)));
            }
        }
        Tables.write(
                html,
                "vitals",
                "What is left empty was not measured, and is not taken as usual.",
                List.of("What", "Number", "Emergency", "Be seen today"),
                rows);
        html.tag(
                "p",
                "A number that crosses no limit is no all-clear. A change from this person's own usual counts, too: enter the numbers in Lungwort, which holds them against earlier days.");
        sheet.cautions().forEach(caution -> html.tag("p", caution));
        html.tag("p", "Whose limits: " + sources(limits) + ".", "class", "small");
    }

    /** What the page asks for in the open; the rest would fill a sheet with lines that stay empty. */
    private boolean asked(Vital vital) {
        return switch (vital) {
            case SYSTOLIC -> sheet.age().months() >= MONTHS_OF_BLOOD_PRESSURE;
            case PEAK_FLOW ->
                sheet.conditions().has(Condition.ASTHMA) || sheet.limits().bestPeakFlowLitresPerMinute() != null;
            case WEIGHT -> sheet.conditions().has(Condition.HEART_FAILURE);
            default -> true;
        };
    }

    private static String measured(Vital vital) {
        return switch (vital) {
            case SPO2 -> "SpO2, % (oxygen saturation; warm hand, no nail polish, still for half a minute)";
            case OXYGEN_FLOW ->
                "Extra oxygen while SpO2 was measured: " + BOX + BESIDE + "off   " + BOX + BESIDE
                        + "on, at how many litres a minute (change it only as ordered)";
            case RESPIRATORY_RATE ->
                "Breaths counted over a whole calm minute: " + BOX + BESIDE + "awake   " + BOX + BESIDE + "asleep";
            case PULSE -> "Pulse, beats a minute";
            case TEMPERATURE -> "Temperature (write \u00b0C or \u00b0F)";
            case SYSTOLIC -> "Upper blood pressure, mmHg, if there is a meter";
            case PEAK_FLOW -> "Peak flow, litres a minute, best of three blows";
            case WEIGHT ->
                "Weight, kg (same scale, in the morning, after passing water, before breakfast, same clothes)";
            case PEAK_FLOW_SHARE, WEIGHT_RISE ->
                throw new IllegalArgumentException("worked out, not measured: " + vital);
        };
    }

    /** Limits on what is worked out of a number stand beside the number. */
    private static Set<Vital> judgedBy(Vital vital) {
        return switch (vital) {
            case PEAK_FLOW -> Set.of(vital, Vital.PEAK_FLOW_SHARE);
            case WEIGHT -> Set.of(vital, Vital.WEIGHT_RISE);
            default -> Set.of(vital);
        };
    }

    private static String words(List<VitalLimit> limits, Vital vital, Outcome outcome) {
        return limits.stream()
                .filter(l -> judgedBy(vital).contains(l.vital()) && l.outcome() == outcome)
                .filter(l -> limits.stream()
                        .noneMatch(graver -> graver.words().equals(l.words())
                                && graver.outcome().compareTo(outcome) < 0))
                // A limit on what is worked out of the number keeps its name.
                .map(l -> l.vital().entered() ? ReportWords.unnamed(l) : l.words())
                .distinct()
                .collect(Collectors.joining("; "));
    }

    private String sources(List<VitalLimit> limits) {
        Set<Citation> all = new LinkedHashSet<>();
        limits.stream()
                .filter(l -> Arrays.stream(Vital.values())
                        .anyMatch(v -> v.entered() && asked(v) && judgedBy(v).contains(l.vital())))
                .forEach(l -> all.addAll(l.sources()));
        return ReportWords.sources(List.copyOf(all));
    }

    private void ask() {
        html.tag("h2", "3. Ask");
        html.start("ul", "class", "ask");
        html.tag(
                "li",
                "Short of breath: "
                        + Arrays.stream(Breathlessness.values())
                                .map(b -> BOX + BESIDE + b.words())
                                .collect(Collectors.joining("   ")));
        if (Guidance.asksForChestPain(sheet.age())) {
            yesNo("New pain or tightness in the chest");
        }
        yesNo("Feverish now, or a fever today");
        yesNo("New or worse cough, thick or coloured phlegm, shivering, feeling ill");
        html.tag("li", "Medicines taken, and what else was seen: ________________________________________________");
        html.end();
    }

    private void yesNo(String question) {
        html.tag("li", question + ":   " + BOX + BESIDE + "yes   " + BOX + BESIDE + "no");
    }

    private void listen() {
        html.start("section", "class", "listen").tag("h2", "4. Listen");
        html.start("ul");
        Sites.beforeTheRound(sheet.age()).forEach(s -> html.tag("li", s));
        html.end();
        List<Site> sites = Sites.round(sheet.age());
        html.empty(
                "img",
                "src",
                Media.pngUri(ChestDrawing.of(sites)),
                "alt",
                "The chest from its sides, with the places numbered in their order; each is described in the table below");
        html.tag("p", "Left and right are the person's own.", "class", "small");
        List<List<String>> rows = new ArrayList<>();
        for (int i = 0; i < sites.size(); i++) {
            rows.add(List.of("%d  %s".formatted(i + 1, sites.get(i).words()), Sites.where(sites.get(i)), "", "", ""));
        }
        Tables.write(
                html,
                "places",
                Sites.BETWEEN_RIBS
                        + " Write down which file is which place: two files changed round make left look like right.",
                List.of("Place", "Where exactly", "File or time", "What your ear heard", "After a cough"),
                rows);
        html.tag(
                "p",
                "For the ear: squeaky, snoring, crackling, nothing extra, or not sure. Where something extra is heard, have the person cough, move the stethoscope a little, and listen again at the same place.");
        html.tag("p", Examination.CAUTION + " If you are worried, get help, whatever stands here.", "class", "caution");
        html.end();
    }
}
