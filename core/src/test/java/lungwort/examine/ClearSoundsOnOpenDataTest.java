package lungwort.examine;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.ArrayList;
import java.util.List;
import java.util.function.Predicate;
import lungwort.audio.RecordingReader;
import lungwort.breath.BreathTracker;
import lungwort.dataset.AnnotatedRecording;
import lungwort.dataset.DatabaseKind;
import lungwort.dataset.OpenData;
import lungwort.dataset.RecordingLabel;
import lungwort.signal.ChestViews;
import lungwort.sound.BreathAgreement;
import lungwort.sound.SoundSearch;
import org.junit.jupiter.api.Assumptions;
import org.junit.jupiter.api.Test;

/**
 * How often SPRSound's training recordings hold sounds as clear as {@link ClearSounds} asks: the shares that stand beside its limits. They were chosen on these recordings, so this tells what they do there
 * and nothing of other devices. It takes some minutes, so it is run by {@code -Dlungwort.measure=true} only.
 */
class ClearSoundsOnOpenDataTest {
    private record Measured(RecordingLabel label, ClearSounds clear, double fine, double share) {
        boolean normal() {
            return label == RecordingLabel.NORMAL;
        }

        boolean poor() {
            return label == RecordingLabel.POOR_QUALITY;
        }

        boolean discontinuous() {
            return label == RecordingLabel.DAS || label == RecordingLabel.CAS_AND_DAS;
        }

        boolean continuous() {
            return label == RecordingLabel.CAS || label == RecordingLabel.CAS_AND_DAS;
        }
    }

    private static void onlyIfAskedFor() {
        String skipped = "skipped: measuring all recordings takes minutes; ask for it by -Dlungwort.measure=true";
        if (!Boolean.getBoolean("lungwort.measure")) {
            System.out.println(skipped);
        }
        Assumptions.assumeTrue(Boolean.getBoolean("lungwort.measure"), skipped);
    }

    /** Adults and other devices: crackles as the listeners of ICBHI's recordings marked breath by breath. */
    @Test
    void burstsComeBackThroughOtherDevicesWhereCracklesAreMarked() {
        onlyIfAskedFor();
        int[][] reached = new int[3][2];
        int[] of = new int[3];
        for (AnnotatedRecording r : OpenData.open(DatabaseKind.ICBHI).withAudio("train")) {
            var sound = RecordingReader.read(r.audio());
            double deviations = BreathAgreement.of(
                            SoundSearch.in(ChestViews.of(sound)).bursts(), BreathTracker.track(sound))
                    .deviations();
            long marked =
                    r.events().stream().filter(e -> e.label().discontinuous()).count();
            int group = marked == 0 ? 0 : 2 * marked < r.events().size() ? 1 : 2;
            of[group]++;
            reached[group][0] += deviations >= ClearSounds.RETURNING_DEVIATIONS ? 1 : 0;
            reached[group][1] += deviations >= ClearSounds.SURELY_RETURNING_DEVIATIONS ? 1 : 0;
        }
        String[] names = {"no breath", "some breaths", "half of the breaths or more"};
        for (int g = 0; g < names.length; g++) {
            System.out.printf(
                    "ICBHI, crackles marked in %s: bursts come back in %d of %d, surely in %d%n",
                    names[g], reached[g][0], of[g], reached[g][1]);
        }
        assertThat((double) reached[2][1] / of[2]).isGreaterThan((double) reached[0][1] / of[0]);
    }

    @Test
    void clearSoundsAreRareWhereListenersHeardNone() {
        onlyIfAskedFor();
        List<Measured> all = measured();
        List<Measured> judged = all.stream().filter(m -> !m.poor()).toList();
        System.out.printf("%d recordings that listeners judged%n", judged.size());
        System.out.printf(
                "two clear tones: %.1f %% of those without a continuous sound, %.0f %% of those with one%n",
                percent(judged, m -> !m.continuous(), m -> m.clear().continuous()),
                percent(judged, Measured::continuous, m -> m.clear().continuous()));
        tell(judged, "some fine crackles (2 a second)", m -> m.fine() >= ClearSounds.SOME_CRACKLES_PER_SECOND);
        tell(judged, "many fine crackles (3.5 a second)", m -> m.fine() >= ClearSounds.MANY_CRACKLES_PER_SECOND);
        tell(judged, "some, seven in ten of them fine", ClearSoundsOnOpenDataTest::mostlyFine);
        tell(judged, "suggested by crackles", m -> m.clear().discontinuous());
        tell(judged, "many wide bursts", m -> m.clear().wide());
        tell(judged, "bursts come back", m -> !m.clear().returning().isEmpty());
        tell(
                judged,
                "bursts come back so that crackles are suggested",
                m -> m.clear().sure());
        System.out.printf(
                "bursts come back in %.0f %% of those with crackles%n",
                percent(
                        judged,
                        Measured::discontinuous,
                        m -> !m.clear().returning().isEmpty()));
        assertThat(percent(judged, Measured::normal, m -> m.clear().discontinuous()))
                .isLessThan(4);
        assertThat(percent(judged, m -> !m.continuous(), m -> m.clear().continuous()))
                .isLessThan(3);
    }

    private static boolean mostlyFine(Measured m) {
        return m.fine() >= ClearSounds.SOME_CRACKLES_PER_SECOND && m.share() >= ClearSounds.FINE_SHARE;
    }

    private static void tell(List<Measured> judged, String what, Predicate<Measured> has) {
        System.out.printf(
                "%s: %.1f %% of the normal ones; %.0f %% of those that have them hold an extra sound%n",
                what, percent(judged, Measured::normal, has), percent(judged, has, m -> !m.normal()));
    }

    private static double percent(List<Measured> all, Predicate<Measured> of, Predicate<Measured> has) {
        List<Measured> chosen = all.stream().filter(of).toList();
        return 100.0 * chosen.stream().filter(has).count() / chosen.size();
    }

    private static List<Measured> measured() {
        List<Measured> all = new ArrayList<>();
        List<AnnotatedRecording> recordings =
                OpenData.open(DatabaseKind.SPRSOUND).withAudio("train");
        for (AnnotatedRecording recording : recordings) {
            var sound = RecordingReader.read(recording.audio());
            var search = SoundSearch.in(ChestViews.of(sound));
            var sounds = search.sounds();
            var agreement = BreathAgreement.of(search.bursts(), BreathTracker.track(sound));
            long fine = sounds.stream().filter(ClearSounds::clearCrackle).count();
            long coarse = sounds.stream().filter(ClearSounds::clearCoarse).count();
            double seconds = Math.max(1, sound.durationSeconds());
            all.add(new Measured(
                    recording.label(),
                    ClearSounds.in(sounds, agreement, sound.durationSeconds(), false),
                    fine / seconds,
                    fine / (double) Math.max(1, fine + coarse)));
        }
        return all;
    }
}
