package lungwort.practice;

import static lungwort.practice.AddedSound.Disturbance.Kind.CLICK;
import static lungwort.practice.AddedSound.Disturbance.Kind.COUGH;
import static lungwort.practice.AddedSound.Disturbance.Kind.DROPOUT;
import static lungwort.practice.AddedSound.Disturbance.Kind.MUSIC;
import static lungwort.practice.AddedSound.Disturbance.Kind.RUB;
import static lungwort.practice.AddedSound.Disturbance.Kind.SPEECH;
import static lungwort.practice.AddedSound.Disturbance.Kind.THUMP;

import java.util.ArrayList;
import java.util.List;
import java.util.NoSuchElementException;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;
import lungwort.practice.AddedSound.Disturbance;
import lungwort.practice.AddedSound.Tone;

/** The catalogue of practice sounds: one of each kind. All persons are invented. */
public final class PracticeScenes {
    private static final long SEED = 20;

    private PracticeScenes() {}

    /** All cases: first the chest sounds, then the recordings that should be made again. */
    public static List<PracticeCase> all() {
        List<PracticeCase> cases = new ArrayList<>(chest());
        cases.addAll(spoilt());
        return List.copyOf(cases);
    }

    /** The case of that id. */
    public static PracticeCase of(String id) {
        return all().stream()
                .filter(one -> one.id().equals(id))
                .findFirst()
                .orElseThrow(() -> new NoSuchElementException("no practice sound is called " + id));
    }

    /** Usual and extra sounds, all well recorded. */
    public static List<PracticeCase> chest() {
        return List.of(
                usual("usual"),
                wheeze("wheeze"),
                rhonchus("rhonchus"),
                fine("fine-crackles"),
                coarse("coarse-crackles"),
                both("both"),
                polyphonic("polyphonic-wheeze"),
                stridor("stridor"),
                infant("infant-wheeze"),
                pause("pause"));
    }

    /** Recordings that cannot be judged, or hardly. */
    public static List<PracticeCase> spoilt() {
        return List.of(
                quiet("too-quiet"),
                clipped("clipped"),
                handling("handling"),
                noisyRoom("noisy-room"),
                talking("talking"),
                music("music"),
                cough("cough"),
                heart("heart-only"),
                dropouts("dropouts"),
                hum("hum"),
                silence("silence"));
    }

    private static PracticeScene.Builder start(String id) {
        return PracticeScene.scene(id).seed(SEED + id.hashCode());
    }

    private static PracticeCase usual(String id) {
        var scene = start(id).heart(72, -30).build();
        return new PracticeCase(
                id, "Ada, 34", "right lower back", "Usual breath sound, with the heart behind it.", scene);
    }

    private static PracticeCase wheeze(String id) {
        var scene = start(id)
                .eachPhase(BreathPhase.EXPIRATION, span -> List.of(wheezeIn(span, 430, 390, -30)))
                .build();
        return new PracticeCase(
                id, "Bela, 58", "left lower back", "A wheeze of about 400 Hz in each expiration.", scene);
    }

    private static PracticeCase rhonchus(String id) {
        var scene = start(id)
                .eachPhase(
                        BreathPhase.EXPIRATION,
                        span -> List.of(Tone.rhonchus(at(span, 0.1), 0.6 * length(span), 130, -27)))
                .build();
        return new PracticeCase(
                id, "Chidi, 67", "front, left of the breastbone", "A low rhonchus in expiration.", scene);
    }

    private static PracticeCase fine(String id) {
        var scene = start(id)
                .eachPhase(
                        BreathPhase.INSPIRATION,
                        span -> CrackleTrain.fine(at(span, 0.5), at(span, 0.95), 10, -12, SEED))
                .build();
        return new PracticeCase(id, "Dagny, 71", "right lower back", "Fine crackles late in inspiration.", scene);
    }

    private static PracticeCase coarse(String id) {
        var scene = start(id)
                .eachPhase(
                        BreathPhase.INSPIRATION,
                        span -> CrackleTrain.coarse(at(span, 0.05), at(span, 0.6), 6, -7, SEED))
                .eachPhase(
                        BreathPhase.EXPIRATION, span -> CrackleTrain.coarse(at(span, 0.1), at(span, 0.5), 2, -10, SEED))
                .build();
        return new PracticeCase(id, "Emre, 49", "left lower side", "Coarse crackles from early inspiration on.", scene);
    }

    private static PracticeCase both(String id) {
        var scene = start(id)
                .eachPhase(
                        BreathPhase.INSPIRATION, span -> CrackleTrain.coarse(at(span, 0.2), at(span, 0.9), 6, -7, SEED))
                .eachPhase(BreathPhase.EXPIRATION, span -> List.of(wheezeIn(span, 320, 300, -29)))
                .build();
        return new PracticeCase(
                id, "Farida, 63", "right upper back", "Crackles in inspiration, a wheeze in expiration.", scene);
    }

    private static PracticeCase polyphonic(String id) {
        var scene = start(id)
                .eachPhase(
                        BreathPhase.EXPIRATION,
                        span -> List.of(wheezeIn(span, 310, 290, -30), wheezeIn(span, 540, 500, -33)))
                .build();
        return new PracticeCase(id, "Goran, 45", "right upper front", "Two wheezes of different pitch at once.", scene);
    }

    private static PracticeCase stridor(String id) {
        var scene = start(id)
                .eachPhase(
                        BreathPhase.INSPIRATION,
                        span -> List.of(Tone.stridor(at(span, 0.15), 0.6 * length(span), 640, -24)))
                .build();
        return new PracticeCase(id, "Hye, 3", "over the neck", "A harsh high tone in inspiration.", scene);
    }

    private static PracticeCase infant(String id) {
        var breath = new BreathPattern(44, 0.42, 0.08, 0.06, 0.2, -24, -5);
        var scene = start(id)
                .breath(breath)
                .heart(132, -27)
                .eachPhase(BreathPhase.EXPIRATION, span -> List.of(wheezeIn(span, 520, 470, -28)))
                .build();
        return new PracticeCase(id, "Ilse, 8 months", "left upper back", "Fast breathing with a wheeze.", scene);
    }

    private static PracticeCase pause(String id) {
        var breath = new BreathPattern(32, 0.42, 0.08, 0.06, 0.2, -24, -5).held(7, 9);
        var scene = start(id).seconds(24).breath(breath).heart(118, -24).build();
        return new PracticeCase(
                id, "Juno, 14 months", "right lower back", "Nine seconds without a breath; the heart goes on.", scene);
    }

    private static PracticeCase quiet(String id) {
        var scene = start(id)
                .breath(BreathPattern.RESTING.level(-64))
                .roomNoise(-66)
                .build();
        return new PracticeCase(id, "Jun, 29", "left lower back", "The chest piece hardly touches: too quiet.", scene);
    }

    private static PracticeCase clipped(String id) {
        var scene = start(id).device(Device.FLAT.gain(34)).build();
        return new PracticeCase(id, "Kofi, 52", "right upper front", "The recording level is far too high.", scene);
    }

    private static PracticeCase handling(String id) {
        var scene = start(id)
                .add(
                        new Disturbance(RUB, 0.5, 2.2, -14),
                        new Disturbance(THUMP, 3.1, 0.3, -3),
                        new Disturbance(CLICK, 4.6, 0.05, -5),
                        new Disturbance(RUB, 5.5, 3.0, -12),
                        new Disturbance(THUMP, 9.0, 0.3, -4),
                        new Disturbance(RUB, 10.5, 3.5, -14))
                .build();
        return new PracticeCase(id, "Lena, 40", "left lower side", "The chest piece slides and is knocked.", scene);
    }

    private static PracticeCase noisyRoom(String id) {
        var scene = start(id).roomNoise(-22).build();
        return new PracticeCase(id, "Mateo, 38", "right lower back", "A loud room drowns the breath.", scene);
    }

    private static PracticeCase talking(String id) {
        var scene = start(id)
                .add(
                        new Disturbance(SPEECH, 1.0, 3.5, -20),
                        new Disturbance(SPEECH, 6.0, 3.0, -18),
                        new Disturbance(SPEECH, 10.5, 3.5, -20))
                .build();
        return new PracticeCase(id, "Nadia, 61", "left upper back", "Someone talks.", scene);
    }

    private static PracticeCase music(String id) {
        var scene = start(id).add(new Disturbance(MUSIC, 0.5, 13.5, -24)).build();
        return new PracticeCase(id, "Otis, 70", "right lower side", "Music plays in the room.", scene);
    }

    private static PracticeCase cough(String id) {
        var scene = start(id)
                .add(
                        new Disturbance(COUGH, 4.2, 0.35, -10),
                        new Disturbance(COUGH, 4.8, 0.3, -12),
                        new Disturbance(COUGH, 11.0, 0.4, -10))
                .build();
        return new PracticeCase(id, "Priya, 27", "right upper back", "Coughs between usual breaths.", scene);
    }

    private static PracticeCase heart(String id) {
        var scene = start(id).breath(BreathPattern.NONE).heart(68, -14).build();
        return new PracticeCase(id, "Quinn, 33", "front, left of the breastbone", "The heart, and no breath.", scene);
    }

    private static PracticeCase dropouts(String id) {
        List<Disturbance> holes = new ArrayList<>();
        for (int i = 0; i < 9; i++) {
            holes.add(new Disturbance(DROPOUT, 0.9 + 1.5 * i, 0.25, 0));
        }
        var scene = start(id).add(holes).build();
        return new PracticeCase(id, "Rosa, 55", "left lower back", "The connection drops again and again.", scene);
    }

    private static PracticeCase hum(String id) {
        var scene = start(id).hum(50, -20).build();
        return new PracticeCase(id, "Samir, 44", "right lower back", "Mains hum from a charger.", scene);
    }

    private static PracticeCase silence(String id) {
        var scene = start(id)
                .breath(BreathPattern.NONE)
                .roomNoise(Double.NEGATIVE_INFINITY)
                .build();
        return new PracticeCase(id, "Tove, 36", "left upper front", "Nothing at all: the microphone is mute.", scene);
    }

    private static Tone wheezeIn(PhaseSpan span, double fromHz, double toHz, double levelDb) {
        return Tone.wheeze(at(span, 0.15), 0.55 * length(span), fromHz, toHz, levelDb);
    }

    private static double at(PhaseSpan span, double share) {
        return span.startSeconds() + share * length(span);
    }

    private static double length(PhaseSpan span) {
        return span.endSeconds() - span.startSeconds();
    }
}
