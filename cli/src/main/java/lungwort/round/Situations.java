package lungwort.round;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashSet;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import java.util.Set;
import java.util.TreeMap;
import lungwort.diary.Measures;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.examine.Examination;
import lungwort.guidance.Age;
import lungwort.guidance.EmergencyNumber;
import lungwort.guidance.RateSource;
import lungwort.guidance.Site;
import lungwort.guidance.Situation;
import lungwort.guidance.SoundFinding;
import lungwort.guidance.TakeReason;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/** Puts together what the guidance is asked with. */
final class Situations {
    private Situations() {}

    static Situation of(
            Person person,
            Age age,
            Round round,
            Vitals vitals,
            List<SiteView> sites,
            @Nullable EmergencyNumber number,
            @Nullable Integer usualSpo2) {
        List<SoundFinding> sounds =
                sites.stream().map(SiteView::finding).filter(Objects::nonNull).toList();
        return new Situation(
                age,
                person.conditions(),
                person.limits(),
                round.dangerSigns(),
                vitals,
                round.symptoms(),
                sounds,
                number,
                usualSpo2);
    }

    /**
     * The vitals with the rate that was heard where none was counted: the median over takes of usual breathing. After deep breaths or a cough nobody breathes as usual, and a
     * rate across a stretch without a breath is too slow.
     */
    static Vitals withHeardRate(Vitals vitals, List<Take> takes) {
        if (vitals.respiratoryRatePerMinute() != null) {
            return vitals;
        }
        List<Double> rates = new ArrayList<>();
        for (Take take : takes) {
            boolean usualBreathing = take.reason() == TakeReason.FIRST || take.reason() == TakeReason.MOVED;
            take.examination()
                    .filter(e -> usualBreathing)
                    .flatMap(Examination::rateTold)
                    .ifPresent(rate -> rates.add(rate.perMinute()));
        }
        OptionalDouble median = Measures.median(rates);
        return median.isEmpty()
                ? vitals
                : vitals.withRespiratoryRate((int) Math.round(median.getAsDouble()), RateSource.HEARD);
    }

    /**
     * This person's own SpO2 in %: the middle of the lowest of each earlier day, as a trend shows it ({@link Trend.Usual}), rounded down; null where too few days have one.
     *
     * @param earlier rounds of the days before
     */
    static @Nullable Integer usualSpo2(List<Round> earlier) {
        Map<LocalDate, Double> lowest = new TreeMap<>();
        Set<LocalDate> unwell = new HashSet<>();
        for (Round round : earlier) {
            if (round.askedForClinician()) {
                unwell.add(round.day());
            }
            Integer spo2 = round.vitals().spo2Percent();
            if (spo2 != null) {
                lowest.merge(round.day(), Double.valueOf(spo2), Math::min);
            }
        }
        List<Double> well = lowest.entrySet().stream()
                .filter(day -> !unwell.contains(day.getKey()))
                .map(Map.Entry::getValue)
                .toList();
        Trend.Usual usual = Trend.Usual.of(Trend.Measure.SPO2, well, List.copyOf(lowest.values()));
        return usual == null ? null : (Integer) (int) usual.median();
    }

    /** The takes of each site, in the order of first takes. */
    static Map<Site, List<Take>> bySite(List<Take> takes) {
        Map<Site, List<Take>> bySite = new LinkedHashMap<>();
        for (Take take : takes) {
            bySite.computeIfAbsent(take.site(), s -> new ArrayList<>()).add(take);
        }
        return bySite;
    }

    /** What the takes of a site say together; null while none is examined. */
    static @Nullable SoundFinding finding(Site site, List<Take> takes) {
        List<SoundFinding.Take> examined = new ArrayList<>();
        Boolean heard = null;
        boolean known = true;
        for (Take take : takes) {
            take.examination()
                    .ifPresent(e -> examined.add(new SoundFinding.Take(
                            take.reason(), e.suggestion(), usable(e, examined.isEmpty()), e.hardlyAnyBreath())));
            // Hardly any breath, said once, outweighs every take in which it was heard.
            heard = heard != null && !heard ? heard : take.breathHeard() == null ? heard : take.breathHeard();
            known &= take.knownToClinician() || !suggestsExtra(take);
        }
        List<SoundFinding.Pause> pauses = takes.stream()
                .flatMap(take -> take.examination().stream()
                        .flatMap(e -> e.pauses().stream())
                        .map(pause -> new SoundFinding.Pause(pause.seconds(), take.breathingStopped())))
                .toList();
        boolean anyExtra = takes.stream().anyMatch(Situations::suggestsExtra);
        return examined.isEmpty() ? null : new SoundFinding(site, examined, heard, known && anyExtra, pauses);
    }

    /** A fault that can be mended is mended first, once: a chest that stays as quiet is for a clinician's ears, not for a third try. */
    private static boolean usable(Examination examination, boolean first) {
        return first ? !examination.recordAgain() : examination.quality().usable();
    }

    static boolean suggestsExtra(Take take) {
        return take.examination()
                .map(Examination::suggestion)
                .map(s -> switch (s) {
                    case CONTINUOUS, DISCONTINUOUS, BOTH -> true;
                    case NONE_HEARD, NONE_STANDS_OUT, CANNOT_TELL -> false;
                })
                .orElse(false);
    }
}
