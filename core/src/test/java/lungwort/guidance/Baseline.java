package lungwort.guidance;

import java.util.List;

/** A situation in which everything was asked and measured and nothing crosses a limit; tests change one thing at a time. */
final class Baseline {
    private Baseline() {}

    static Situation of(Age age) {
        return Situation.of(age)
                .with(DangerAnswers.noneOf(age))
                .with(Symptoms.ABSENT)
                .with(vitals(age))
                .with(new EmergencyNumber("000"));
    }

    static Vitals vitals(Age age) {
        return Vitals.NONE
                .withSpo2(98)
                .withOnOxygen(false)
                .withRespiratoryRate(usualRate(age))
                .withPulse(80)
                .withTemperature(37.0)
                .withSystolic(120)
                .withConsciousness(Consciousness.ALERT);
    }

    /** A rate between the 10th and the 90th centile (Fleming et al. 2011), below WHO's fast breathing; 16 for adults. */
    static int usualRate(Age age) {
        int months = age.months();
        List<int[]> table = List.of(
                new int[] {3, 40},
                new int[] {12, 38},
                new int[] {24, 32},
                new int[] {36, 28},
                new int[] {72, 24},
                new int[] {144, 20},
                new int[] {216, 18});
        return table.stream().filter(r -> months < r[0]).findFirst().orElse(new int[] {0, 16})[1];
    }

    static boolean cites(NextStep step, String rule, String sourcePart, String mark) {
        return step.reasons().stream()
                .filter(r -> r.rule().equals(rule))
                .anyMatch(r -> r.citations().stream()
                        .anyMatch(
                                c -> c.source().contains(sourcePart) && c.mark().equals(mark)));
    }

    static boolean names(NextStep step, String rule) {
        return step.reasons().stream().anyMatch(r -> r.rule().equals(rule));
    }
}
