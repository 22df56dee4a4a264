package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.stream.IntStream;
import java.util.stream.Stream;
import lungwort.classify.HeardEvent;
import lungwort.classify.HeardEvents;
import lungwort.classify.Judgement;
import lungwort.quality.Quality;
import lungwort.quality.QualityIssue;
import lungwort.sound.BreathAgreement;
import lungwort.sound.ContinuousSound;
import lungwort.sound.Crackle;
import lungwort.sound.MeasuredSound;
import lungwort.sound.SoundKind;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

class FindingsTest {
    private static final Quality GOOD = new Quality(true, List.of());
    private static final Quality QUIET = new Quality(
            true, List.of(new Quality.Finding(QualityIssue.TOO_QUIET, false, "level 70 dB below full scale")));
    private static final Quality CLIPPED =
            new Quality(false, List.of(new Quality.Finding(QualityIssue.CLIPPED, true, "30 % of samples")));

    @Test
    void whoeverIsRefusedByWhatWasLearntIsToldWhatToDo() {
        Findings refused = findings(GOOD, true);
        assertThat(refused.suggestion()).isEqualTo(Suggestion.CANNOT_TELL);
        assertThat(refused.quality().usable()).isFalse();
        Quality.Finding finding = refused.quality().findings().get(0);
        assertThat(finding.issue()).isEqualTo(QualityIssue.UNCLEAR);
        assertThat(finding.grave()).isTrue();
        assertThat(finding.detail()).isEqualTo("probability 62 %");
        assertThat(finding.issue().remedy()).contains("record again");
    }

    @Test
    void withoutDoubtNothingIsAdded() {
        Findings heard = findings(GOOD, false);
        assertThat(heard.suggestion()).isEqualTo(Suggestion.CONTINUOUS);
        assertThat(heard.quality()).isEqualTo(GOOD);
    }

    @Test
    void whatElseWasFoundStandsBehind() {
        assertThat(findings(QUIET, true).quality().findings())
                .extracting(Quality.Finding::issue)
                .containsExactly(QualityIssue.UNCLEAR, QualityIssue.TOO_QUIET);
    }

    @Test
    void aMeasuredReasonIsReasonEnough() {
        assertThat(findings(CLIPPED, true).quality()).isEqualTo(CLIPPED);
        assertThat(findings(CLIPPED, false).suggestion()).isEqualTo(Suggestion.CANNOT_TELL);
    }

    /** The limits of {@link ClearSounds}, on both sides: 2 and 3.5 fine crackles a second, seven in ten of them fine. */
    @ParameterizedTest
    @CsvSource({
        "29, 0, NONE_HEARD",
        "30, 0, DISCONTINUOUS",
        "30, 12, DISCONTINUOUS",
        "30, 13, CANNOT_TELL",
        "52, 30, CANNOT_TELL",
        "53, 30, DISCONTINUOUS"
    })
    void clearFineCracklesAreSuggestedOrAtLeastNeverCalledNone(int fine, int coarse, Suggestion suggestion) {
        List<MeasuredSound> sounds = new ArrayList<>(crackles(fine, SoundKind.FINE_CRACKLE));
        sounds.addAll(crackles(coarse, SoundKind.COARSE_CRACKLE));
        Judgement nothing = new Judgement(
                0.01, 0.02, 0.01, false, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        Findings findings = Findings.of(GOOD, nothing, sounds, BreathAgreement.NONE, 15);
        assertThat(findings.suggestion()).isEqualTo(suggestion);
        assertThat(findings.reasons().isEmpty()).isEqualTo(suggestion == Suggestion.NONE_HEARD);
    }

    /** In a recording unlike what was learnt from, that nothing was found is no answer; what is heard or measured is suggested all the same, and the first reason says how the recording sounds. */
    @Test
    void whereTheRecordingIsUnfamiliarNothingIsCalledNone() {
        Judgement nothing = new Judgement(
                0.01, 0.02, 0.01, false, false, false, false, false, List.of(), List.of(), HeardEvents.NONE);
        Findings none = Findings.of(GOOD, nothing, List.of(), BreathAgreement.NONE, 15);
        assertThat(none.suggestion()).isEqualTo(Suggestion.NONE_STANDS_OUT);
        assertThat(none.suggestion().namesSound()).isFalse();
        assertThat(none.reasons()).containsExactly(Findings.UNFAMILIAR);
        Findings measured =
                Findings.of(GOOD, nothing, List.copyOf(crackles(53, SoundKind.FINE_CRACKLE)), BreathAgreement.NONE, 15);
        assertThat(measured.suggestion()).isEqualTo(Suggestion.DISCONTINUOUS);
        assertThat(measured.reasons()).hasSize(2).startsWith(Findings.UNFAMILIAR);
        Judgement wheeze =
                new Judgement(0.9, 0.1, 0.01, true, false, false, false, false, List.of(), List.of(), HeardEvents.NONE);
        Findings heard = Findings.of(GOOD, wheeze, List.of(), BreathAgreement.NONE, 15);
        assertThat(heard.suggestion()).isEqualTo(Suggestion.CONTINUOUS);
        assertThat(heard.reasons()).startsWith(Findings.UNFAMILIAR);
        Judgement unsure =
                new Judgement(0.3, 0.1, 0.01, false, false, false, true, false, List.of(), List.of(), HeardEvents.NONE);
        assertThat(Findings.of(GOOD, unsure, List.of(), BreathAgreement.NONE, 15)
                        .suggestion())
                .isEqualTo(Suggestion.CANNOT_TELL);
    }

    /** That the model finds nothing in a recording unlike what it learnt from reads as reassurance, and is left out, of the other kind beside one that is suggested too; what it finds and what was measured is told. */
    @Test
    void whatTheModelDoesNotFindInAnUnfamiliarRecordingIsNoReason() {
        String nothing =
                "The learnt model finds nothing like crackles in 9 stretches (the nearest is 2 % like it), and none was measured.";
        String something =
                "To the learnt model 1 of 9 stretches sound like a continuous sound (wheeze or rhonchus), most of all 1.0 to 2.5 s (55 % like it); 0 such sounds were measured.";
        List<String> model = List.of(something, nothing);
        Judgement none =
                new Judgement(0.01, 0.02, 0.01, false, false, false, false, false, model, List.of(), HeardEvents.NONE);
        Findings wide = Findings.of(GOOD, none, crackles(15, SoundKind.COARSE_CRACKLE, 20), BreathAgreement.NONE, 15);
        assertThat(wide.suggestion()).isEqualTo(Suggestion.NONE_STANDS_OUT);
        assertThat(wide.reasons())
                .hasSize(3)
                .startsWith(Findings.UNFAMILIAR)
                .endsWith(something)
                .anyMatch(reason -> reason.contains("listen for rattling"));
        Judgement unsure =
                new Judgement(0.3, 0.1, 0.01, false, false, false, true, false, model, List.of(), HeardEvents.NONE);
        assertThat(Findings.of(GOOD, unsure, List.of(), BreathAgreement.NONE, 15)
                        .reasons())
                .containsExactly(Findings.UNFAMILIAR, something);
        Judgement heard =
                new Judgement(0.9, 0.1, 0.01, true, false, false, false, false, model, List.of(), HeardEvents.NONE);
        assertThat(Findings.of(GOOD, heard, List.of(), BreathAgreement.NONE, 15).reasons())
                .containsExactly(Findings.UNFAMILIAR, something);
        Judgement familiar =
                new Judgement(0.01, 0.02, 0.01, false, false, false, false, true, model, List.of(), HeardEvents.NONE);
        assertThat(Findings.of(GOOD, familiar, List.of(), BreathAgreement.NONE, 15)
                        .reasons())
                .containsExactly(something, nothing);
    }

    /** What the model hears is suggested, whatever doubt the crackles leave. */
    @Test
    void doubtTakesNoSuggestionAway() {
        List<MeasuredSound> sounds = new ArrayList<>(crackles(30, SoundKind.FINE_CRACKLE));
        sounds.addAll(crackles(30, SoundKind.COARSE_CRACKLE));
        Judgement wheeze =
                new Judgement(0.9, 0.1, 0.01, true, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        assertThat(Findings.of(GOOD, wheeze, sounds, BreathAgreement.NONE, 15).suggestion())
                .isEqualTo(Suggestion.CONTINUOUS);
    }

    /** Coarse crackles are told of from one a second on, whatever is suggested: usual chests have as many bursts as wide. */
    @ParameterizedTest
    @CsvSource({"14, 20, 0", "15, 20, 1", "15, 19.9, 0"})
    void manyWideBurstsAreToldOfWithoutASuggestion(int coarse, double prominenceDb, int told) {
        Judgement nothing = new Judgement(
                0.01, 0.02, 0.01, false, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        Findings findings = Findings.of(
                GOOD, nothing, crackles(coarse, SoundKind.COARSE_CRACKLE, prominenceDb), BreathAgreement.NONE, 15);
        assertThat(findings.suggestion()).isEqualTo(Suggestion.NONE_HEARD);
        assertThat(findings.reasons())
                .hasSize(told)
                .allSatisfy(reason -> assertThat(reason).contains("listen for rattling"));
    }

    /** Bursts that come back in each breath are never answered "none heard", and suggest crackles where chance can hardly do it; the limits of {@link ClearSounds}, on both sides. */
    @ParameterizedTest
    @CsvSource({"2.49, NONE_HEARD", "2.5, CANNOT_TELL", "3.99, CANNOT_TELL", "4, DISCONTINUOUS"})
    void burstsThatComeBackInEachBreathLeaveDoubt(double deviations, Suggestion suggestion) {
        Judgement nothing = new Judgement(
                0.01, 0.02, 0.01, false, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        BreathAgreement agreement = new BreathAgreement(deviations, List.of(1.25, 4.3, 7.4));
        Findings findings = Findings.of(GOOD, nothing, List.of(), agreement, 15);
        assertThat(findings.suggestion()).isEqualTo(suggestion);
        if (suggestion != Suggestion.NONE_HEARD) {
            assertThat(findings.reasons()).singleElement().asString().contains("near 1.3, 4.3, 7.4 s");
        }
        Judgement crackles =
                new Judgement(0.01, 0.9, 0.01, false, true, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        assertThat(Findings.of(GOOD, crackles, List.of(), agreement, 15).suggestion())
                .isEqualTo(Suggestion.DISCONTINUOUS);
    }

    /** Crackles where bursts came back are shown as evidence, those elsewhere are not. */
    @Test
    void cracklesWhereBurstsSurelyCameBackAreEvidence() {
        Judgement nothing = new Judgement(
                0.01, 0.02, 0.01, false, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        List<MeasuredSound> sounds = List.of(
                new Crackle(SoundKind.COARSE_CRACKLE, 0.5, 0.51, 0.8, 8, 1.2, 15),
                new Crackle(SoundKind.COARSE_CRACKLE, 1.3, 1.31, 0.8, 8, 1.2, 15),
                new Crackle(SoundKind.COARSE_CRACKLE, 4.2, 4.21, 0.8, 8, 1.2, 15));
        List<Double> places = List.of(1.25, 4.3);
        Findings sure = Findings.of(GOOD, nothing, sounds, new BreathAgreement(4, places), 15);
        assertThat(sure.evidence()).containsExactly(sounds.get(1), sounds.get(2));
        assertThat(Findings.of(GOOD, nothing, sounds, new BreathAgreement(3.9, places), 15)
                        .evidence())
                .isEmpty();
        assertThat(Findings.of(CLIPPED, nothing, sounds, new BreathAgreement(4, places), 15)
                        .suggestion())
                .isEqualTo(Suggestion.CANNOT_TELL);
    }

    /** Samples that are cut off in the loud part of each breath are bursts too, and come back with it: they leave doubt, and suggest nothing. */
    @Test
    void burstsOfAnOverdrivenRecordingSuggestNothing() {
        Judgement nothing = new Judgement(
                0.01, 0.02, 0.01, false, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        Quality overdriven =
                new Quality(true, List.of(new Quality.Finding(QualityIssue.CLIPPED, false, "1 % of samples")));
        Findings findings = Findings.of(overdriven, nothing, List.of(), new BreathAgreement(6, List.of(1.25, 4.3)), 15);
        assertThat(findings.suggestion()).isEqualTo(Suggestion.CANNOT_TELL);
        assertThat(findings.evidence()).isEmpty();
    }

    private static final HeardEvent TONE = new HeardEvent(1, 2, true, 0.4);
    private static final HeardEvent CRACKLES = new HeardEvent(1.5, 2.5, false, 0.9);

    private static Findings findings(
            Quality quality, Judgement judgement, List<HeardEvent> events, List<MeasuredSound> sounds) {
        Judgement with = new Judgement(
                judgement.continuous(),
                judgement.discontinuous(),
                judgement.poorQuality(),
                judgement.heardContinuous(),
                judgement.heardDiscontinuous(),
                judgement.poor(),
                judgement.cannotTell(),
                judgement.familiar(),
                judgement.reasons(),
                judgement.segments(),
                new HeardEvents(events, List.of()));
        return Findings.of(quality, with, sounds, BreathAgreement.NONE, 15);
    }

    /** A sound that the suggestion does not name would contradict it: "none heard" beside a list of sounds (common practice). */
    @ParameterizedTest
    @CsvSource({
        "true, false, true, CONTINUOUS, 1, 0",
        "false, true, true, DISCONTINUOUS, 0, 1",
        "true, true, true, BOTH, 1, 1",
        "false, false, true, NONE_HEARD, 0, 0",
        "false, false, false, NONE_STANDS_OUT, 0, 0"
    })
    void singleSoundsAreThoseThatTheSuggestionNames(
            boolean continuous, boolean discontinuous, boolean familiar, Suggestion suggestion, int tones, int bursts) {
        Judgement judgement = new Judgement(
                0.5,
                0.5,
                0.01,
                continuous,
                discontinuous,
                false,
                false,
                familiar,
                List.of(),
                List.of(),
                HeardEvents.NONE);
        Findings findings = findings(GOOD, judgement, List.of(TONE, CRACKLES), List.of());
        assertThat(findings.suggestion()).isEqualTo(suggestion);
        List<HeardEvent> expected = new ArrayList<>();
        if (tones == 1) {
            expected.add(TONE);
        }
        if (bursts == 1) {
            expected.add(CRACKLES);
        }
        assertThat(findings.events()).isEqualTo(expected);
    }

    /** One that is probable only against the others of its recording stands beside a suggestion of its kind, and nowhere else. */
    @ParameterizedTest
    @CsvSource({"true, false, false, 1", "false, true, false, 0", "false, false, true, 0", "false, false, false, 0"})
    void likelySoundsStandBesideASuggestionOfTheirKindOnly(
            boolean continuous, boolean discontinuous, boolean unsure, int told) {
        Judgement judgement = new Judgement(
                0.5,
                0.5,
                0.01,
                continuous,
                discontinuous,
                false,
                unsure,
                true,
                List.of(),
                List.of(),
                new HeardEvents(List.of(CRACKLES), List.of(TONE)));
        List<HeardEvent> events = Findings.of(GOOD, judgement, List.of(), BreathAgreement.NONE, 15)
                .events();
        assertThat(events.contains(TONE)).isEqualTo(told == 1);
        assertThat(events.contains(CRACKLES)).isEqualTo(discontinuous || unsure);
    }

    /** What was measured is named too, though the model by itself says nothing of it. */
    @Test
    void singleSoundsStandBesideASuggestionThatGoesByWhatWasMeasured() {
        Judgement nothing = new Judgement(
                0.01, 0.02, 0.01, false, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        List<MeasuredSound> fine = List.copyOf(crackles(53, SoundKind.FINE_CRACKLE));
        Findings findings = findings(GOOD, nothing, List.of(TONE, CRACKLES), fine);
        assertThat(findings.suggestion()).isEqualTo(Suggestion.DISCONTINUOUS);
        assertThat(findings.events()).containsExactly(CRACKLES);
    }

    /** Whoever cannot be told hears where to listen, but not in a recording in which anything may sound like anything: too poor, by what was measured or learnt, or too noisy. Gaps and quiet hide sounds, and make none. */
    @ParameterizedTest
    @CsvSource({
        ", true, false, true",
        "TOO_QUIET, true, false, true",
        "DROPOUTS, true, false, true",
        "NOISY, true, false, false",
        "CLIPPED, false, false, false",
        ", true, true, false"
    })
    void whereItCannotTellAllSingleSoundsAreToldUnlessTheRecordingIsPoorOrNoisy(
            QualityIssue issue, boolean usable, boolean poor, boolean told) {
        Quality quality = new Quality(
                usable,
                Stream.ofNullable(issue)
                        .map(i -> new Quality.Finding(i, !usable, ""))
                        .toList());
        // Sounds that the model would name are no exception: a poor recording has none that count.
        Judgement judgement =
                new Judgement(0.4, 0.4, 0.2, poor, false, poor, true, true, List.of(), List.of(), HeardEvents.NONE);
        Findings findings = findings(quality, judgement, List.of(TONE, CRACKLES), List.of());
        assertThat(findings.suggestion()).isEqualTo(Suggestion.CANNOT_TELL);
        assertThat(findings.events()).isEqualTo(told ? List.of(TONE, CRACKLES) : List.of());
    }

    /** A model finds sounds by frames, the last of which may reach over the recording's end. */
    @Test
    void singleSoundsEndWithTheRecording() {
        Judgement both =
                new Judgement(0.9, 0.9, 0.01, true, true, false, false, true, List.of(), List.of(), HeardEvents.NONE);
        List<HeardEvent> events = List.of(
                new HeardEvent(13, 15, true, 0.5),
                new HeardEvent(14, 15.08, false, 0.6),
                new HeardEvent(14.99, 16, true, 0.7),
                new HeardEvent(15, 15.5, true, 0.8),
                new HeardEvent(15.02, 15.1, false, 0.9));
        assertThat(findings(GOOD, both, events, List.of()).events())
                .containsExactly(
                        new HeardEvent(13, 15, true, 0.5),
                        new HeardEvent(14, 15, false, 0.6),
                        new HeardEvent(14.99, 15, true, 0.7));
    }

    private static ContinuousSound tone(double startSeconds, double seconds, double prominenceDb) {
        return new ContinuousSound(
                SoundKind.WHEEZE, startSeconds, startSeconds + seconds, List.of(), 400, 0, false, 0.9, prominenceDb);
    }

    /** Nothing suggested, with one window over the first two seconds. */
    private static Judgement nothing(boolean familiar, double continuousInWindow) {
        return new Judgement(
                0.05,
                0.02,
                0.01,
                false,
                false,
                false,
                false,
                familiar,
                List.of(),
                List.of(new Judgement.JudgedSegment(0, 2, continuousInWindow, 0.01)),
                HeardEvents.NONE);
    }

    /** One in three of the recordings in which both agree holds a sound, one in fourteen of the others (SPRSound's training set, by folds). */
    @ParameterizedTest
    @CsvSource({
        "true, 0.29, 9, NONE_HEARD",
        "true, 0.30, 9, CANNOT_TELL",
        "false, 0.29, 9, NONE_STANDS_OUT",
        "false, 0.30, 9, CANNOT_TELL",
        "true, 0.30, 0, NONE_HEARD"
    })
    void whereTheModelAndWhatWasMeasuredAgreeOnASoundNoneIsNoAnswer(
            boolean familiar, double inWindow, double prominenceDb, Suggestion suggestion) {
        List<MeasuredSound> sounds = prominenceDb == 0 ? List.of() : List.of(tone(0.5, 0.4, prominenceDb));

        Findings findings = Findings.of(GOOD, nothing(familiar, inWindow), sounds, BreathAgreement.NONE, 15);

        assertThat(findings.suggestion()).isEqualTo(suggestion);
        boolean agree = suggestion == Suggestion.CANNOT_TELL;
        assertThat(findings.evidence()).hasSize(agree ? 1 : 0);
        assertThat(findings.reasons().contains(ClearSounds.MEASURED_AND_HEARD)).isEqualTo(agree);
        assertThat(ClearSounds.leftToTheListener(ClearSounds.MEASURED_AND_HEARD))
                .isTrue();
    }

    /** What is told to listen to first, and what was measured there, belong together. */
    @Test
    void whatWasMeasuredInASingleSoundThatIsNamedIsEvidence() {
        ContinuousSound inside = tone(1.2, 0.4, 9);
        ContinuousSound outside = tone(5, 0.4, 9);
        List<MeasuredSound> sounds =
                List.of(inside, outside, crackles(1, SoundKind.FINE_CRACKLE).get(0));
        Judgement wheeze =
                new Judgement(0.9, 0.1, 0.01, true, false, false, false, true, List.of(), List.of(), HeardEvents.NONE);

        assertThat(findings(GOOD, wheeze, List.of(TONE), sounds).evidence()).containsExactly(inside);
        assertThat(findings(GOOD, wheeze, List.of(), sounds).evidence()).isEmpty();
        assertThat(findings(GOOD, nothing(true, 0.01), List.of(TONE), sounds).evidence())
                .isEmpty();
    }

    /** One clear tone is left to the listener where the model says least: through another device, and in hardly a whole breath. */
    @ParameterizedTest
    @CsvSource({
        "false, false, 15, 0.25, true",
        "false, false, 14.9, 0.25, false",
        "false, false, 15, 0.24, false",
        "true, false, 15, 0.25, false",
        "true, true, 15, 0.25, true"
    })
    void oneClearToneIsToldWhereNoneSaysLittle(
            boolean familiar, boolean few, double prominenceDb, double seconds, boolean told) {
        Quality quality = few
                ? new Quality(true, List.of(new Quality.Finding(QualityIssue.TOO_FEW_BREATHS, false, "1 whole")))
                : GOOD;

        Findings findings = Findings.of(
                quality, nothing(familiar, 0.01), List.of(tone(0.5, seconds, prominenceDb)), BreathAgreement.NONE, 15);

        assertThat(findings.suggestion().namesNone()).isTrue();
        List<String> left = findings.reasons().stream()
                .filter(ClearSounds::leftToTheListener)
                .toList();
        assertThat(left).hasSize(told ? 1 : 0);
        assertThat(left).allMatch(reason -> reason.contains("(0.5 to 0.8 s)") && reason.contains("listen there again"));
    }

    private static List<MeasuredSound> crackles(int n, SoundKind kind, double prominenceDb) {
        return crackles(n, kind).stream()
                .<MeasuredSound>map(c -> new Crackle(kind, c.startSeconds(), c.endSeconds(), 0.8, 8, 1.2, prominenceDb))
                .toList();
    }

    private static List<Crackle> crackles(int n, SoundKind kind) {
        return IntStream.range(0, n)
                .mapToObj(i -> new Crackle(kind, 0.2 * i, 0.2 * i + 0.008, 0.8, 8, 1.2, 15))
                .toList();
    }

    private static Findings findings(Quality quality, boolean poor) {
        Judgement judgement =
                new Judgement(0.9, 0.1, 0.62, true, false, poor, poor, true, List.of(), List.of(), HeardEvents.NONE);
        return Findings.of(quality, judgement, List.of(), BreathAgreement.NONE, 15);
    }
}
