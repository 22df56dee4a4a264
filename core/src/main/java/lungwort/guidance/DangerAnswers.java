package lungwort.guidance;

import java.util.Collection;
import java.util.Collections;
import java.util.Set;
import java.util.TreeSet;
import lungwort.BadInput;

/**
 * Answers to the danger-sign questions. What is in neither set was not asked, or nobody is sure: it is missing, not absent.
 *
 * @param yes ids of the signs that are there
 * @param no ids of the signs that were looked for and are not there
 */
public record DangerAnswers(Set<String> yes, Set<String> no) {
    /** Nothing was asked yet. */
    public static final DangerAnswers NOT_ASKED = new DangerAnswers(Set.of(), Set.of());

    /** @throws BadInput if a sign is answered both ways, or is not known */
    public DangerAnswers {
        yes = Collections.unmodifiableSet(new TreeSet<>(yes));
        no = Collections.unmodifiableSet(new TreeSet<>(no));
        for (String id : yes) {
            if (no.contains(id)) {
                throw BadInput.of("danger sign %s: it is answered with yes and with no; keep one.", id);
            }
        }
        yes.forEach(Guidance::dangerSign);
        no.forEach(Guidance::dangerSign);
    }

    /** These answers and later ones; where they differ, a yes stays: whoever saw a danger sign is believed. */
    public DangerAnswers and(DangerAnswers later) {
        Set<String> there = new TreeSet<>(yes);
        there.addAll(later.yes);
        Set<String> notThere = new TreeSet<>(no);
        notThere.addAll(later.no);
        notThere.removeAll(there);
        return new DangerAnswers(there, notThere);
    }

    /** These answers and later ones; where they differ, the later one counts: whoever looks again may correct what was said. */
    public DangerAnswers correctedBy(DangerAnswers later) {
        Set<String> there = new TreeSet<>(yes);
        there.removeAll(later.no);
        there.addAll(later.yes);
        Set<String> notThere = new TreeSet<>(no);
        notThere.removeAll(later.yes);
        notThere.addAll(later.no);
        return new DangerAnswers(there, notThere);
    }

    /**
     * These answers without those to some signs: nobody is sure any more, which is neither yes nor no.
     *
     * @throws BadInput if a sign is not known
     */
    public DangerAnswers without(Collection<String> ids) {
        ids.forEach(Guidance::dangerSign);
        Set<String> there = new TreeSet<>(yes);
        there.removeAll(ids);
        Set<String> notThere = new TreeSet<>(no);
        notThere.removeAll(ids);
        return new DangerAnswers(there, notThere);
    }

    /** Those given are there, and no other was asked. */
    public static DangerAnswers yes(String... ids) {
        return new DangerAnswers(Set.of(ids), Set.of());
    }

    /** Every sign that everybody of that age is asked was looked for and is not there. */
    public static DangerAnswers noneOf(Age age) {
        return noneOf(age, Conditions.NONE);
    }

    /** The same; only those given are there. */
    public static DangerAnswers noneOf(Age age, Collection<String> but) {
        return noneOf(age, Conditions.NONE, but);
    }

    /** Every sign that a person of that age with those conditions is asked was looked for and is not there. */
    public static DangerAnswers noneOf(Age age, Conditions known) {
        return noneOf(age, known, Set.of());
    }

    /** The same; only those given are there. */
    public static DangerAnswers noneOf(Age age, Conditions known, Collection<String> but) {
        Set<String> no = new TreeSet<>();
        Guidance.dangerSigns(age, known).forEach(s -> no.add(s.id()));
        no.removeAll(but);
        return new DangerAnswers(new TreeSet<>(but), no);
    }
}
