package lungwort.guidance;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import lungwort.BadInput;
import lungwort.guidance.Site.Face;
import lungwort.guidance.Site.Height;
import lungwort.guidance.Site.Side;

/**
 * The places where one listens, in what order, and how. Source: REFERENCE.md section 1, recording: CORSA (trachea, posterior bases, anterior and lateral sites, left and
 * right) from memory, the instructions common practice.
 */
public final class Sites {
    /** Below this age the shorter round is offered: a small child does not sit still for thirteen takes. Common practice. */
    public static final int SHORT_ROUND_BELOW_MONTHS = 60;

    /** Between which bones a chest piece lies; said once where many places stand together. */
    public static final String BETWEEN_RIBS = "Between two ribs, never over bone.";

    private static final List<Site> ALL = all();

    private Sites() {}

    private static List<Site> all() {
        List<Site> sites = new ArrayList<>();
        for (Face face : List.of(Face.BACK, Face.SIDE, Face.FRONT)) {
            for (Height height : Height.values()) {
                sites.addAll(pair(face, height));
            }
        }
        sites.add(Site.NECK);
        return List.copyOf(sites);
    }

    private static List<Site> pair(Face face, Height height) {
        return List.of(new Site(face, height, Side.LEFT), new Site(face, height, Side.RIGHT));
    }

    /** Every site that has a name: back, side and front, upper to lower, left then right; the neck last. */
    public static List<Site> catalogue() {
        return ALL;
    }

    /** The sites of a round in order: left with right at the same height, then lower. A small child has a shorter one that starts at the bases. */
    public static List<Site> round(Age age) {
        return age.months() < SHORT_ROUND_BELOW_MONTHS ? shortRound() : fullRound();
    }

    /** Twelve places on the chest and the neck. */
    public static List<Site> fullRound() {
        List<Site> sites = new ArrayList<>();
        for (Height height : Height.values()) {
            sites.addAll(pair(Face.BACK, height));
        }
        sites.addAll(pair(Face.SIDE, Height.LOWER));
        sites.addAll(pair(Face.FRONT, Height.UPPER));
        sites.addAll(pair(Face.FRONT, Height.LOWER));
        sites.add(Site.NECK);
        return List.copyOf(sites);
    }

    /** Six places: the bases, the sides, the top of the front. */
    public static List<Site> shortRound() {
        List<Site> sites = new ArrayList<>();
        sites.addAll(pair(Face.BACK, Height.LOWER));
        sites.addAll(pair(Face.SIDE, Height.LOWER));
        sites.addAll(pair(Face.FRONT, Height.UPPER));
        return List.copyOf(sites);
    }

    /**
     * The site of an id such as {@code back-lower-left}.
     *
     * @throws BadInput if there is none
     */
    public static Site of(String id) {
        String wanted = id.strip().toLowerCase(Locale.ROOT);
        return ALL.stream()
                .filter(s -> s.id().equals(wanted))
                .findFirst()
                .orElseThrow(() -> BadInput.of(
                        "site: \"%s\" is not known; use one of %s.",
                        id, ALL.stream().map(Site::id).collect(Collectors.joining(", "))));
    }

    /** Before the first take: room, posture and breathing, for that age. */
    public static List<String> beforeTheRound(Age age) {
        List<String> steps = new ArrayList<>();
        steps.add("Go to a quiet room: no television, fan, tap or talking.");
        steps.add(
                age.months() < 12
                        ? "Lay the baby on its back, or hold it upright against you when you listen to the back; calm, not crying, not feeding."
                        : "Have the person sit up, relaxed, leaning slightly forward, arms loosely in the lap.");
        steps.add(
                "Put the stethoscope on bare skin, the flat side (diaphragm) against the chest. Tap it once: the tap must be heard.");
        steps.add(
                age.months() < SHORT_ROUND_BELOW_MONTHS
                        ? "Let the child breathe as it does by itself. Wait until crying stops: crying hides the lungs."
                        : "Ask for easy, deep breaths through the open mouth, neither forced nor fast, and no talking. Rest if the person gets dizzy.");
        steps.add("Hold the stethoscope still for seven to ten breaths (about 15 to 30 seconds) at each spot.");
        steps.add("Listen left, then right at the same height, then go lower.");
        return List.copyOf(steps);
    }

    /** Where exactly, in plain words. Left and right are those of the person who is listened to. */
    public static String placement(Site site) {
        return site.side() == null
                ? capitalised(where(site))
                : "On the person's own %s: %s %s".formatted(site.side().id(), where(site), BETWEEN_RIBS);
    }

    /** The same without the side and what holds for every place, for where these stand beside it. */
    public static String where(Site site) {
        if (site.height() == null) {
            return "on the front of the neck, just above the notch of the breastbone, gently: never press.";
        }
        return switch (site.face()) {
            case BACK -> back(site.height());
            case SIDE -> flank(site.height());
            case FRONT -> front(site.height());
            case NECK -> throw new IllegalStateException("the neck has no height");
        };
    }

    private static String capitalised(String words) {
        return Character.toUpperCase(words.charAt(0)) + words.substring(1);
    }

    private static String back(Height height) {
        return switch (height) {
            case UPPER -> "at the top of the back, between the shoulder blade and the spine, off the shoulder blade.";
            case MIDDLE -> "in the middle of the back, between the lower part of the shoulder blade and the spine.";
            case LOWER ->
                "below the tip of the shoulder blade, a hand's width from the spine; not below the ribs, where there is nothing to hear.";
        };
    }

    private static String flank(Height height) {
        return switch (height) {
            case UPPER -> "high in the armpit, arm raised.";
            case MIDDLE -> "on the side, at the height of the nipple.";
            case LOWER ->
                "on the side, a hand's width below the armpit; not below the ribs, where there is nothing to hear.";
        };
    }

    private static String front(Height height) {
        return switch (height) {
            case UPPER -> "a finger's width below the middle of the collarbone.";
            case MIDDLE -> "beside the breastbone, at the height of the nipple; on the left the heart is heard too.";
            case LOWER ->
                "on the lower ribs of the front, in line with the nipple; lift a breast rather than listen through it.";
        };
    }
}
