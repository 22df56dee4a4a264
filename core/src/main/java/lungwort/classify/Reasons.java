package lungwort.classify;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Locale;
import java.util.function.ToDoubleFunction;
import lungwort.sound.MeasuredSound;

/** Puts what moved a judgement into plain words. */
final class Reasons {
    private static final double TELLING = 0.5;

    private Reasons() {}

    static List<String> of(
            List<Judgement.JudgedSegment> segments, List<MeasuredSound> sounds, SoundModel.Calibrated c) {
        List<String> reasons = new ArrayList<>();
        boolean continuousFirst = c.continuous() >= c.discontinuous();
        add(reasons, continuousFirst, segments, sounds);
        add(reasons, !continuousFirst, segments, sounds);
        if (c.poorQuality() >= TELLING) {
            reasons.add(0, "The recording sounds like those that listeners called too poor to judge.");
        }
        return reasons;
    }

    private static void add(
            List<String> reasons,
            boolean continuous,
            List<Judgement.JudgedSegment> segments,
            List<MeasuredSound> sounds) {
        ToDoubleFunction<Judgement.JudgedSegment> p =
                continuous ? Judgement.JudgedSegment::continuous : Judgement.JudgedSegment::discontinuous;
        String what = continuous ? "a continuous sound (wheeze or rhonchus)" : "crackles";
        long telling =
                segments.stream().filter(s -> p.applyAsDouble(s) >= TELLING).count();
        Judgement.JudgedSegment best =
                segments.stream().max(Comparator.comparingDouble(p)).orElseThrow();
        long measured =
                sounds.stream().filter(s -> s.kind().continuous() == continuous).count();
        if (telling == 0) {
            reasons.add(String.format(
                    Locale.ROOT,
                    "None of %d stretches resembles %s (the nearest %.0f %%).",
                    segments.size(),
                    what,
                    100 * p.applyAsDouble(best)));
        } else {
            reasons.add(String.format(
                    Locale.ROOT,
                    "%d of %d stretches resemble %s, most of all the one from %.1f to %.1f s (%.0f %%); %d such sounds were measured.",
                    telling,
                    segments.size(),
                    what,
                    best.startSeconds(),
                    best.endSeconds(),
                    100 * p.applyAsDouble(best),
                    measured));
        }
    }
}
