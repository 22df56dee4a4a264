package lungwort.diary;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Objects;
import java.util.stream.Stream;
import lungwort.diary.Trend.Measure;
import lungwort.diary.Trend.Usual;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.UsualFlow;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * The flows of oxygen of a person's days, gone through in their order, and what a flow is held against: the lower of the usual one ({@link OwnUsual}) and the highest of the newest
 * {@value OwnUsual#FEWEST_DAYS} days that asked for no clinician, so that neither a long past on more oxygen nor a single day on less hides or makes a rise. A flow that rose makes no usual of its own:
 * its days ask for a clinician, or, with a higher SpO2, to ask one about the flow, and count as such here, so that it is not taken for usual when SpO2 falls back to what it was on less. Once a clinician has stated a usual SpO2 on oxygen, days until then make none any more. Common practice.
 */
final class FlowsBefore {
    private static final Comparator<Vitals> LOWEST_FLOW =
            Comparator.comparingDouble(v -> Objects.requireNonNull(v.oxygenLitresPerMinute()));

    /** Of equal flows that with the higher SpO2: what is no better than it was then on as much is no gain from more. */
    private static final Comparator<UsualFlow> LOWEST_USUAL = Comparator.comparingDouble(UsualFlow::litresPerMinute)
            .thenComparing(UsualFlow::spo2Percent, Comparator.nullsLast(Comparator.reverseOrder()));

    private final @Nullable StatedUsual stated;
    private final List<FlowOfDay> days = new ArrayList<>();

    /** The lowest flow of a day, and the highest SpO2 on it: from which a need of more shows soonest. */
    private record FlowOfDay(
            LocalDate day, double litresPerMinute, @Nullable Integer spo2Percent, boolean asked) {}

    /** @param stated what a clinician stated for this person */
    FlowsBefore(@Nullable StatedUsual stated) {
        this.stated = stated != null && stated.onlyFor(true) ? stated : null;
    }

    /**
     * What was measured on a day that is later than all so far.
     *
     * @param heldAgainst what {@link #told} says of that day; null where nothing is known
     */
    void measured(LocalDate day, boolean askedForClinician, List<Vitals> vitals, @Nullable UsualFlow heldAgainst) {
        vitals.stream()
                .filter(v -> v.oxygenLitresPerMinute() != null)
                .min(LOWEST_FLOW.thenComparing(Vitals::spo2Percent, Comparator.nullsLast(Comparator.reverseOrder())))
                .ifPresent(v -> days.add(new FlowOfDay(
                        day,
                        Objects.requireNonNull(v.oxygenLitresPerMinute()),
                        v.spo2Percent(),
                        askedForClinician || heldAgainst != null && heldAgainst.risenIn(v))));
    }

    /** What a flow is held against on a day after all of these; null where none is known. */
    @Nullable
    UsualFlow told(LocalDate day) {
        List<FlowOfDay> known = days.stream()
                .filter(d -> !d.day().isBefore(day.minusDays(OwnUsual.OLDEST_DAYS)))
                .filter(d -> stated == null || !stated.countsOn(day) || d.day().isAfter(stated.on()))
                .toList();
        return Stream.of(usual(known, day), newest(known))
                .filter(Objects::nonNull)
                .min(LOWEST_USUAL)
                .orElse(null);
    }

    private static @Nullable UsualFlow usual(List<FlowOfDay> known, LocalDate day) {
        Usual usual = OwnUsual.of(
                Measure.OXYGEN_FLOW,
                known.stream()
                        .map(d -> new OwnUsual.Value(d.day(), d.litresPerMinute(), d.asked()))
                        .toList(),
                day);
        if (usual == null) {
            return null;
        }
        List<Double> spo2 = known.stream()
                .filter(d -> !d.day().isBefore(usual.first()) && !d.day().isAfter(usual.last()))
                .filter(d -> !(usual.ofWellDays() && d.asked()))
                .map(FlowOfDay::spo2Percent)
                .filter(Objects::nonNull)
                .map(Double::valueOf)
                .toList();
        return new UsualFlow(
                usual.median(),
                // Rounded down it would make a gain of 3 % out of one of 2.5 %.
                spo2.isEmpty()
                        ? null
                        : (Integer) (int) Math.ceil(Measures.median(spo2).orElseThrow()),
                "of " + usual.daysWords());
    }

    private static @Nullable UsualFlow newest(List<FlowOfDay> known) {
        List<FlowOfDay> well = known.stream().filter(d -> !d.asked()).toList();
        List<FlowOfDay> of = well.isEmpty() ? known : well;
        List<FlowOfDay> newest = of.subList(Math.max(0, of.size() - OwnUsual.FEWEST_DAYS), of.size());
        if (newest.isEmpty()) {
            return null;
        }
        LocalDate first = newest.get(0).day();
        LocalDate last = newest.get(newest.size() - 1).day();
        String asked = "which asked for %s clinician".formatted(well.isEmpty() ? "a" : "no");
        return new UsualFlow(
                newest.stream().mapToDouble(FlowOfDay::litresPerMinute).max().orElseThrow(),
                newest.stream()
                        .map(FlowOfDay::spo2Percent)
                        .filter(Objects::nonNull)
                        .max(Comparator.naturalOrder())
                        .orElse(null),
                newest.size() == 1
                        ? "on %s, %s".formatted(first, asked)
                        : "the highest of %d days from %s to %s, %s".formatted(newest.size(), first, last, asked));
    }
}
