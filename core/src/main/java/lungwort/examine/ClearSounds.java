package lungwort.examine;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import lungwort.sound.BreathAgreement;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;

/**
 * Sounds so clear that their measurement alone makes a suggestion, whatever the learnt model says: the model has heard one kind of stethoscope, and a wheeze through another one
 * is still a wheeze. Coarse crackles have no such rule by their number: on SPRSound's training set their measured rate is as high in usual chests. They have one by their place: bursts that come back at the
 * same point of one breath after another. The shares beside the limits are of the 1,772 recordings of that set that
 * listeners judged; {@code ClearSoundsOnOpenDataTest} prints them again.
 *
 * @param continuous true if clear tones were measured
 * @param fine true if clear fine crackles were measured, many or hardly anything else
 * @param doubtful true if clear fine crackles were measured, too few to suggest them and too many to say that none were heard
 * @param wide true if many bursts as wide as coarse crackles were measured, which changes no suggestion and is told
 * @param returning where bursts shaped like crackles came back at the same point of breath after breath, in seconds: too much to say that none were heard; else empty
 * @param sure true if they came back so clearly, in a recording that is not overdriven, that crackles are suggested
 */
record ClearSounds(
        boolean continuous, boolean fine, boolean doubtful, boolean wide, List<Double> returning, boolean sure) {
    /** Shortest tone that counts, in seconds: the length by which the American Thoracic Society defined continuous sounds in 1977 (second-hand). */
    static final double MIN_TONE_SECONDS = 0.25;

    /** How far a tone must stand over its surroundings, in dB. Of the recordings without a continuous sound 0.8 % have two such tones, of those with one 12 %. */
    static final double MIN_TONE_DB = 15;

    /** One may be a creak of the chair; two are a pattern. */
    static final int MIN_TONES = 2;

    /** How far a fine crackle must stand over the noise, in dB. */
    static final double MIN_CRACKLE_DB = 12;

    /** Over this it is a knock, not a crackle, in dB. */
    static final double MAX_CRACKLE_DB = 40;

    /**
     * From this many fine crackles a second on, the recording is never answered with "none heard". Of the recordings that listeners called normal 5.8 % have as many, and 67 %
     * of those with as many hold an extra sound.
     */
    static final double SOME_CRACKLES_PER_SECOND = 2;

    /** From this many on they are suggested: 0.5 % of the normal ones, 89 % with an extra sound. */
    static final double MANY_CRACKLES_PER_SECOND = 3.5;

    /** Some are enough where so many of all clear crackles are fine ones, which heart and touch are not: 1.8 % of the normal ones, 75 % with an extra sound. */
    static final double FINE_SHARE = 0.7;

    /** How far a coarse crackle must stand over the noise to be told of, in dB; and how many a second. Of the normal ones 24 % have as many. */
    static final double WIDE_CRACKLE_DB = 20;

    static final double WIDE_CRACKLES_PER_SECOND = 1;

    /**
     * From this {@link BreathAgreement#deviations} on, bursts come back. In SPRSound's training set 2.6 % of the recordings that listeners called normal have as much and 14 % of those with crackles;
     * of ICBHI's 43 recordings 9 of the 16 with crackles in half of their breaths or more, and 3 of the 14 without.
     */
    static final double RETURNING_DEVIATIONS = 2.5;

    /**
     * From this many on crackles are suggested: 0.3 % of the normal ones, and 82 % of those with as much hold an extra sound, as good a sign as many fine crackles are. Of ICBHI's 43 recordings 8 of
     * those 16, and none of those 14 (counted afterwards). Not where the recording is overdriven: samples that are cut off in the loud part of each breath are bursts too, and come back with it (of 260 normal
     * ones 1 reaches it as recorded, 6 with 1 % of their samples cut off; counted once).
     */
    static final double SURELY_RETURNING_DEVIATIONS = 4;

    /** A crackle so near a place where bursts came back, in seconds, is evidence of it. */
    private static final double NEAR_PLACE_SECONDS = 0.2;

    private static final String LISTEN_THERE =
            " Crackles do that, knocks do not: listen there again, for rattling or crackling.";

    private static final String RETURNING =
            "Short bursts came back at the same point of one breath after another (near %s s)." + LISTEN_THERE;

    private static final String SURELY_RETURNING =
            "Short bursts came back at the same point of one breath after another (near %s s), as crackles do and knocks do not, though the learnt model alone would not suggest them: listen there again.";

    private static final String WIDE =
            "Many bursts as wide as coarse crackles were measured. Heartbeats and touches are as wide, so they suggest nothing here: listen for rattling yourself.";

    private static final String TONES =
            "Clear tones were measured that fit the definition of a wheeze or rhonchus, though the learnt model alone would not suggest one.";

    private static final String CRACKLES =
            "Many clear fine crackles were measured, though the learnt model alone would not suggest them.";

    private static final String DOUBTFUL =
            "Fine crackles were measured, though the learnt model does not take them for an extra sound: one of the two is wrong, so listen there again.";

    /** Why it cannot be told where the model and what was measured agree on a sound, and both are weak. */
    static final String MEASURED_AND_HEARD =
            "A sound was measured where the learnt model, too, hears something like it, though too weakly to suggest one: listen there again.";

    private static final String ONE_TONE_BEGINS = "One clear tone was measured ";

    private static final String ONE_TONE = ONE_TONE_BEGINS
            + "(%.1f to %.1f s) that fits the definition of a wheeze or rhonchus. One alone suggests nothing here, for a voice, a nose or a creak gives one, too: listen there again.";

    static ClearSounds in(
            List<MeasuredSound> sounds, BreathAgreement agreement, double durationSeconds, boolean overdriven) {
        long tones = sounds.stream().filter(ClearSounds::clearTone).count();
        long crackles = sounds.stream().filter(ClearSounds::clearCrackle).count();
        long coarse = sounds.stream().filter(ClearSounds::clearCoarse).count();
        double rate = crackles / Math.max(1, durationSeconds);
        boolean some = rate >= SOME_CRACKLES_PER_SECOND;
        boolean fine = rate >= MANY_CRACKLES_PER_SECOND || some && crackles >= FINE_SHARE * (crackles + coarse);
        long wide = sounds.stream()
                .filter(sound -> clear(sound, SoundKind.COARSE_CRACKLE, WIDE_CRACKLE_DB))
                .count();
        boolean manyWide = wide >= WIDE_CRACKLES_PER_SECOND * Math.max(1, durationSeconds);
        boolean returning = agreement.deviations() >= RETURNING_DEVIATIONS;
        return new ClearSounds(
                tones >= MIN_TONES,
                fine,
                some && !fine,
                manyWide,
                returning ? agreement.places() : List.of(),
                !overdriven && agreement.deviations() >= SURELY_RETURNING_DEVIATIONS);
    }

    /** Whether crackles are suggested by their measurement. */
    boolean discontinuous() {
        return fine || sure;
    }

    /** Whether something was measured that speaks against the answer "none heard", though not enough for a suggestion. */
    boolean leavesDoubt() {
        return doubtful || !returning.isEmpty();
    }

    /** Whether a sound counts by its measurement alone. */
    boolean holds(MeasuredSound sound) {
        return continuous && clearTone(sound)
                || fine && clearCrackle(sound)
                || sure && sound instanceof Crackle && nearPlace(sound.startSeconds());
    }

    private boolean nearPlace(double seconds) {
        return returning.stream().anyMatch(place -> Math.abs(place - seconds) <= NEAR_PLACE_SECONDS);
    }

    /** Why the suggestion goes beyond the model's; empty where it does not. */
    List<String> reasons(boolean heardContinuous, boolean heardDiscontinuous) {
        List<String> reasons = new ArrayList<>();
        if (continuous && !heardContinuous) {
            reasons.add(TONES);
        }
        if (fine && !heardDiscontinuous) {
            reasons.add(CRACKLES);
        }
        if (doubtful && !sure && !heardContinuous && !heardDiscontinuous && !continuous) {
            reasons.add(DOUBTFUL);
        }
        if (!returning.isEmpty() && !fine && !heardDiscontinuous) {
            String words = sure ? SURELY_RETURNING : RETURNING;
            reasons.add(words.formatted(returning.stream()
                    .map(seconds -> String.format(Locale.ROOT, "%.1f", seconds))
                    .collect(Collectors.joining(", "))));
        }
        if (wide && !discontinuous() && !heardDiscontinuous) {
            reasons.add(WIDE);
        }
        return reasons;
    }

    /**
     * That there is one clear tone, which suggests nothing by itself; empty where there is none. Where the model knows the like of the recording and finds nothing, so it nearly always is (24 of 25 such
     * recordings of SPRSound's training set, by folds); where it does not, or had hardly a breath to go by, it is the listener's to decide.
     */
    static List<String> toneLeftToTheListener(List<MeasuredSound> sounds) {
        return sounds.stream()
                .filter(ClearSounds::clearTone)
                .map(tone -> String.format(Locale.ROOT, ONE_TONE, tone.startSeconds(), tone.endSeconds()))
                .limit(1)
                .toList();
    }

    /** Whether a reason tells of something measured that no suggestion goes by and that the listener is asked to listen for. */
    static boolean leftToTheListener(String reason) {
        return reason.endsWith(LISTEN_THERE)
                || reason.equals(WIDE)
                || reason.equals(DOUBTFUL)
                || reason.equals(MEASURED_AND_HEARD)
                || reason.startsWith(ONE_TONE_BEGINS);
    }

    private static boolean clearTone(MeasuredSound sound) {
        return sound instanceof ContinuousSound tone
                && tone.durationSeconds() >= MIN_TONE_SECONDS
                && tone.prominenceDb() >= MIN_TONE_DB;
    }

    static boolean clearCrackle(MeasuredSound sound) {
        return clear(sound, SoundKind.FINE_CRACKLE, MIN_CRACKLE_DB);
    }

    static boolean clearCoarse(MeasuredSound sound) {
        return clear(sound, SoundKind.COARSE_CRACKLE, MIN_CRACKLE_DB);
    }

    private static boolean clear(MeasuredSound sound, SoundKind kind, double fromDb) {
        return sound instanceof Crackle crackle
                && crackle.kind() == kind
                && crackle.prominenceDb() >= fromDb
                && crackle.prominenceDb() <= MAX_CRACKLE_DB;
    }
}
