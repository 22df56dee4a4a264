package lungwort.report;

import java.util.List;
import lungwort.diary.Person;
import lungwort.diary.Round;
import lungwort.diary.Take;
import lungwort.guidance.Citation;
import lungwort.guidance.ClinicianLimits;
import lungwort.guidance.ClinicianLimits.StatedUsual;
import lungwort.guidance.NextStep;
import lungwort.guidance.Reason;
import lungwort.round.RoundView;
import lungwort.round.SiteView;
import org.jspecify.annotations.Nullable;

/** Takes out of what is told all that was to be left out, before any format sees it. */
final class LeavingOut {
    private static final String A_CLINICIAN = "a clinician";
    private static final String CLINICIAN_MARK = "clinician";

    private LeavingOut() {}

    static Person person(Person person, ReportOptions options) {
        Person told = options.notes() ? person : person.withAbout("");
        if (options.name()) {
            return told;
        }
        return told.withNickname(ReportContent.NO_NAME).withLimits(limits(person.limits()));
    }

    private static ClinicianLimits limits(ClinicianLimits limits) {
        return new ClinicianLimits(
                limits.spo2Below(),
                limits.respiratoryRateAbove(),
                limits.pulseAbove(),
                limits.spo2Scale2(),
                limits.bestPeakFlowLitresPerMinute(),
                usual(limits.usualSpo2()),
                limits.setBy().isBlank() ? "" : A_CLINICIAN,
                limits.setOn());
    }

    private static @Nullable StatedUsual usual(@Nullable StatedUsual usual) {
        return usual == null
                ? null
                : new StatedUsual(usual.percent(), usual.on(), usual.onOxygen(), A_CLINICIAN, usual.setOn());
    }

    /** The view without names, words and file names: what a file was called on somebody's computer is never told. */
    static RoundView view(RoundView view, ReportOptions options) {
        return new RoundView(
                person(view.person(), options),
                view.age(),
                round(view.round(), options),
                view.dangerSignsOpen(),
                view.vitals(),
                view.sites().stream().map(LeavingOut::site).toList(),
                view.sitesOpen(),
                view.sides(),
                view.asked(),
                view.earlier(),
                view.usual(),
                options.notes() ? view.notes() : List.of(),
                step(view.nextStep(), options));
    }

    private static Round round(Round round, ReportOptions options) {
        return new Round(
                round.id(),
                round.personId(),
                round.startedAt(),
                round.finishedAt(),
                round.dangerSigns(),
                round.vitals(),
                round.symptoms(),
                options.notes() ? round.symptomWords() : "",
                options.notes() ? round.medicines() : "",
                stored(round.nextStep(), options));
    }

    private static @Nullable NextStep stored(@Nullable NextStep step, ReportOptions options) {
        return step == null ? null : step(step, options);
    }

    private static NextStep step(NextStep step, ReportOptions options) {
        if (options.name()) {
            return step;
        }
        return new NextStep(
                step.outcome(),
                step.reasons().stream().map(LeavingOut::reason).toList(),
                step.actions(),
                step.missing(),
                step.wouldChange(),
                step.cautions(),
                step.news2());
    }

    private static Reason reason(Reason reason) {
        List<Citation> citations = reason.citations().stream()
                .map(c -> c.mark().equals(CLINICIAN_MARK)
                        ? new Citation("set for this person by " + A_CLINICIAN, CLINICIAN_MARK)
                        : c)
                .toList();
        return new Reason(reason.rule(), reason.outcome(), reason.text(), reason.limit(), citations);
    }

    private static SiteView site(SiteView site) {
        return new SiteView(
                site.site(), site.takes().stream().map(LeavingOut::take).toList(), site.finding(), site.changes());
    }

    private static Take take(Take take) {
        return new Take(
                take.id(),
                take.roundId(),
                take.site(),
                take.reason(),
                take.recordedAt(),
                take.recordingSha256(),
                "",
                take.breathHeard(),
                take.knownToClinician(),
                take.breathingStopped(),
                take.examined());
    }
}
