package lungwort.round;

import java.util.List;
import java.util.Optional;
import lungwort.diary.Note;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.guidance.Age;
import lungwort.guidance.DangerSign;
import lungwort.guidance.EarlierDays;
import lungwort.guidance.NextStep;
import lungwort.guidance.Site;
import lungwort.guidance.UsualSpo2;
import lungwort.guidance.Vitals;
import org.jspecify.annotations.Nullable;

/**
 * All that a round says so far: worked out anew from the diary each time, so that commands, page and report show the same.
 *
 * @param person whose chest
 * @param age on the day of the round
 * @param round the round as stored
 * @param dangerSignsOpen danger-sign questions for this age that are not answered yet
 * @param vitals as measured, with the breathing rate heard in the recordings where none was counted
 * @param sites those with takes, in the order of the round
 * @param sitesOpen those of the round without a take that could be judged in whole breaths, in order; one tried twice in hardly a breath counts
 * @param sides left against right, where both could be judged
 * @param asked the take asked for next, or null where none is
 * @param earlier what this person's days before that one say of it ({@link lungwort.diary.OxygenDays})
 * @param usual this day against earlier ones, where enough are known
 * @param notes notes that belong to the round
 * @param nextStep what to do next by what is known now
 */
public record RoundView(
        Person person,
        Age age,
        Round round,
        List<DangerSign> dangerSignsOpen,
        Vitals vitals,
        List<SiteView> sites,
        List<Site> sitesOpen,
        List<SidePair> sides,
        @Nullable Asked asked,
        EarlierDays earlier,
        List<AgainstUsual> usual,
        List<Note> notes,
        NextStep nextStep) {
    public RoundView {
        dangerSignsOpen = List.copyOf(dangerSignsOpen);
        sites = List.copyOf(sites);
        sitesOpen = List.copyOf(sitesOpen);
        sides = List.copyOf(sides);
        usual = List.copyOf(usual);
        notes = List.copyOf(notes);
    }

    /** This person's own usual SpO2 on that day, of values measured as that of the round was; null where too few days before it are known. */
    public @Nullable UsualSpo2 usualSpo2() {
        return earlier.usualSpo2(vitals);
    }

    /** True if who listened said of a recording that the breathing stopped by itself in it: a danger sign that no question asks for. */
    public boolean breathingStopped() {
        return sites.stream().flatMap(site -> site.takes().stream()).anyMatch(Take::stoppedByItself);
    }

    /** What was found at a site; empty where there is no take. */
    public Optional<SiteView> at(Site site) {
        return sites.stream().filter(s -> s.site().equals(site)).findFirst();
    }
}
