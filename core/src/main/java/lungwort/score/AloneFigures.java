package lungwort.score;

import java.util.Collections;
import java.util.List;
import java.util.SortedMap;
import java.util.TreeMap;
import java.util.function.Predicate;
import java.util.function.ToDoubleFunction;
import lungwort.classify.RiskCoverage;
import lungwort.dataset.RecordingLabel;

/**
 * How good the answers to single recordings are, as a person at home gets them: each recording by itself, through the whole examination. Recordings that listeners called too poor
 * count only for {@link #poorRefused} and {@link #poorDeclined}: what sounds in them is not known.
 *
 * @param auc ROC areas of the probabilities: {@code continuous}, {@code discontinuous}, and {@code poorQuality} where the database has that label
 * @param riskCoverage curves of the learnt probabilities: {@code continuous} and {@code discontinuous} by distance from a half, {@code suggestion} by the less certain of both,
 *     right only if it names exactly the sounds that listeners heard
 * @param answered number of recordings for which a sound is suggested or "none heard" is said
 * @param coverage share of recordings so answered
 * @param risk share of wrong answers among them: not exactly the sounds that listeners heard
 * @param riskOfAll share of wrong answers if "cannot tell" were no answer
 * @param missed share of answers "none heard" where listeners heard an extra sound
 * @param falseSuggestions share of suggestions for recordings in which listeners heard no extra sound
 * @param heard share of recordings with an extra sound for which any sound is suggested
 * @param falseAlarms share of recordings without one for which any sound is suggested
 * @param goodRefused share of recordings that listeners could judge and that are refused as too poor
 * @param poorRefused share of those too poor for listeners that are refused
 * @param poorDeclined share of recordings too poor to judge that are answered "cannot tell"
 * @param noneStandsOut share of recordings of which is said only that nothing stands out, since they sound unlike nearly all that was learnt from
 * @param unfamiliarMissed share of those in which listeners heard an extra sound
 */
public record AloneFigures(
        SortedMap<String, Figure> auc,
        SortedMap<String, RiskCoverage> riskCoverage,
        int answered,
        Figure coverage,
        Figure risk,
        Figure riskOfAll,
        Figure missed,
        Figure falseSuggestions,
        Figure heard,
        Figure falseAlarms,
        Figure goodRefused,
        Figure poorRefused,
        Figure poorDeclined,
        Figure noneStandsOut,
        Figure unfamiliarMissed) {
    public AloneFigures {
        auc = Collections.unmodifiableSortedMap(new TreeMap<>(auc));
        riskCoverage = Collections.unmodifiableSortedMap(new TreeMap<>(riskCoverage));
    }

    /** The shares in the order in which reports print them. */
    public List<Share> shares() {
        return List.of(
                new Share("coverage", "answered: a sound suggested, or \"none heard\"", coverage),
                new Share("risk", "wrong among those answered", risk),
                new Share("riskOfAll", "wrong if each had to be answered", riskOfAll),
                new Share("missed", "\"none heard\" although listeners heard a sound", missed),
                new Share("falseSuggestions", "suggestions where listeners heard no extra sound", falseSuggestions),
                new Share("heard", "recordings with a sound for which one is suggested", heard),
                new Share("falseAlarms", "recordings without one for which one is suggested", falseAlarms),
                new Share("goodRefused", "judged by listeners and refused as too poor", goodRefused),
                new Share("poorRefused", "too poor by listeners and refused as such", poorRefused),
                new Share("poorDeclined", "too poor by listeners and answered \"cannot tell\"", poorDeclined),
                new Share("noneStandsOut", "unlike what was learnt from: \"none stands out\"", noneStandsOut),
                new Share("unfamiliarMissed", "those in which listeners heard a sound", unfamiliarMissed));
    }

    /**
     * One share.
     *
     * @param id its name in files
     * @param words for people
     */
    public record Share(String id, String words, Figure figure) {}

    static AloneFigures of(ResampledItems<RecordingPrediction> all, boolean poorLabelled) {
        Predicate<RecordingPrediction> good = r -> r.truth() != RecordingLabel.POOR_QUALITY;
        Predicate<RecordingPrediction> suggests = good.and(r -> r.alone().suggests());
        Predicate<RecordingPrediction> answered = good.and(r -> r.alone().answered());
        Predicate<RecordingPrediction> noneHeard = good.and(r -> r.alone().noneHeard());
        Predicate<RecordingPrediction> adventitious = r -> r.truth().adventitious();
        return new AloneFigures(
                areas(all, good, poorLabelled),
                curves(all.items().stream().filter(good).toList()),
                (int) all.items().stream().filter(answered).count(),
                all.share(good, r -> r.alone().answered()),
                all.share(answered, r -> !r.alone().right(r.truth())),
                all.share(good, r -> r.alone().forced() != r.truth()),
                all.share(noneHeard, adventitious),
                all.share(suggests, adventitious.negate()),
                all.share(good.and(adventitious), r -> r.alone().suggests()),
                all.share(good.and(adventitious.negate()), r -> r.alone().suggests()),
                all.share(good, r -> r.alone().refused()),
                all.share(good.negate(), r -> r.alone().refused()),
                all.share(good.negate(), r -> r.alone().cannotTell()),
                all.share(good, r -> r.alone().noneStandsOut()),
                all.share(good.and(r -> r.alone().noneStandsOut()), adventitious));
    }

    private static SortedMap<String, Figure> areas(
            ResampledItems<RecordingPrediction> all, Predicate<RecordingPrediction> good, boolean poorLabelled) {
        ResampledItems<RecordingPrediction> judged = all.only(good, RecordingPrediction::patient);
        SortedMap<String, Figure> auc = new TreeMap<>();
        auc.put(
                "continuous",
                judged.auc(r -> r.alone().continuous(), r -> r.truth().continuous()));
        auc.put(
                "discontinuous",
                judged.auc(r -> r.alone().discontinuous(), r -> r.truth().discontinuous()));
        if (poorLabelled) {
            auc.put("poorQuality", all.auc(r -> r.alone().poorQuality(), good.negate()));
        }
        return auc;
    }

    private static SortedMap<String, RiskCoverage> curves(List<RecordingPrediction> good) {
        SortedMap<String, RiskCoverage> curves = new TreeMap<>();
        curves.put(
                "continuous",
                curve(good, r -> r.alone().continuous(), r -> r.truth().continuous()));
        curves.put(
                "discontinuous",
                curve(good, r -> r.alone().discontinuous(), r -> r.truth().discontinuous()));
        curves.put(
                "suggestion",
                RiskCoverage.of(
                        ResampledItems.scores(good, r -> r.alone().confidence()),
                        ResampledItems.truths(good, r -> r.alone().forced() == r.truth())));
        return curves;
    }

    private static RiskCoverage curve(
            List<RecordingPrediction> good,
            ToDoubleFunction<RecordingPrediction> probability,
            Predicate<RecordingPrediction> truth) {
        return RiskCoverage.of(
                ResampledItems.scores(good, r -> Math.abs(probability.applyAsDouble(r) - 0.5)),
                ResampledItems.truths(good, r -> probability.applyAsDouble(r) >= 0.5 == truth.test(r)));
    }
}
