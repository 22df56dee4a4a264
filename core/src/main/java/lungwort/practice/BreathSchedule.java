package lungwort.practice;

import java.util.ArrayList;
import java.util.List;
import java.util.Random;
import lungwort.breath.Breath;
import lungwort.breath.BreathPhase;
import lungwort.breath.PhaseSpan;

/** Lays out the breaths of a pattern in time. */
final class BreathSchedule {
    private static final double SHORTEST_PHASE_SECONDS = 0.02;

    private BreathSchedule() {}

    /** Breaths from the first inspiration to the end of the recording; the last is cut there. */
    static List<Breath> breaths(BreathPattern pattern, double durationSeconds, long seed) {
        List<Breath> breaths = new ArrayList<>();
        if (pattern.perMinute() == 0) {
            return breaths;
        }
        Random random = Draws.stream(seed, Draws.SCHEDULE);
        double start = pattern.firstSeconds();
        boolean held = pattern.heldSeconds() == 0;
        while (start < durationSeconds - SHORTEST_PHASE_SECONDS) {
            double vary = 1 + pattern.variation() * Math.max(-2, Math.min(2, random.nextGaussian()));
            double cycle = 60 / pattern.perMinute() * vary;
            double end = Math.min(start + cycle, durationSeconds);
            breaths.add(new Breath(start, end, phases(pattern, start, cycle, durationSeconds), 1));
            start += cycle;
            if (!held && start >= pattern.heldFromSeconds()) {
                start += pattern.heldSeconds();
                held = true;
            }
        }
        return breaths;
    }

    /** Length of the whole phase that starts where this span starts, also when the recording ends before it does. */
    static double fullLength(BreathPattern pattern, Breath breath, PhaseSpan span, List<Breath> all) {
        boolean cut = breath == all.get(all.size() - 1);
        if (!cut) {
            return span.endSeconds() - span.startSeconds();
        }
        double cycle = 60 / pattern.perMinute();
        double share = span.phase() == BreathPhase.INSPIRATION
                ? pattern.inspirationShare()
                : 1 - pattern.inspirationShare() - pattern.pauseShare();
        return Math.max(span.endSeconds() - span.startSeconds(), cycle * share);
    }

    private static List<PhaseSpan> phases(BreathPattern pattern, double start, double cycle, double limit) {
        double turn = start + cycle * pattern.inspirationShare();
        double still = start + cycle * (1 - pattern.pauseShare());
        List<PhaseSpan> spans = new ArrayList<>();
        addSpan(spans, start, turn, BreathPhase.INSPIRATION, limit);
        addSpan(spans, turn, still, BreathPhase.EXPIRATION, limit);
        addSpan(spans, still, start + cycle, BreathPhase.PAUSE, limit);
        return spans;
    }

    private static void addSpan(List<PhaseSpan> spans, double from, double to, BreathPhase phase, double limit) {
        double end = Math.min(to, limit);
        if (end - from > SHORTEST_PHASE_SECONDS) {
            spans.add(new PhaseSpan(from, end, phase, 1));
        }
    }
}
