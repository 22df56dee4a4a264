package lungwort.compare;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.EnumSet;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.function.Function;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.RecordingLabel;
import lungwort.json.Json;
import org.jspecify.annotations.Nullable;

/**
 * Measures {@link Repeatability} on SPRSound: pairs of consecutive recordings of one site of one child with the same label, and pairs of left and right of one child, both
 * labelled normal. The database does not say whether two recordings are of the same day; the age they carry must be the same, so that some differences hold a real change.
 * What a limit claims to be the same is thus rather too wide than too narrow.
 */
public final class RepeatabilityStudy {
    /** SPRSound's sites: p1 left posterior, p2 left lateral, p3 right posterior, p4 right lateral (Zhang et al., 2022). */
    private static final Map<String, String> OTHER_SIDE = Map.of("p1", "p3", "p2", "p4");

    private static final double COVERED = 0.95;

    /** Bland and Altman's repeatability coefficient (BMJ 1996): 1.96 times the square root of 2, times the within-person deviation. */
    private static final double COEFFICIENT = 1.96 * Math.sqrt(2);

    /** With fewer patients no 95th percentile is worth the name: 1 in 20 of them lies beyond it. */
    private static final int MIN_PATIENTS = 20;

    /**
     * No limit is given where SPRSound's figure would mislead. Its stethoscope passes hardly anything of the breath above 800 Hz (the band's level moves by 6 dB over a recording,
     * where the one below moves by 22), so the level there is that of noise. And the shipped model has learnt from these very recordings, so that its probabilities repeat better
     * on them than on others.
     */
    private static final Set<Measure> NOT_TRANSFERABLE =
            EnumSet.of(Measure.LEVEL_800_1600, Measure.CONTINUOUS_PROBABILITY, Measure.DISCONTINUOUS_PROBABILITY);

    private RepeatabilityStudy() {}

    /** Two recordings that are taken as the same thing. */
    public record Pair(AnnotatedRecording first, AnnotatedRecording second) {}

    /** Consecutive recordings of one site of one child, of the same age and label; poor quality left out. */
    public static List<Pair> sameSite(List<AnnotatedRecording> recordings) {
        Map<String, List<AnnotatedRecording>> bySite = new TreeMap<>();
        for (AnnotatedRecording r : recordings) {
            if (r.label() != RecordingLabel.POOR_QUALITY) {
                bySite.computeIfAbsent(r.patient() + "_" + r.site(), k -> new ArrayList<>())
                        .add(r);
            }
        }
        List<Pair> pairs = new ArrayList<>();
        for (List<AnnotatedRecording> takes : bySite.values()) {
            takes.sort(Comparator.comparingInt(RepeatabilityStudy::number));
            for (int i = 1; i < takes.size(); i++) {
                AnnotatedRecording a = takes.get(i - 1);
                AnnotatedRecording b = takes.get(i);
                if (a.label() == b.label() && a.ageYears().equals(b.ageYears())) {
                    pairs.add(new Pair(a, b));
                }
            }
        }
        return pairs;
    }

    /** Left and right of one child, both normal: for each left recording the right one whose number is nearest, within {@value #NEAR}. */
    public static List<Pair> leftRight(List<AnnotatedRecording> recordings) {
        List<Pair> pairs = new ArrayList<>();
        List<AnnotatedRecording> normal = recordings.stream()
                .filter(r -> r.label() == RecordingLabel.NORMAL)
                .sorted(Comparator.comparing(AnnotatedRecording::patient).thenComparingInt(RepeatabilityStudy::number))
                .toList();
        for (AnnotatedRecording left : normal) {
            String other = OTHER_SIDE.get(left.site());
            if (other != null) {
                normal.stream()
                        .filter(r ->
                                r.patient().equals(left.patient()) && r.site().equals(other))
                        .filter(r -> distance(left, r) <= NEAR)
                        .min(Comparator.comparingInt(r -> distance(left, r)))
                        .ifPresent(right -> pairs.add(new Pair(left, right)));
            }
        }
        return pairs;
    }

    /** Numbers run through the sites of a child: within a few of one another, two recordings belong to one sitting. */
    private static final int NEAR = 6;

    private static int distance(AnnotatedRecording a, AnnotatedRecording b) {
        return Math.abs(number(a) - number(b));
    }

    private static int number(AnnotatedRecording r) {
        return Integer.parseInt(r.id().substring(r.id().lastIndexOf('_') + 1));
    }

    /** The limit of each measure over pairs; recordings are measured once each. */
    public static Map<Measure, Repeatability.Limit> limits(
            List<Pair> pairs, Function<AnnotatedRecording, TakeMeasures> measuring) {
        Map<String, TakeMeasures> measured = new HashMap<>();
        Map<Measure, List<Weighted>> differences = new EnumMap<>(Measure.class);
        for (Pair pair : pairs) {
            TakeMeasures a = measured.computeIfAbsent(pair.first().id(), k -> measuring.apply(pair.first()));
            TakeMeasures b = measured.computeIfAbsent(pair.second().id(), k -> measuring.apply(pair.second()));
            for (Measure measure : Measure.values()) {
                Double x = a.value(measure);
                Double y = b.value(measure);
                if (x != null && y != null) {
                    differences
                            .computeIfAbsent(measure, k -> new ArrayList<>())
                            .add(new Weighted(pair.first().patient(), y - x));
                }
            }
        }
        Map<Measure, Repeatability.Limit> limits = new EnumMap<>(Measure.class);
        differences.keySet().removeAll(NOT_TRANSFERABLE);
        differences.forEach((measure, list) -> {
            Repeatability.Limit limit = limit(list);
            if (limit.patients() >= MIN_PATIENTS) {
                limits.put(measure, limit);
            }
        });
        return limits;
    }

    /** A difference and whose it is. */
    record Weighted(String patient, double difference) {}

    /** Each patient weighs 1, shared by that patient's pairs. */
    static Repeatability.Limit limit(List<Weighted> differences) {
        Map<String, Integer> pairsOf = new HashMap<>();
        differences.forEach(d -> pairsOf.merge(d.patient(), 1, Integer::sum));
        List<Weighted> sorted = differences.stream()
                .sorted(Comparator.comparingDouble(d -> Math.abs(d.difference())))
                .toList();
        double limit = 0;
        double weight = 0;
        double squares = 0;
        boolean reached = false;
        for (Weighted d : sorted) {
            double share = 1.0 / pairsOf.getOrDefault(d.patient(), 1) / pairsOf.size();
            weight += share;
            squares += share * d.difference() * d.difference() / 2;
            if (!reached) {
                limit = Math.abs(d.difference());
                reached = weight >= COVERED - 1e-12;
            }
        }
        double deviation = Math.sqrt(squares);
        // Where 95 in 100 pairs do not differ at all, a limit of 0 would call a single crackle a difference.
        double usable = limit > 0 ? limit : COEFFICIENT * deviation;
        return new Repeatability.Limit(usable, deviation, differences.size(), pairsOf.size());
    }

    /** As {@code repeatability.json} stores it. */
    public static ObjectNode toJson(Repeatability repeatability, @Nullable String about) {
        ObjectNode node = Json.object();
        if (about != null) {
            node.put("about", about);
        }
        node.put("made", repeatability.made());
        node.set("sameSite", limitsJson(repeatability.sameSite()));
        node.set("leftRight", limitsJson(repeatability.leftRight()));
        return node;
    }

    private static ObjectNode limitsJson(Map<Measure, Repeatability.Limit> limits) {
        ObjectNode node = Json.object();
        limits.forEach((measure, limit) -> node.putObject(measure.id())
                .put("difference", rounded(limit.difference()))
                .put("withinPersonDeviation", rounded(limit.withinPersonDeviation()))
                .put("unit", measure.unit())
                .put("pairs", limit.pairs())
                .put("patients", limit.patients()));
        return node;
    }

    private static double rounded(double value) {
        return Math.round(value * 1000) / 1000.0;
    }
}
