package lungwort.guidance;

import java.util.Locale;
import java.util.Objects;
import org.jspecify.annotations.Nullable;

/**
 * The flow of oxygen that this person had on earlier days. A flow is set, not measured: to need more of it for the same SpO2 is a change that the SpO2 hides. Common practice, every number of it.
 *
 * @param litresPerMinute in litres a minute
 * @param spo2Percent SpO2 that was measured on it, in %; null where none was
 * @param of what it is made of, as a phrase: "of 5 days from 2026-03-01 to 2026-03-05, none of which asked for a clinician"
 */
public record UsualFlow(double litresPerMinute, @Nullable Integer spo2Percent, String of) {
    /** More than this many times the flow is more oxygen; within it two people read the same setting. */
    private static final double MORE = 1.1;

    /** @throws lungwort.BadInput if a value is out of range */
    public UsualFlow {
        Vital.OXYGEN_FLOW.check(litresPerMinute);
        Vital.SPO2.check(spo2Percent);
    }

    /** True if the flow is known, and is more. */
    public boolean risenIn(Vitals vitals) {
        Double flow = vitals.oxygenLitresPerMinute();
        return flow != null && flow > MORE * litresPerMinute;
    }

    /** True if SpO2 was measured then and now, and lies as far above as a fall must lie below to count: then it does not hide that more oxygen was needed. */
    boolean spo2HigherIn(Vitals vitals) {
        Integer now = vitals.spo2Percent();
        return now != null && spo2Percent != null && now - spo2Percent >= Facts.FALL_OF_SPO2_PERCENT;
    }

    /**
     * What must be said beside a comparison of SpO2, which is made at whatever flow: "measured on more oxygen than before: 3 l/min now, 2 l/min before"; empty where the flow is as before.
     *
     * @param onOxygen true if that SpO2 was measured on extra oxygen
     * @param flow at which it was, in litres a minute; null where that is not known
     */
    public String beside(@Nullable Boolean onOxygen, @Nullable Double flow) {
        if (!Objects.equals(onOxygen, true)) {
            return "";
        }
        if (flow == null) {
            return "at which flow is not written down; before it was " + litres(litresPerMinute);
        }
        boolean more = flow > MORE * litresPerMinute;
        boolean less = flow * MORE < litresPerMinute;
        return more || less
                ? "measured on %s oxygen than before: %s now, %s before"
                        .formatted(more ? "more" : "less", litres(flow), litres(litresPerMinute))
                : "";
    }

    /** Number, SpO2 and origin: "2 l/min with SpO2 93 % (of 5 days from 2026-03-01 to 2026-03-05, none of which asked for a clinician)". */
    public String words() {
        String spo2 = spo2Percent == null ? "" : String.format(Locale.ROOT, " with SpO2 %d %%", spo2Percent);
        return "%s%s (%s)".formatted(litres(litresPerMinute), spo2, of);
    }

    /** Then and now: "3 l/min now with SpO2 93 %, and was 2 l/min with SpO2 93 % (of ..)". */
    String riseWords(Vitals vitals) {
        Double flow = vitals.oxygenLitresPerMinute();
        Integer spo2 = vitals.spo2Percent();
        return flow == null
                ? ""
                : "%s now%s, and was %s"
                        .formatted(
                                litres(flow),
                                spo2 == null
                                        ? ", with no SpO2 measured"
                                        : String.format(Locale.ROOT, " with SpO2 %d %%", spo2),
                                words());
    }

    /** The limit in words, beginning small; for whoever may retain carbon dioxide at whatever SpO2. */
    String limitWords(boolean whateverSpo2) {
        return "%s more than a tenth above %s%s"
                .formatted(
                        Vital.OXYGEN_FLOW.words(),
                        litres(litresPerMinute),
                        whateverSpo2 ? "" : ", for the same SpO2 or a lower one");
    }

    /** A flow for people: "0.25 l/min". */
    public static String litres(double value) {
        return Vital.number(value) + " l/min";
    }
}
