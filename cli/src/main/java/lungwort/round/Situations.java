package lungwort.round;

import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.OptionalDouble;
import lungwort.diary.Measures;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.examine.Examination;
import lungwort.examine.Suggestion;
import lungwort.guidance.Age;
import lungwort.guidance.EarlierDays;
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
            EarlierDays earlier) {
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
                earlier);
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
        Take hasty =
                takes.stream().filter(Situations::inHardlyABreath).findFirst().orElse(null);
        for (Take take : takes) {
            boolean extraBefore = examined.stream().anyMatch(t -> t.suggestion().namesSound());
            take.examination()
                    .ifPresent(e -> examined.add(
                            take == hasty && !extraBefore
                                    ? again(take.reason(), e)
                                    : new SoundFinding.Take(
                                            take.reason(),
                                            told(e, extraBefore),
                                            usable(e, examined.isEmpty()),
                                            e.hardlyAnyBreath())));
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

    private static boolean inHardlyABreath(Take take) {
        return take.examination().filter(Examination::noneInHardlyABreath).isPresent();
    }

    /** None heard in hardly a whole breath says next to nothing of a place: a longer take is asked for, once, for who breathes too shallowly breathes no deeper at the third try. */
    private static SoundFinding.Take again(TakeReason reason, Examination examination) {
        return new SoundFinding.Take(reason, Suggestion.CANNOT_TELL, false, examination.hardlyAnyBreath());
    }

    /** An extra sound has not gone where hardly a whole breath was found: four seconds after a cough clear nothing. */
    private static Suggestion told(Examination examination, boolean extraBefore) {
        return extraBefore && examination.noneInHardlyABreath() ? Suggestion.CANNOT_TELL : examination.suggestion();
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
