package lungwort.guidance;

import static org.assertj.core.api.Assertions.assertThat;

import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.function.Supplier;
import lungwort.BadInput;
import lungwort.audio.Recording;
import lungwort.audio.RecordingReader;
import lungwort.audio.WavWriter;
import lungwort.practice.PracticeScenes;
import lungwort.quality.QualityCheck;
import lungwort.quality.QualityMeasures;
import org.junit.jupiter.api.parallel.ResourceLock;
import org.junit.jupiter.api.parallel.Resources;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

/**
 * The computer's own language changes nothing: decimal commas (German), digits of their own (Arabic, Persian, Hindi) and an i without a dot (Turkish) are for texts in
 * those languages, and ids, names of measures and stored sentences are none.
 */
class LanguagesTest {
    private static final Recording CHEST =
            PracticeScenes.of("usual").scene().synthesise().recording();

    @ParameterizedTest
    @ValueSource(strings = {"de-DE", "tr-TR", "ar-EG-u-nu-arab", "fa-IR-u-nu-arabext", "hi-IN-u-nu-deva"})
    @ResourceLock(Resources.LOCALE)
    void everythingSaidIsTheSame(String language) {
        List<String> plain = in(Locale.ROOT, LanguagesTest::said);
        List<String> there = in(Locale.forLanguageTag(language), LanguagesTest::said);
        assertThat(there).isEqualTo(plain);
        assertThat(plain).anyMatch(s -> s.matches(".*[0-9]\\.[0-9].*"));
    }

    private static <T> T in(Locale locale, Supplier<T> work) {
        Locale before = Locale.getDefault();
        Locale.setDefault(locale);
        try {
            return work.get();
        } finally {
            Locale.setDefault(before);
        }
    }

    private static List<String> said() {
        List<String> said = new ArrayList<>(QualityMeasures.relativeNames());
        RuleBook book = RuleBook.shipped();
        book.rules().forEach(rule -> said.add(rule.id() + ": " + rule.text()));
        Situation situation = Baseline.of(Age.ofYears(40))
                .with(Vitals.NONE.withSpo2(91))
                .withUsualSpo2(new UsualSpo2(96, "of 5 days"));
        Guidance.decide(situation).reasons().forEach(reason -> said.add(reason.text() + reason.limit()));
        Guidance.limits(situation).forEach(limit -> said.add(limit.words()));
        Situation weighed = Baseline.of(Age.ofYears(78))
                .with(Conditions.of(Condition.HEART_FAILURE))
                .with(Vitals.NONE.withWeight(72.4))
                .with(EarlierDays.NONE.withWeights(List.of(
                        new EarlierWeight(LocalDate.of(2026, 3, 2), 2, 70),
                        new EarlierWeight(LocalDate.of(2026, 3, 3), 1, 90))));
        NextStep risen = Guidance.decide(weighed);
        risen.reasons().forEach(reason -> said.add(reason.text() + reason.limit()));
        said.addAll(Guidance.decide(weighed.with(Vitals.NONE)).wouldChange());
        Situation oxygen = Baseline.of(Age.ofYears(40))
                .with(Vitals.NONE.withSpo2(91).withOnOxygen(true).withOxygenFlow(2.5))
                .with(EarlierDays.of(new UsualSpo2(96, "of 5 days"))
                        .withUsualFlow(new UsualFlow(1.5, 93, "of 5 days")));
        Guidance.decide(oxygen).reasons().forEach(reason -> said.add(reason.text() + reason.limit()));
        said.addAll(Guidance.decide(oxygen).wouldChange());
        byte[] wav = WavWriter.toBytes(CHEST, WavWriter.Encoding.PCM_16);
        said.addAll(RecordingReader.read(java.util.Arrays.copyOf(wav, wav.length / 2), "cut.wav")
                .source()
                .remarks());
        QualityCheck.check(CHEST.slice(0, 1.5)).findings().forEach(finding -> said.add(finding.detail()));
        said.add(refusal(() -> new Recording(new double[] {0, Double.NaN}, 8_000, "bad")));
        said.add(refusal(() -> new Recording(new double[2], 12, "slow")));
        return said;
    }

    private static String refusal(Supplier<Recording> making) {
        try {
            return making.get().origin();
        } catch (BadInput e) {
            return String.valueOf(e.getMessage());
        }
    }
}
