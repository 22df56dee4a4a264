package lungwort.guidance;

import java.util.Comparator;
import java.util.Locale;
import org.jspecify.annotations.Nullable;

/**
 * Holds a weight against earlier ones. European Society of Cardiology, guide for patients with heart failure, its page on weight gain [P]: more than 2 kg in 3 days. That the rise is counted from the
 * lowest of these days, and not from the oldest alone, is common practice: water that comes in two days is no better news for a third that lies before it.
 *
 * <p>A weight that can hardly be beside another, as in pounds or with two digits changed round, is no rise and no fall: it is asked about, and nothing is made of it until somebody has weighed again.
 */
final class Weighing {
    /** More in kg than anybody gains or loses in a few weeks at home, but for a treatment that is known. Common practice. */
    private static final double FAR_KG = 10;

    /** One and a third times the other: pounds are 2.2 times the kg. Common practice. */
    private static final double FAR_TIMES = 4.0 / 3;

    /** For so many days kg are held against kg, and children, who grow, against themselves. Common practice. */
    private static final int FAR_DAYS = 28;

    private Weighing() {}

    /** How far the weight lies above the lowest of the last days, in kg; below 0 under all of them; null where it is not known, or nothing is there to hold it against. */
    static @Nullable Double rise(Situation situation) {
        Double kg = situation.vitals().weightKg();
        EarlierWeight lowest = lowest(situation);
        return kg == null || lowest == null ? null : (Double) difference(kg, lowest.kg());
    }

    /** The lowest weight of the last days, of equal ones the newest; without those that can hardly be; null where there is none. */
    static @Nullable EarlierWeight lowest(Situation situation) {
        return lowest(situation.vitals().weightKg(), situation.earlier(), situation.age());
    }

    /** The same of a weight in kg; null for one that is not known yet, which no earlier one can be far from. */
    static @Nullable EarlierWeight lowest(@Nullable Double kg, EarlierDays earlier, Age age) {
        return earlier.weights().stream()
                .filter(e -> e.daysBefore() <= EarlierWeight.DAYS_OF_RISE)
                .filter(e -> kg == null || !far(kg, e, age))
                .min(Comparator.comparingDouble(EarlierWeight::kg).thenComparingInt(EarlierWeight::daysBefore))
                .orElse(null);
    }

    /** The earlier weight beside which this one can hardly be: the newest, or one of the last days that lies far below; null where there is none. */
    static @Nullable EarlierWeight farFrom(Situation situation) {
        Double kg = situation.vitals().weightKg();
        EarlierWeight last = last(situation.earlier());
        if (kg == null || last == null) {
            return null;
        }
        if (far(kg, last, situation.age())) {
            return last;
        }
        return situation.earlier().weights().stream()
                .filter(e -> e.daysBefore() <= EarlierWeight.DAYS_OF_RISE && e.kg() < kg && far(kg, e, situation.age()))
                .min(Comparator.comparingDouble(EarlierWeight::kg))
                .orElse(null);
    }

    private static @Nullable EarlierWeight last(EarlierDays earlier) {
        return earlier.weights().isEmpty()
                ? null
                : earlier.weights().get(earlier.weights().size() - 1);
    }

    private static boolean far(double kg, EarlierWeight earlier, Age age) {
        boolean near = earlier.daysBefore() <= FAR_DAYS;
        boolean times = Math.max(kg, earlier.kg()) > FAR_TIMES * Math.min(kg, earlier.kg());
        boolean grown = age.months() >= Facts.SCALE_2_FROM_MONTHS;
        return times && (near || grown) || near && Math.abs(difference(kg, earlier.kg())) > FAR_KG;
    }

    /** In whole tenths, so that 72.1 is 2.0 above 70.1 and not a trace more. */
    private static double difference(double kg, double earlier) {
        return (Math.round(10 * kg) - Math.round(10 * earlier)) / 10.0;
    }

    /** Both numbers with the day: "72.4 kg now and was 70.0 kg on 2026-03-02, 2 days before". */
    static String riseWords(Situation situation) {
        return beside(situation, "now and was", lowest(situation));
    }

    /** The same of two that can hardly both be. */
    static String farWords(Situation situation) {
        return beside(situation, "is far from", farFrom(situation));
    }

    private static String beside(Situation situation, String between, @Nullable EarlierWeight earlier) {
        return earlier == null
                ? ""
                : String.format(Locale.ROOT, "%.1f kg %s %s", situation.vitals().weightKg(), between, earlier.words());
    }
}
