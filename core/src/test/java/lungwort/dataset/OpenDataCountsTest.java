package lungwort.dataset;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumMap;
import java.util.EnumSet;
import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** Counts of the real downloads. Sources: SPRSound, Zhang et al., IEEE TBioCAS 2022; ICBHI 2017, Rocha et al., Physiol Meas 2019. */
class OpenDataCountsTest {
    @Test
    void sprsoundTrainingSetHolds1949RecordingsOf251ChildrenAnd6656Events() {
        List<AnnotatedRecording> train = OpenData.open(DatabaseKind.SPRSOUND).recordings("train");
        assertThat(train).hasSize(1949);
        assertThat(Database.patients(train)).hasSize(251);
        assertThat(Database.events(train)).isEqualTo(6656);
    }

    @Test
    void sprsoundTrainingSetHas177RecordingsOfPoorQualityAndTheyAreThoseWithoutEvent() {
        List<AnnotatedRecording> train = OpenData.open(DatabaseKind.SPRSOUND).recordings("train");
        assertThat(train.stream().filter(r -> r.label() == RecordingLabel.POOR_QUALITY))
                .hasSize(177)
                .allMatch(r -> r.events().isEmpty());
        assertThat(train.stream().filter(r -> r.events().isEmpty())).hasSize(177);
    }

    @Test
    void icbhiHolds6898CyclesOfFourClasses() {
        Database icbhi = OpenData.open(DatabaseKind.ICBHI);
        Map<CycleClass, Integer> cycles = new EnumMap<>(CycleClass.class);
        icbhi.recordings("all")
                .forEach(r -> r.events().forEach(e -> cycles.merge(CycleClass.of(e.label()), 1, Integer::sum)));
        assertThat(cycles)
                .containsExactlyInAnyOrderEntriesOf(Map.of(
                        CycleClass.NORMAL,
                        3642,
                        CycleClass.CRACKLE,
                        1864,
                        CycleClass.WHEEZE,
                        886,
                        CycleClass.BOTH,
                        506));
        assertThat(icbhi.recordings("all")).hasSize(920);
        assertThat(icbhi.recordings("train")).hasSize(539);
        assertThat(icbhi.recordings("test")).hasSize(381);
    }

    @Test
    void icbhiPatients156And218StandOnBothSides() {
        Database icbhi = OpenData.open(DatabaseKind.ICBHI);
        assertThat(Database.patients(icbhi.recordings("train")))
                .filteredOn(Database.patients(icbhi.recordings("test"))::contains)
                .containsExactly("156", "218");
        assertThat(icbhi.warnings()).anyMatch(w -> w.contains("156, 218 stand on both sides"));
    }

    @Test
    void icbhiRecordingWithAnotherDeviceInTheSplitIsStillPlaced() {
        Database icbhi = OpenData.open(DatabaseKind.ICBHI);
        assertThat(icbhi.recordings(EnumSet.of(Split.TRAIN)))
                .extracting(AnnotatedRecording::id)
                .contains("226_1b1_Pl_sc_LittC2SE");
    }

    @Test
    void sprsoundReadsWithoutAWarning() {
        Database sprsound = OpenData.open(DatabaseKind.SPRSOUND);
        assertThat(DatabaseCounts.of(sprsound.kind(), sprsound.recordings())).allMatch(DatabaseCounts::agrees);
        assertThat(sprsound.warnings()).isEmpty();
    }
}
