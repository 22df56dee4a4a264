package lungwort.round;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;
import static org.assertj.core.api.Assertions.within;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Clock;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Objects;
import java.util.UUID;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.stream.Stream;
import lungwort.BadInput;
import lungwort.compare.Measure;
import lungwort.compare.Relation;
import lungwort.diary.Day;
import lungwort.diary.Diary;
import lungwort.diary.Examples;
import lungwort.diary.NewTake;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.diary.Trend;
import lungwort.examine.Suggestion;
import lungwort.guidance.Age;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.DangerAnswers;
import lungwort.guidance.Guidance;
import lungwort.guidance.Outcome;
import lungwort.guidance.RateSource;
import lungwort.guidance.Site;
import lungwort.guidance.Sites;
import lungwort.guidance.SoundFinding.Clearing;
import lungwort.guidance.TakeReason;
import lungwort.guidance.UsualSpo2;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;

class RoundServiceTest {
    private static final Site LEFT = Sites.of("back-lower-left");
    private static final Site RIGHT = Sites.of("back-lower-right");

    @TempDir
    Path temp;

    private final Examples.MovingClock clock = new Examples.MovingClock();
    private Diary diary;
    private RoundService service;
    private Person person;
    private Round round;

    @BeforeEach
    void startARound() {
        diary = Diary.open(temp.resolve("diary"), clock);
        service = Examples.service(diary);
        person = Examples.person(diary, "Mia");
        round = service.start(person);
    }

    @AfterEach
    void close() {
        diary.close();
    }

    private Take add(Site site, TakeReason reason, String sound) {
        return service.add(new NewTake(round.id(), site, reason, "take.wav"), sound.getBytes(StandardCharsets.UTF_8));
    }

    private static Trend.Usual usual(
            double median, double lowest, double highest, int days, String first, String last) {
        return new Trend.Usual(median, lowest, highest, days, true, LocalDate.parse(first), LocalDate.parse(last));
    }

    private RoundView view() {
        return service.view(round.id());
    }

    @Test
    void aNewRoundAsksForTheFirstSiteWithPostureAndPlacement() {
        Asked asked = view().asked();

        assertThat(asked).isNotNull().extracting(Asked::site, Asked::reason).containsExactly(LEFT, TakeReason.FIRST);
        assertThat(asked).extracting(Asked::instructions).asList().contains(Sites.placement(LEFT));
        assertThat(view().sitesOpen()).isEqualTo(Sites.round(Age.ofMonths(59)));
    }

    @Test
    void withoutAnyAnswerAllDangerSignsAreOpenAndTheStepIsNotKeepWatching() {
        assertThat(view().dangerSignsOpen()).isEqualTo(Guidance.dangerSigns(person.age(round.day())));
        assertThat(view().nextStep().outcome()).isNotEqualTo(Outcome.KEEP_WATCHING);
    }

    @Test
    void aDangerSignIsAnEmergencyWithoutAnyRecording() {
        RoundView view = service.change(round.id(), now -> now.with(DangerAnswers.yes("blue")));

        assertThat(view.nextStep().outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
    }

    /** Common practice [C]: help is called whether or not anything can be written down. */
    @Test
    void anEmergencyIsToldWhereItCannotBeStored() {
        BadInput full = new BadInput("The disk is full; nothing stored was changed.");
        AtomicInteger calls = new AtomicInteger();

        assertThatThrownBy(() -> service.change(round.id(), now -> {
                    if (calls.getAndIncrement() > 0) {
                        throw full;
                    }
                    return now.with(DangerAnswers.yes("blue"));
                }))
                .isInstanceOf(BadInput.class)
                .hasMessageStartingWith("EMERGENCY: Call your local emergency number now.")
                .hasMessageEndingWith("The disk is full; nothing stored was changed.");
        assertThat(diary.rounds().get(round.id())).isEqualTo(round);

        Round calm = round.with(DangerAnswers.noneOf(person.age(round.day())));
        assertThatThrownBy(() -> service.storing(person, calm, () -> {
                    throw full;
                }))
                .isSameAs(full);
    }

    @Test
    void afterAnExtraSoundTheTradesNextTakesAreAskedForInTheirOrder() {
        add(LEFT, TakeReason.FIRST, "wheezes 2");
        assertThat(view().asked()).extracting(Asked::site, Asked::reason).containsExactly(LEFT, TakeReason.MOVED);

        add(LEFT, TakeReason.MOVED, "wheezes 2");
        assertThat(view().asked()).extracting(Asked::reason).isEqualTo(TakeReason.AFTER_DEEP_BREATHS);

        add(LEFT, TakeReason.AFTER_DEEP_BREATHS, "wheezes 1");
        assertThat(view().asked()).extracting(Asked::reason).isEqualTo(TakeReason.AFTER_COUGH);

        add(LEFT, TakeReason.AFTER_COUGH, "wheezes 1");
        assertThat(view().asked()).extracting(Asked::site, Asked::reason).containsExactly(RIGHT, TakeReason.FIRST);
        assertThat(view().at(LEFT).orElseThrow().finding())
                .extracting(f -> f.clearing())
                .isEqualTo(Clearing.PERSISTS);
    }

    @Test
    void whetherItClearedIsSaidWithTheNumbersBeforeAndAfter() {
        add(LEFT, TakeReason.FIRST, "wheezes 4 crackles 6");
        add(LEFT, TakeReason.AFTER_COUGH, "wheezes 0 crackles 0");

        BeforeAfter change = view().at(LEFT).orElseThrow().changes().get(0);

        assertThat(change.cleared()).isTrue();
        // Wheezes of 0.5 s begin at 1, 2, 3 and 4 s; the breaths last from 1 to 9 s: 2 s of 8 s. Six crackles in two
        // breaths: 3 each.
        assertThat(change.measuresBefore().wheezeShare()).isCloseTo(0.25, within(1e-12));
        assertThat(change.measuresBefore().cracklesPerBreath()).isEqualTo(3.0);
        assertThat(change.words())
                .isEqualTo(
                        "After a cough: The continuous sound cleared: no longer suggested. That it was heard stays written down. Share of the breathing it fills: 25.0 % before, 0.0 % after. The crackles cleared: no longer suggested. That it was heard stays written down. Crackles in each breath: 3.0 before, 0.0 after.");
        assertThat(view().at(LEFT).orElseThrow().finding())
                .extracting(f -> f.clearing())
                .isEqualTo(Clearing.CLEARED);
    }

    /** Elsewhere is not the same place: only a take at the place itself can show that a sound cleared (common practice [C]). */
    @Test
    void whatIsNotHeardBesideThePlaceIsNotCalledCleared() {
        add(LEFT, TakeReason.FIRST, "wheezes 4");
        add(LEFT, TakeReason.MOVED, "wheezes 0");

        assertThat(view().at(LEFT).orElseThrow().changes().get(0).words())
                .isEqualTo("A finger's width away: The continuous sound is not suggested there."
                        + " That does not mean that it cleared, and that it was heard stays written down."
                        + " Share of the breathing it fills: 25.0 % before, 0.0 % after.");
    }

    /** A take unlike what was learnt from clears nothing: the next takes go on, and the round says why. */
    @Test
    void whatDoesNotStandOutInALaterTakeIsNotCalledCleared() {
        add(LEFT, TakeReason.FIRST, "crackles 6");
        add(LEFT, TakeReason.MOVED, "unfamiliar");
        add(LEFT, TakeReason.AFTER_DEEP_BREATHS, "unfamiliar");
        assertThat(view().asked()).extracting(Asked::site, Asked::reason).containsExactly(LEFT, TakeReason.AFTER_COUGH);

        add(LEFT, TakeReason.AFTER_COUGH, "unfamiliar");
        assertThat(view().asked()).extracting(Asked::site).isEqualTo(RIGHT);
        assertThat(view().at(LEFT).orElseThrow().finding())
                .extracting(f -> f.clearing())
                .isEqualTo(Clearing.PERSISTS);
        assertThat(view().at(LEFT).orElseThrow().changes()).hasSize(3).allSatisfy(change -> {
            assertThat(change.cleared()).isFalse();
            assertThat(change.words()).contains("does not show that they cleared");
        });
    }

    /** A recording with a flaw is not called good enough, and is made again once before the person is asked to cough (common practice). */
    @Test
    void whatLeavesItOpenIsSaidBesideTheTakeThatIsAskedFor() {
        add(LEFT, TakeReason.FIRST, "unsure");
        add(RIGHT, TakeReason.FIRST, "soft");

        Asked soft = java.util.Objects.requireNonNull(view().asked());
        assertThat(soft.site()).isEqualTo(RIGHT);
        assertThat(soft.reason()).isEqualTo(TakeReason.FIRST);
        assertThat(soft.because())
                .isEqualTo(
                        "A take at this site cannot tell whether an extra sound is there. Mend what is named, then listen again.");
        assertThat(soft.instructions()).anyMatch(i -> i.contains("Press the stethoscope flat"));

        add(RIGHT, TakeReason.FIRST, "soft");
        assertThat(view().asked())
                .extracting(Asked::site, Asked::reason)
                .containsExactly(RIGHT, TakeReason.AFTER_COUGH);

        add(RIGHT, TakeReason.AFTER_COUGH, "wheezes 0");
        Asked unsure = java.util.Objects.requireNonNull(view().asked());
        assertThat(unsure.site()).isEqualTo(LEFT);
        assertThat(unsure.because()).startsWith("A take at this site was good enough, and cannot tell");
    }

    @Test
    void howFarEachMeasureDiffersWithNothingChangedIsSaid() {
        // From the shipped study (compare/repeatability.json): 7.314 %, 7.667 a breath, 20.063 a minute.
        assertThat(Noise.words(Trend.Measure.WHEEZE_SHARE))
                .isEqualTo("By chance two takes at one place can differ by 7 %.");
        assertThat(Noise.words(Trend.Measure.CRACKLES_PER_BREATH)).contains("differ by 7.7");
        assertThat(Noise.words(Trend.Measure.RATE))
                .contains("counts can differ by 2,")
                .contains("by 20.");
        assertThat(Noise.words(Trend.Measure.SPO2)).contains("by 2 %");
    }

    @Test
    void aTakeThatCannotBeJudgedIsAskedForAgainWithWhatToMend() {
        add(LEFT, TakeReason.FIRST, "unusable");

        assertThat(view().asked()).extracting(Asked::site, Asked::reason).containsExactly(LEFT, TakeReason.FIRST);
        assertThat(view().asked())
                .extracting(Asked::instructions)
                .asList()
                .anyMatch(i -> i.toString().contains("quiet room"));
        assertThat(view().sitesOpen()).contains(LEFT);
    }

    @Test
    void afterATonePeopleAreAskedToBeQuietBeforeTheNextTake() {
        add(LEFT, TakeReason.FIRST, "wheezes 2");

        assertThat(view().asked())
                .extracting(Asked::reason, Asked::instructions)
                .containsExactly(
                        TakeReason.MOVED,
                        List.of(TakeReason.keepVoicesOut(view().age()), TakeReason.MOVED.instruction(view().age())));
    }

    @Test
    void leftIsPutBesideRight() {
        add(LEFT, TakeReason.FIRST, "wheezes 2");
        add(RIGHT, TakeReason.FIRST, "wheezes 0");

        SidePair pair = view().sides().get(0);

        assertThat(pair.measuresLeft().wheezeShare()).isCloseTo(0.125, within(1e-12));
        assertThat(pair.measuresRight().wheezeShare()).isZero();
        assertThat(pair.words())
                .isEqualTo(
                        "Back, lower: left wheeze share 13 %, 0.0 crackles a breath, 400 Hz; right wheeze share 0 %, 0.0 crackles a breath. In 95 of 100 usual chests of children the sides differ by no more than 5 % and 4.8 crackles a breath.");
    }

    /** None heard in one take hides no sound of another, whichever came first: the side of the wheeze is the side of the wheeze. */
    @Test
    void aSoundThatAnyTakeOnASideSuggestsStandsBesideTheOtherSide() {
        add(LEFT, TakeReason.FIRST, "wheezes 0");
        Take heard = add(LEFT, TakeReason.FIRST, "wheezes 2");
        add(LEFT, TakeReason.FIRST, "crackles 4");
        add(RIGHT, TakeReason.FIRST, "hasty");
        Take whole = add(RIGHT, TakeReason.FIRST, "wheezes 0");

        SidePair pair = view().sides().get(0);

        assertThat(pair.takeLeft()).isEqualTo(heard.id());
        assertThat(pair.takeRight())
                .as("hardly a breath tells less than whole breaths")
                .isEqualTo(whole.id());
        assertThat(pair.toldLeft()).as("crackles were suggested too").isEqualTo(new Told(true, false));
        assertThat(pair.words())
                .startsWith(
                        "Back, lower: left wheeze share 13 %, 400 Hz, crackles not told; right wheeze share 0 %, 0.0 crackles a breath. In 95");
        assertThat(service.comparing().round(view())).singleElement().satisfies(c -> {
            assertThat(c.first()).isEqualTo(heard);
            assertThat(c.second()).isEqualTo(whole);
        });
    }

    /** An older file, chosen by mistake, would answer for today's chest: no two recordings are the same. */
    @Test
    void aRecordingOfAnotherRoundIsRefused() {
        byte[] sound = "wheezes 2".getBytes(StandardCharsets.UTF_8);
        add(LEFT, TakeReason.FIRST, "wheezes 2");
        Round first = view().round();
        service.refuseElsewhere(new NewTake(first.id(), LEFT, TakeReason.FIRST, "same.wav"), sound, own -> "");
        Round later = diary.rounds().start(first.personId());

        assertThatThrownBy(() -> service.refuseElsewhere(
                        new NewTake(later.id(), LEFT, TakeReason.FIRST, "same.wav"), sound, own -> ""))
                .isInstanceOf(BadInput.class)
                .hasMessage(
                        "same.wav is the very recording that stands in the round of %s already (back, lower, left); choose the one that was made now.",
                        first.day());
        service.refuseElsewhere(
                new NewTake(later.id(), LEFT, TakeReason.FIRST, "new.wav"),
                "wheezes 1".getBytes(StandardCharsets.UTF_8),
                own -> "");
        Round other = diary.rounds().start(Examples.person(diary, "Noor").id());
        service.refuseElsewhere(new NewTake(other.id(), LEFT, TakeReason.FIRST, "same.wav"), sound, own -> "");
    }

    /** Left would sound like right, and after a cough like before it. */
    @Test
    void aRecordingOfAnotherPlaceOrListenIsRefused() {
        byte[] sound = "wheezes 2".getBytes(StandardCharsets.UTF_8);
        add(LEFT, TakeReason.FIRST, "wheezes 2");
        UUID round = view().round().id();

        for (NewTake take : List.of(
                new NewTake(round, RIGHT, TakeReason.FIRST, "same.wav"),
                new NewTake(round, LEFT, TakeReason.AFTER_COUGH, "same.wav"))) {
            assertThatThrownBy(() -> service.refuseElsewhere(take, sound, own -> ": so"))
                    .isInstanceOf(BadInput.class)
                    .hasMessage(
                            "same.wav is the very recording that stands in this round already (back, lower, left, first); choose the one that was made here and now, or, if that take is there by mistake, take that one out: so");
        }
        service.refuseElsewhere(
                new NewTake(round, RIGHT, TakeReason.FIRST, "new.wav"),
                "wheezes 1".getBytes(StandardCharsets.UTF_8),
                own -> "");
        service.finish(round);
        assertThatThrownBy(() -> service.refuseElsewhere(
                        new NewTake(round, RIGHT, TakeReason.FIRST, "same.wav"), sound, own -> ": so"))
                .as("a way that is refused is none")
                .hasMessageEndingWith("choose the one that was made here and now.");
    }

    /** A tired hand stops after four seconds: no breath out, no wheeze, and nothing has cleared. */
    @Test
    void aTakeOfHardlyABreathClearsNothing() {
        add(LEFT, TakeReason.FIRST, "wheezes 2");
        add(LEFT, TakeReason.AFTER_COUGH, "hasty");

        SiteView left = view().at(LEFT).orElseThrow();

        assertThat(left.finding()).extracting(f -> f.clearing()).isEqualTo(Clearing.NOT_SETTLED);
        assertThat(left.changes())
                .singleElement()
                .satisfies(c -> assertThat(c.cleared()).isFalse())
                .satisfies(c -> assertThat(c.words())
                        .contains("nothing can be told from the later take, record it again")
                        .endsWith("12.5 % before, not known after."));
        assertThat(view().asked()).extracting(Asked::site, Asked::reason).containsExactly(LEFT, TakeReason.MOVED);
        assertThat(RoundWords.suggestion(left.takes().get(1).examination().orElseThrow()))
                .isEqualTo("no extra sound found, but hardly a whole breath either, so it says next to nothing");
        add(LEFT, TakeReason.AFTER_COUGH, "wheezes 0");
        assertThat(view().at(LEFT).orElseThrow().finding())
                .extracting(f -> f.clearing())
                .isEqualTo(Clearing.CLEARED);
    }

    /** A tick on the drawing after three seconds would look as if the place had been listened to. */
    @Test
    void aPlaceHeardForHardlyABreathIsToBeHeardAgainOnce() {
        add(LEFT, TakeReason.FIRST, "hasty");

        assertThat(view().sitesOpen()).contains(LEFT);
        assertThat(view().asked()).satisfies(asked -> {
            assertThat(asked.site()).isEqualTo(LEFT);
            assertThat(asked.reason()).isEqualTo(TakeReason.FIRST);
            assertThat(asked.because()).contains("cannot tell whether an extra sound is there");
            assertThat(asked.instructions()).anyMatch(i -> i.contains("Record longer"));
        });
        add(LEFT, TakeReason.FIRST, "hasty");
        assertThat(view().asked()).extracting(Asked::site).isNotEqualTo(LEFT);
        assertThat(view().sitesOpen())
                .as("who breathes shallowly is not asked a third time")
                .doesNotContain(LEFT);
    }

    /** Whatever was heard in whole breaths at the place, before or after, stands. */
    @Test
    void hardlyABreathTakesNothingFromATakeOfWholeBreaths() {
        add(LEFT, TakeReason.FIRST, "wheezes 0");
        add(LEFT, TakeReason.FIRST, "hasty");
        add(RIGHT, TakeReason.FIRST, "hasty");
        add(RIGHT, TakeReason.FIRST, "wheezes 0");

        assertThat(view().sitesOpen()).doesNotContain(LEFT, RIGHT);
        assertThat(view().asked()).extracting(Asked::site).isNotIn(LEFT, RIGHT);
    }

    /** A place of which nothing can be told, however often, does not keep the round from the others. */
    @Test
    void theRoundGoesOnPastAPlaceThatCannotBeTold() {
        add(LEFT, TakeReason.FIRST, "unsure");
        assertThat(view().asked()).extracting(Asked::site, Asked::reason).containsExactly(LEFT, TakeReason.AFTER_COUGH);
        add(LEFT, TakeReason.AFTER_COUGH, "unsure");

        assertThat(view().asked()).extracting(Asked::reason).isEqualTo(TakeReason.FIRST);
        assertThat(view().asked()).extracting(Asked::site).isNotEqualTo(LEFT);
        assertThat(view().sitesOpen()).as("it stays open on the drawing").contains(LEFT);
    }

    /** Through another kind of device most can be missed: no sound is told as one of one side only. */
    @Test
    void beyondWhatWasLearntFromNoNumberStandsBesideTheOtherSide() {
        add(LEFT, TakeReason.FIRST, "wheezes 2");
        add(LEFT, TakeReason.AFTER_COUGH, "unfamiliar");
        add(RIGHT, TakeReason.FIRST, "unfamiliar");

        RoundView view = view();

        assertThat(view.sides().get(0).words())
                .startsWith(
                        "Back, lower: left wheeze share 13 %, 0.0 crackles a breath, 400 Hz; right not told. In 95 of 100");
        assertThat(view.sides().get(0).toldRight()).isEqualTo(new Told(false, false));
        BeforeAfter change = view.at(LEFT).orElseThrow().changes().get(0);
        assertThat(change.toldBefore()).isEqualTo(new Told(true, true));
        assertThat(change.toldAfter()).isEqualTo(new Told(false, false));
        assertThat(change.words())
                .contains("does not show that it cleared")
                .endsWith("12.5 % before, not known after.");
    }

    @Test
    void storedTakesArePutBesideOneAnother() {
        Take before = add(LEFT, TakeReason.FIRST, "wheezes 2");
        Take after = add(LEFT, TakeReason.AFTER_COUGH, "wheezes 0");
        add(RIGHT, TakeReason.FIRST, "wheezes 0");

        Compared cough = service.comparing().takes(before.id(), after.id());
        assertThat(cough.comparison().relation()).isEqualTo(Relation.BEFORE_AFTER);
        assertThat(cough.clearings()).hasSize(1);

        List<Compared> sides = service.comparing().round(view());
        assertThat(sides).singleElement().satisfies(c -> {
            assertThat(c.first()).isEqualTo(before);
            assertThat(c.second().site()).isEqualTo(RIGHT);
            assertThat(c.comparison().relation()).isEqualTo(Relation.LEFT_RIGHT);
        });
    }

    @Test
    void aTakeIsPutBesideEarlierFirstTakesAtItsSite() {
        for (int day = 2; day <= 5; day++) {
            clock.set("2026-03-0" + day + "T07:00:00Z");
            round = service.start(person);
            add(LEFT, TakeReason.FIRST, "wheezes " + (day == 5 ? 8 : day % 2));
            add(LEFT, TakeReason.MOVED, "wheezes 3");
            add(RIGHT, TakeReason.FIRST, "wheezes 3");
        }
        // Earlier days: no wheeze, 0.5 s in 8 s of breaths, none.
        Take today = view().at(LEFT).orElseThrow().takes().get(0);

        UsualAtSite usual = service.comparing().usual(today.id());

        assertThat(usual.earlier()).hasSize(3).allMatch(t -> t.site().equals(LEFT) && t.reason() == TakeReason.FIRST);
        assertThat(usual.measures())
                .filteredOn(u -> u.measure() == Measure.WHEEZE_SHARE)
                .singleElement()
                .satisfies(u -> assertThat(List.of(u.lowest(), u.median(), u.highest(), u.today()))
                        .containsExactly(0.0, 0.0, 6.25, 50.0));
        assertThat(RoundWords.earlier(usual))
                .isEqualTo(
                        "Earlier first takes here, 2026-03-02 to 2026-03-04, of days that asked for no clinician: 1 with a continuous extra sound suggested, 2 with no extra sound heard.");
        assertThat(usual.newKind()).as("one of the earlier ones had a wheeze").isFalse();
    }

    /** A sound that was suggested in a second first take of an earlier day is no new one today. */
    @Test
    void ofEachEarlierRoundTheFirstTakeThatTellsMostIsHeldAgainst() {
        for (int day = 2; day <= 5; day++) {
            clock.set("2026-03-0" + day + "T07:00:00Z");
            round = service.start(person);
            add(LEFT, TakeReason.FIRST, "wheezes " + (day == 5 ? 2 : 0));
            clock.set("2026-03-0" + day + "T07:05:00Z");
            if (day == 3) {
                add(LEFT, TakeReason.FIRST, "wheezes 2");
            }
        }

        UsualAtSite usual = service.comparing()
                .usual(view().at(LEFT).orElseThrow().takes().get(0).id());

        assertThat(usual.earlier()).hasSize(3);
        assertThat(usual.newKind()).isFalse();
    }

    @Test
    void anExtraSoundThatNoEarlierTakeHadIsNew() {
        for (int day = 2; day <= 5; day++) {
            clock.set("2026-03-0" + day + "T07:00:00Z");
            round = service.start(person);
            add(LEFT, TakeReason.FIRST, "wheezes " + (day == 5 ? 1 : 0));
        }

        assertThat(service.comparing()
                        .usual(view().at(LEFT).orElseThrow().takes().get(0).id())
                        .newKind())
                .isTrue();
    }

    /** An illness of three days that had asked for a clinician each day is not this child's usual on the fourth. */
    @Test
    void daysThatAskedForAClinicianDoNotMakeTheUsual() {
        List<Integer> spo2 = List.of(97, 97, 96, 97, 92, 92, 92, 92);
        for (int day = 0; day < spo2.size(); day++) {
            clock.set("2026-03-0" + (day + 2) + "T07:00:00Z");
            round = service.start(person);
            int value = spo2.get(day);
            service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(value)));
            add(LEFT, TakeReason.FIRST, "rate 24 wheezes " + (day >= 4 ? 1 : 0));
            if (day < spo2.size() - 1) {
                service.finish(round.id());
                boolean asked = diary.rounds().get(round.id()).askedForClinician();
                assertThat(asked).as("day %d", day).isEqualTo(day >= 4);
            }
        }

        assertThat(view().usual())
                .filteredOn(u -> u.measure() == Trend.Measure.SPO2)
                .singleElement()
                .isEqualTo(new AgainstUsual(
                        Trend.Measure.SPO2, 92, usual(97, 96, 97, 4, "2026-03-02", "2026-03-05"), true));
        assertThat(Examples.usualSpo2(diary, person, round.day()))
                .isEqualTo(new UsualSpo2(
                        97, "of 4 days from 2026-03-02 to 2026-03-05, none of which asked for a clinician"));
        assertThat(view().nextStep().reasons()).anyMatch(r -> r.rule().equals("oxygen-below-own-usual"));
        UsualAtSite here = service.comparing()
                .usual(view().at(LEFT).orElseThrow().takes().get(0).id());
        assertThat(here.ofWellDays()).isTrue();
        assertThat(here.earlier()).hasSize(4);
        assertThat(here.newKind())
                .as("three ill days with a wheeze make it nothing usual")
                .isTrue();
    }

    /** A danger sign makes a day no well one, also where nobody finished the round. */
    @Test
    void aDangerSignAsksForAClinicianAlsoWhereTheRoundWasNeverFinished() {
        round = service.start(person);
        assertThat(diary.rounds().get(round.id()).askedForClinician()).isFalse();
        service.change(round.id(), now -> now.with(DangerAnswers.yes("blue")));
        assertThat(diary.rounds().get(round.id()).askedForClinician()).isTrue();
    }

    private void measure(LocalDate day, int spo2, boolean finish) {
        clock.set(day + "T07:00:00Z");
        round = service.start(person);
        service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(spo2)));
        if (finish) {
            service.finish(round.id());
        }
    }

    /** Numbers that would have asked for a clinician make a day no well one, whether or not somebody finished the round. */
    @Test
    void aFallCountsAsAnIllDayAlsoWhereTheRoundWasNeverFinished() {
        LocalDate day = LocalDate.of(2026, 3, 1);
        for (int spo2 : new int[] {97, 97, 98, 94, 94, 94, 94}) {
            measure(day, spo2, false);
            day = day.plusDays(1);
        }
        measure(day, 94, false);

        assertThat(Examples.usualSpo2(diary, person, day))
                .isEqualTo(new UsualSpo2(
                        97, "of 3 days from 2026-03-01 to 2026-03-03, none of which asked for a clinician"));
        assertThat(view().nextStep().outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Trend.of(diary, person.id(), day.minusDays(7), day).days())
                .extracting(Day::askedForClinician)
                .containsExactly(false, false, false, true, true, true, true, true);
    }

    /** The next step goes by days that lie further back than the last ones; what it goes by is shown, too. */
    @Test
    void afterWeeksWithoutARoundTheEarlierDaysAreStillShown() {
        LocalDate day = LocalDate.of(2026, 3, 1);
        for (int i = 0; i < 3; i++) {
            measure(day.plusDays(i), 98, true);
        }
        measure(day.plusDays(60), 95, false);

        assertThat(view().nextStep().reasons()).anyMatch(r -> r.rule().equals("oxygen-below-own-usual"));
        assertThat(view().usual())
                .containsExactly(new AgainstUsual(
                        Trend.Measure.SPO2, 95, usual(98, 98, 98, 3, "2026-03-01", "2026-03-03"), true));
    }

    /** A chest that has changed for good: the fall goes on asking until a clinician says what is usual now, and asks again when it falls from there. Common practice [C]. */
    @Test
    void aNewLowerUsualCountsOnceAClinicianHasStatedIt() {
        LocalDate day = LocalDate.of(2026, 3, 1);
        for (int i = 0; i < 50; i++) {
            measure(day, i < 10 ? 98 : 94, true);
            day = day.plusDays(1);
        }
        measure(day, 94, false);
        assertThat(view().nextStep().outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(view().nextStep().reasons())
                .anyMatch(r -> r.text().contains("own usual, 98 % (of 10 days from 2026-03-01 to 2026-03-10"));

        diary.persons()
                .change(person.withLimits(
                        ClinicianLimits.NONE.withUsualSpo2(new StatedUsual(94, day, null, "Dr A. Example", ""))));

        assertThat(Examples.usualSpo2(diary, diary.persons().get(person.id()), day))
                .isEqualTo(new UsualSpo2(94, "stated by a clinician, from 2026-04-20 on"));
        assertThat(view().nextStep().outcome()).isNotEqualTo(Outcome.BE_SEEN_TODAY);
        assertThat(Examples.usualSpo2(diary, diary.persons().get(person.id()), day.minusDays(1)))
                .as("days before it are judged as before")
                .extracting(UsualSpo2::percent)
                .isEqualTo(98);

        // Days after it can raise it, never lower it.
        for (int spo2 : new int[] {93, 93, 93, 97, 97}) {
            day = day.plusDays(1);
            assertThat(Examples.usualSpo2(diary, diary.persons().get(person.id()), day))
                    .extracting(UsualSpo2::percent)
                    .isEqualTo(94);
            measure(day, spo2, true);
        }
        for (int spo2 : new int[] {97, 97}) {
            day = day.plusDays(1);
            measure(day, spo2, true);
        }
        assertThat(Examples.usualSpo2(diary, diary.persons().get(person.id()), day.plusDays(1)))
                .isEqualTo(new UsualSpo2(
                        97, "of 7 days from 2026-04-21 to 2026-04-27, none of which asked for a clinician"));
    }

    /** Three well days with a wheeze, then ten ill ones without: against the ten newest takes a wheeze is new, though not against those of well days, which reach further back. */
    @Test
    void thatIllDaysAreLeftOutHidesNoNewSound() {
        for (int day = 1; day <= 14; day++) {
            clock.set("2026-03-%02dT07:00:00Z".formatted(day));
            round = service.start(person);
            int value = day <= 3 || day == 14 ? 97 : 91;
            service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(value)));
            add(LEFT, TakeReason.FIRST, "rate 24 wheezes " + (day <= 3 || day == 14 ? 1 : 0));
            if (day < 14) {
                service.finish(round.id());
                assertThat(diary.rounds().get(round.id()).askedForClinician())
                        .as("day %d", day)
                        .isEqualTo(day > 3);
            }
        }

        UsualAtSite here = service.comparing()
                .usual(view().at(LEFT).orElseThrow().takes().get(0).id());

        assertThat(here.newKind()).isTrue();
        assertThat(here.ofWellDays()).isFalse();
        assertThat(here.earlier()).hasSize(10);
    }

    /** The middle of the well days may lie nearer to today's value than that of all days: a change that either tells is told. */
    @Test
    void thatIllDaysAreLeftOutHidesNoChange() {
        Trend.Usual well = usual(28, 28, 28, 3, "2026-03-01", "2026-03-03");
        Trend.Usual all = new Trend.Usual(18, 18, 28, 7, false, LocalDate.of(2026, 3, 1), LocalDate.of(2026, 3, 7));
        AgainstUsual ofWell = AgainstUsual.of(Trend.Measure.RATE, 30, "", well);
        AgainstUsual ofAll = AgainstUsual.of(Trend.Measure.RATE, 30, "", all);

        assertThat(ofWell.changed()).isFalse();
        assertThat(AgainstUsual.moreTelling(ofWell, ofAll)).isEqualTo(ofAll);
        AgainstUsual far = AgainstUsual.of(Trend.Measure.RATE, 40, "", well);
        assertThat(AgainstUsual.moreTelling(far, AgainstUsual.of(Trend.Measure.RATE, 40, "", all)))
                .isEqualTo(far);
    }

    @Test
    void theHeardRateStandsInOnlyWhereNoneWasCounted() {
        add(LEFT, TakeReason.FIRST, "rate 31");
        assertThat(view().vitals()).isEqualTo(Vitals.NONE.withRespiratoryRate(31, RateSource.HEARD));

        service.change(round.id(), now -> now.with(Vitals.NONE.withRespiratoryRate(26)));
        assertThat(view().vitals().respiratoryRatePerMinute()).isEqualTo(26);
    }

    @Test
    void ratesAfterDeepBreathsAreNotTheRateOfUsualBreathing() {
        add(LEFT, TakeReason.AFTER_DEEP_BREATHS, "rate 12");

        assertThat(view().vitals().respiratoryRatePerMinute()).isNull();
    }

    /** As {@link Clock}, but the first look at it lets another thread run, and waits for it a moment. */
    private static final class Interrupted extends Clock {
        private final Clock clock;
        private volatile @Nullable Runnable meanwhile;
        private volatile @Nullable Thread other;

        Interrupted(Clock clock) {
            this.clock = clock;
        }

        @Override
        public ZoneId getZone() {
            return clock.getZone();
        }

        @Override
        public Clock withZone(ZoneId zone) {
            return clock.withZone(zone);
        }

        @Override
        public Instant instant() {
            Runnable work = meanwhile;
            if (work != null) {
                meanwhile = null;
                Thread started = new Thread(work);
                other = started;
                started.start();
                join(started, 500);
            }
            return clock.instant();
        }

        static void join(Thread thread, long milliseconds) {
            try {
                thread.join(milliseconds);
            } catch (InterruptedException e) {
                Thread.currentThread().interrupt();
            }
        }
    }

    /** A danger sign that is answered in one window in the moment in which the round is finished in another must not be lost. */
    @Test
    void whatIsAnsweredWhileARoundIsFinishedIsKept() {
        Interrupted interrupted = new Interrupted(clock);
        try (Diary shared = Diary.open(temp.resolve("shared"), interrupted)) {
            RoundService both = Examples.service(shared);
            Round begun = both.start(Examples.person(shared, "Ida"));
            interrupted.meanwhile = () -> both.change(begun.id(), now -> now.with(DangerAnswers.yes("blue")));
            both.finish(begun.id());
            Interrupted.join(Objects.requireNonNull(interrupted.other), 10_000);
            assertThat(shared.rounds().get(begun.id()).dangerSigns().yes()).containsExactly("blue");
            assertThat(both.view(begun.id()).nextStep().outcome()).isEqualTo(Outcome.EMERGENCY_NOW);
        }
    }

    @Test
    void aChangeStartsFromWhatIsStoredByThen() {
        service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(91)));
        service.change(round.id(), now -> now.with(DangerAnswers.yes("blue")));
        assertThat(view().round().vitals().spo2Percent()).isEqualTo(91);
        assertThat(view().round().dangerSigns().yes()).containsExactly("blue");
    }

    @Test
    void finishingKeepsWhatWasSaidAndALaterTakeOpensTheRoundAgain() {
        RoundView finished = service.finish(round.id());
        assertThat(finished.round().open()).isFalse();
        assertThat(finished.round().nextStep()).isEqualTo(finished.nextStep());

        add(LEFT, TakeReason.FIRST, "wheezes 0");
        assertThat(view().round().open()).isTrue();
        assertThat(view().round().nextStep()).isNull();
    }

    @Test
    void whatIsNoSoundFileIsRefusedAndNothingIsStored() {
        assertThatThrownBy(() -> add(LEFT, TakeReason.FIRST, "letter")).isInstanceOf(BadInput.class);

        assertThat(diary.takes().ofRound(round.id())).isEmpty();
    }

    @Test
    void aTakeWhoseExaminationWasNeverStoredIsExaminedLater() {
        diary.takes().add(new NewTake(round.id(), LEFT, TakeReason.FIRST, "a"), Examples.bytes("wheezes 1"));
        assertThat(view().at(LEFT).orElseThrow().finding()).isNull();

        assertThat(service.examinePending(round.id())).isEmpty();

        assertThat(view().at(LEFT).orElseThrow().finding())
                .extracting(f -> f.takes().get(0).suggestion())
                .isEqualTo(Suggestion.CONTINUOUS);
    }

    @Test
    void aTakeThatCannotBeExaminedDoesNotKeepTheRoundFromEnding() throws IOException {
        Take lost = diary.takes()
                .add(new NewTake(round.id(), LEFT, TakeReason.FIRST, "lost.wav"), Examples.bytes("wheezes 1"));
        diary.takes().add(new NewTake(round.id(), RIGHT, TakeReason.FIRST, "a"), Examples.bytes("wheezes 2"));
        try (Stream<Path> files = Files.walk(temp)) {
            for (Path file : files.filter(f -> f.toString().contains(lost.recordingSha256()))
                    .toList()) {
                Files.delete(file);
            }
        }

        assertThat(service.examinePending(round.id())).hasSize(1);

        RoundView finished = service.finish(round.id());
        assertThat(finished.round().open()).isFalse();
        assertThat(finished.nextStep().actions()).isNotEmpty();
        assertThat(finished.at(RIGHT).orElseThrow().finding()).isNotNull();
    }

    @Test
    void todayIsPutBesideThisPersonsEarlierDays() {
        for (int day = 2; day <= 4; day++) {
            clock.set("2026-03-0" + day + "T07:00:00Z");
            round = service.start(person);
            Vitals vitals = Vitals.NONE.withSpo2(94 + day % 2);
            service.change(round.id(), now -> now.with(vitals));
            add(LEFT, TakeReason.FIRST, "wheezes 1");
        }
        clock.set("2026-03-07T07:00:00Z");
        round = service.start(person);
        service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(91)));
        add(LEFT, TakeReason.FIRST, "wheezes 1");

        List<AgainstUsual> usual = view().usual();

        assertThat(usual)
                .filteredOn(u -> u.measure() == Trend.Measure.SPO2)
                .singleElement()
                .isEqualTo(new AgainstUsual(
                        Trend.Measure.SPO2, 91, usual(94, 94, 95, 3, "2026-03-02", "2026-03-04"), true));
        assertThat(new AgainstUsual(Trend.Measure.SPO2, 91, usual(94, 94, 95, 3, "2026-03-02", "2026-03-04"), true)
                        .words())
                .startsWith("OUTSIDE");
        // One breath a minute fewer, and two crackles more, are what the same chest gives twice.
        assertThat(new AgainstUsual(Trend.Measure.RATE, 15, usual(16, 16, 16, 4, "2026-03-02", "2026-03-05"), true)
                        .changed())
                .isFalse();
        assertThat(new AgainstUsual(
                                Trend.Measure.CRACKLES_PER_BREATH,
                                2,
                                usual(0, 0, 0, 4, "2026-03-02", "2026-03-05"),
                                true)
                        .words())
                .contains("may differ as much");
        assertThat(usual)
                .filteredOn(u -> u.measure() == Trend.Measure.WHEEZE_SHARE)
                .singleElement()
                .extracting(AgainstUsual::outside)
                .isEqualTo(false);
    }

    /** The child's own 98 % makes 95 % a reason; that usual is the one that the trend shows. */
    @Test
    void aFallBelowThisPersonsOwnUsualIsAReasonInEveryView() {
        for (int day = 2; day <= 4; day++) {
            clock.set("2026-03-0" + day + "T07:00:00Z");
            Round earlier = service.start(person);
            service.change(earlier.id(), now -> now.with(Vitals.NONE.withSpo2(98)));
        }
        clock.set("2026-03-07T07:00:00Z");
        round = service.start(person);
        service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(95)));

        for (RoundView view :
                List.of(view(), service.briefs(person).apply(diary.rounds().get(round.id())))) {
            assertThat(view.nextStep().outcome()).isEqualTo(Outcome.BE_SEEN_TODAY);
            assertThat(view.nextStep().reasons())
                    .anyMatch(r -> r.rule().equals("oxygen-below-own-usual")
                            && r.text().contains("own usual, 98 %"));
        }
        assertThat(view().usual()).extracting(u -> u.usual().median()).contains(98.0);
    }

    @Test
    void twoEarlierDaysAreNoUsual() {
        for (int day = 5; day <= 6; day++) {
            clock.set("2026-03-0" + day + "T07:00:00Z");
            service.change(service.start(person).id(), now -> now.with(Vitals.NONE.withSpo2(98)));
        }
        clock.set("2026-03-07T07:00:00Z");
        round = service.start(person);
        service.change(round.id(), now -> now.with(Vitals.NONE.withSpo2(95)));

        assertThat(view().nextStep().reasons()).noneMatch(r -> r.rule().equals("oxygen-below-own-usual"));
    }
}
