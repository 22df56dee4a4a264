package lungwort.cli;

import lungwort.BadInput;
import lungwort.diary.Diary;
import lungwort.diary.Person;
import lungwort.diary.Round;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;

/** One person of a diary, who must be named, and perhaps one of the rounds. */
final class DiaryRound {
    @Mixin
    private final DiaryPerson who = new DiaryPerson();

    @Option(names = "--round", paramLabel = "ID", description = "Which round, by the first characters of its id.")
    private @Nullable String id;

    Diary open() {
        return who.open();
    }

    Person person(Diary diary) {
        return who.person(diary);
    }

    boolean named() {
        return id != null;
    }

    /**
     * The round named, or null where none was.
     *
     * @throws BadInput if there is no such round, or it is another person's
     */
    @Nullable
    Round round(Diary diary, Person person) {
        return id == null ? null : of(diary, person, id);
    }

    /** The round of an id, which must be one of the person. */
    static Round of(Diary diary, Person person, String id) {
        Round round = diary.rounds().byPrefix(id);
        if (!round.personId().equals(person.id())) {
            throw new BadInput("Round %s is not one of %s; `lungwort diary show --person %s` lists those."
                    .formatted(id, person.nickname(), RoundText.quoted(person.nickname())));
        }
        return round;
    }

    /**
     * The newest round of a person.
     *
     * @throws BadInput if there is none yet
     */
    static Round newest(Diary diary, Person person) {
        return diary.rounds()
                .newest(person.id())
                .orElseThrow(
                        () -> new BadInput("There is no round of %s yet; begin one: lungwort round start --person %s"
                                .formatted(person.nickname(), RoundText.quoted(person.nickname()))));
    }
}
