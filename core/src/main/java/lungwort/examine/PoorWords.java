package lungwort.examine;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;

/**
 * Says what weighed most in a refusal that is only learnt. The rule is linear ({@link lungwort.classify.PoorRule}), so what each measure adds can be read off; measures of one thing are told together.
 */
final class PoorWords {
    /** What a few measures are about, with what helps. */
    private record Group(String words, List<String> beginnings) {}

    /** The first whose beginning fits a measure's name holds it. */
    private static final List<Group> GROUPS = List.of(
            new Group(
                    "voices, cries or other tones (wait until it is quiet, switch machines off)",
                    List.of("speech", "harmonic rows", "voiced")),
            new Group(
                    "knocks, clicks and rubbing (rest your hand, lay the piece on bare skin)",
                    List.of("touches", "clicks", "loud clicks", "rub", "roughness")),
            new Group("coughing (let it pass first)", List.of("coughs")),
            new Group("moments in which the piece hardly touched (press it flat)", List.of("lifted", "sunk")),
            new Group(
                    "a recording level that moved by itself (switch automatic gain off)", List.of("gain ride", "gate")),
            new Group("the heart beside the breath (move away from it)", List.of("heart")),
            new Group(
                    "breaths that cannot be told apart (wait for calm breathing, record longer)",
                    List.of("breath", "rhythm")),
            new Group(
                    "breath that hardly stands out, or something louder than it (deeper breaths, another spot, a quieter room)",
                    List.of("contrast", "level", "together", "rise", "swell", "crest", "slow", "spread")));

    private static final int MOST = 2;

    /** Less than this much of the log-odds is not worth a word. */
    private static final double LEAST = 0.2;

    private PoorWords() {}

    /**
     * The quality with the reasons of a learnt refusal in the words behind it; as it was where there is none.
     *
     * @param names of the measures
     * @param contributions of each to the log-odds, same order
     */
    static Quality told(Quality quality, List<String> names, double[] contributions) {
        String words = words(names, contributions);
        if (!quality.has(QualityIssue.UNCLEAR) || words.isEmpty()) {
            return quality;
        }
        List<Quality.Finding> findings = new ArrayList<>();
        for (Quality.Finding finding : quality.findings()) {
            boolean unclear = finding.issue() == QualityIssue.UNCLEAR;
            String detail = unclear ? finding.detail() + "; weighed most: " + words : finding.detail();
            findings.add(new Quality.Finding(finding.issue(), finding.grave(), detail));
        }
        return new Quality(quality.usable(), findings, quality.events());
    }

    /** The groups that speak most for poor, worst first; empty where none does. */
    static String words(List<String> names, double[] contributions) {
        Map<Group, Double> sums = new LinkedHashMap<>();
        for (int k = 0; k < contributions.length; k++) {
            sums.merge(group(names.get(k)), contributions[k], Double::sum);
        }
        return sums.entrySet().stream()
                .filter(e -> e.getValue() >= LEAST)
                .sorted(Map.Entry.comparingByValue(Comparator.reverseOrder()))
                .limit(MOST)
                .map(e -> e.getKey().words())
                .reduce((a, b) -> a + "; " + b)
                .orElse("");
    }

    private static Group group(String name) {
        return GROUPS.stream()
                .filter(group -> group.beginnings().stream().anyMatch(name::startsWith))
                .findFirst()
                .orElseThrow(() -> new IllegalStateException("no words for the quality measure " + name));
    }
}
